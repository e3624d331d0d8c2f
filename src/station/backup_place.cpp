// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of backups, and which may go; see backup_place.h.
#include "station/backup_place.h"

#include "station/system.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace station {

namespace {

using logbook::Instant;

constexpr std::int64_t secondMs = 1000, dayMs = 24 * 3600 * secondMs;
constexpr std::string_view ending = ".logbook";
constexpr std::size_t stampLength = 16;  // of stampOf

std::optional<Instant> instantOfStamp(std::string_view stamp) {
    std::string text(stamp);
    for (const auto& [place, letter] : {std::pair<std::size_t, char>{13, ':'},
                                       {11, ':'}, {6, '-'}, {4, '-'}}) {
        text.insert(place, 1, letter);
    }
    return logbook::parseInstant(text);
}

// Whether all that the backup holds is in the logbook as well. Nobody writes into a backup, so that
// no lock need be trusted.
bool holdsAllOf(const store::Logbook& logbook, const std::filesystem::path& path) {
    const auto backup = store::Logbook::open(path, {.access = Access::Read, .trustLocks = true});
    const auto heads = backup ? backup->heads() : tl::unexpected(backup.error());
    return heads && !heads->empty() && std::ranges::all_of(*heads, [&](const auto& each) {
        const auto& head = each.second.head;
        const auto row = logbook.findRecord({each.first, head.seq});
        return row && row->hash == head.hash;
    });
}

}  // namespace

Instant wholeSecond(Instant at) {
    return {at.ms - (at.ms % secondMs + secondMs) % secondMs};
}

std::string stampOf(Instant at) {
    auto text = toText(at);
    std::erase_if(text, [](char letter) { return letter == '-' || letter == ':'; });
    return text;
}

BackupPlace::BackupPlace(std::filesystem::path folder, const LogbookFile& file,
                         const std::optional<std::string>& station)
    : m_folder(std::move(folder)),
      m_beginning(file.path.stem().string() + "-" + (station ? *station + "-" : "")) {}

std::filesystem::path BackupPlace::pathAt(Instant at) const {
    return m_folder / (m_beginning + stampOf(at) + std::string(ending));
}

std::vector<Instant> BackupPlace::times() const {
    std::vector<Instant> times;
    for (const auto& name : system::namesIn(m_folder)) {
        const auto at = timeIn(name);
        if (at && name.size() == m_beginning.size() + stampLength + ending.size()) {
            times.push_back(*at);
        }
    }
    std::ranges::sort(times);
    return times;
}

void BackupPlace::keepOnly(std::size_t count, Instant last, const store::Logbook& logbook) const {
    auto all = times();
    if (all.size() <= count) {
        return;
    }
    std::erase(all, last);
    std::size_t staying = 1;
    for (auto at = all.rbegin(); at != all.rend(); ++at) {
        if (!holdsAllOf(logbook, pathAt(*at))) {
            continue;
        }
        if (staying < count) {
            ++staying;
        } else {
            system::removeFile(pathAt(*at));
        }
    }
}

void BackupPlace::tidy(Instant now) const {
    for (const auto& name : system::namesIn(m_folder)) {
        const auto at = timeIn(name);
        if (at && at->ms < now.ms - dayMs && name.find(".unfinished-") != std::string::npos) {
            system::removeFile(m_folder / name);
        }
    }
}

std::optional<Instant> BackupPlace::timeIn(const std::string& name) const {
    if (!name.starts_with(m_beginning) ||
        name.find(ending, m_beginning.size()) != m_beginning.size() + stampLength) {
        return std::nullopt;
    }
    return instantOfStamp(std::string_view(name).substr(m_beginning.size(), stampLength));
}

}  // namespace station
