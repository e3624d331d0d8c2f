// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files under another name until they are whole.
#include "store/unfinished_file.h"

#include "store/journal_file.h"
#include "store/operating_system.h"

#include <charconv>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace store {

namespace {

constexpr std::string_view ending = ".unfinished-";
constexpr int mostLeftOver = 1'000;

// "4711" or "4711-journal".
bool isOfStoppedProcess(std::string_view text) {
    std::int64_t number = 0;
    const auto* last = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), last, number);
    const std::string_view after(rest, static_cast<std::size_t>(last - rest));
    return error == std::errc() && number > 0 && (after.empty() || after == "-journal") &&
           !system::processRuns(number);
}

}  // namespace

UnfinishedFile::UnfinishedFile(const std::filesystem::path& finalPath)
    : m_finalPath(finalPath), m_path(finalPath) {
    m_path += std::string(ending) + std::to_string(system::processNumber());
    remove();
}

UnfinishedFile::~UnfinishedFile() {
    remove();
}

void UnfinishedFile::removeLeftOvers() const {
    const auto folder = m_finalPath.parent_path();
    if (system::networkFileSystemOf(folder)) {
        return;
    }
    const auto beginning = m_finalPath.filename().string() + std::string(ending);
    std::vector<std::filesystem::path> leftOver;
    std::error_code error;
    for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
        const auto name = entry->path().filename().string();
        if (name.starts_with(beginning) &&
            isOfStoppedProcess(std::string_view(name).substr(beginning.size()))) {
            leftOver.push_back(entry->path());
        }
    }
    for (const auto& path : leftOver) {
        std::filesystem::remove(path, error);
    }
}

std::error_code UnfinishedFile::takeName() const {
    if (const auto error = system::flush(m_path)) {
        return error;
    }
    if (const auto error = clearJournal()) {
        return error;
    }
    const auto error = system::moveWithoutReplacing(m_path, m_finalPath);
    // It may have both names, and be unable to lose either: the first goes with this.
    const auto taken = error ? system::fileNumber(m_finalPath) : std::nullopt;
    return taken && taken == system::fileNumber(m_path) ? std::error_code() : error;
}

std::error_code UnfinishedFile::confirmName() const {
    return system::flush(m_finalPath.parent_path());
}

std::error_code UnfinishedFile::clearJournal() const {
    const auto journal = journalOf(m_finalPath);
    std::error_code error;
    if (std::filesystem::exists(m_finalPath, error) || !std::filesystem::exists(journal, error)) {
        return {};
    }
    for (int number = 1; number <= mostLeftOver; ++number) {
        auto kept = journal;
        kept += number == 1 ? ".left-over" : ".left-over-" + std::to_string(number);
        error = system::moveWithoutReplacing(journal, kept);
        if (error != std::errc::file_exists) {
            return error;
        }
    }
    // It is not the name of the file itself that is taken.
    return std::make_error_code(std::errc::directory_not_empty);
}

void UnfinishedFile::remove() const {
    std::error_code ignored;
    std::filesystem::remove(m_path, ignored);
    std::filesystem::remove(journalOf(m_path), ignored);
}

}  // namespace store
