// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads and writes the holder file.
#include "store/holder.h"

#include "logbook/json.h"
#include "store/operating_system.h"

#include <system_error>

namespace store {

namespace json = logbook::json;

namespace {

constexpr std::size_t mostBytes = 64 * 1024;  // names of a person and a computer are shorter

std::string toText(const Holder& holder) {
    return json::canonical(json::Object{{"person", holder.person},
                                        {"computer", holder.computer},
                                        {"process", static_cast<double>(holder.process)},
                                        {"since", logbook::toText(holder.since)}});
}

std::optional<Holder> holderOf(const json::Value& value) {
    const json::Value* person = value.find("person");
    const json::Value* computer = value.find("computer");
    const json::Value* process = value.find("process");
    const json::Value* since = value.find("since");
    if (person == nullptr || person->string() == nullptr || computer == nullptr ||
        computer->string() == nullptr || process == nullptr || process->number() == nullptr ||
        since == nullptr || since->string() == nullptr) {
        return std::nullopt;
    }
    const auto instant = logbook::parseInstant(*since->string());
    const double number = *process->number();
    if (!instant || !(number >= 0 && number <= 2147483647.0)) {
        return std::nullopt;
    }
    return Holder{*person->string(), *computer->string(), static_cast<std::int64_t>(number),
                  *instant};
}

}  // namespace

std::filesystem::path holderPath(const std::filesystem::path& logbook) {
    std::filesystem::path path = logbook;
    path += ".holder";
    return path;
}

std::optional<Holder> readHolder(const std::filesystem::path& logbook) {
    const auto text = system::readSmallFile(holderPath(logbook), mostBytes);
    if (!text) {
        return std::nullopt;
    }
    const auto value = json::parse(*text);
    if (!value) {
        return std::nullopt;
    }
    auto holder = holderOf(*value);
    if (holder && holder->computer == system::computerName() &&
        !system::processRuns(holder->process)) {
        return std::nullopt;
    }
    return holder;
}

HolderFile::HolderFile(const std::filesystem::path& logbook, const Holder& holder)
    : m_path(holderPath(logbook)), m_text(toText(holder)) {
    system::writeSmallFile(m_path, m_text);
}

HolderFile::~HolderFile() {
    if (system::readSmallFile(m_path, mostBytes) == m_text) {
        std::error_code ignored;
        std::filesystem::remove(m_path, ignored);
    }
}

}  // namespace store
