// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files that are brought in together: their records, lent from the bytes of the files, and
// where each stands, for whoever must be told. Knows no logbook.
#pragma once

#include "station/problem.h"
#include "store/row.h"

#include <cstddef>
#include <deque>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <unordered_set>
#include <vector>

namespace station {

class HandedFiles {
public:
    // Problems: a file that cannot be read, and lines that are no records, of all files together.
    [[nodiscard]] static Result<HandedFiles> read(const words::Words& words,
                                                  const std::vector<std::filesystem::path>& paths);

    // The records look into the bytes and names that are kept here: a move keeps those where they
    // are, a copy would not.
    HandedFiles(HandedFiles&&) = default;
    HandedFiles& operator=(HandedFiles&&) = delete;
    HandedFiles(const HandedFiles&) = delete;
    HandedFiles& operator=(const HandedFiles&) = delete;
    ~HandedFiles() = default;

    // Of all files, in their order.
    [[nodiscard]] const std::vector<store::LentRecord>& records() const { return m_records; }
    // Those of them that adopt an edition or enter a person.
    [[nodiscard]] const std::vector<logbook::Record>& founding() const { return m_founding; }

    // A line for each place where the records stand.
    [[nodiscard]] std::vector<std::string> placesOf(
        const std::vector<logbook::RecordName>& names) const;
    // The same for the first record behind each that is missing.
    [[nodiscard]] std::vector<std::string> placesBehind(
        const std::vector<logbook::RecordName>& missing) const;

private:
    struct File {
        std::string path;
        std::size_t first = 0;  // its first record
        std::string bytes{};
    };
    struct Place {
        std::string path;
        std::size_t line = 0;
    };
    using Places = std::map<logbook::RecordName, std::vector<Place>>;

    explicit HandedFiles(const words::Words& words) : m_words(words) {}

    [[nodiscard]] tl::expected<void, exchange::RecordFileFault> add(
        const std::filesystem::path& path, std::string bytes);
    [[nodiscard]] store::LentRecord lend(const logbook::Record& record, std::string_view line);
    [[nodiscard]] std::string_view kept(const std::string& name);

    [[nodiscard]] Places placesByName() const;
    void add(std::vector<std::string>& lines, const Places::value_type& record,
             std::string_view key, const std::string& missing) const;
    [[nodiscard]] std::vector<std::string> bounded(std::vector<std::string> lines) const;

    const words::Words& m_words;
    std::deque<File> m_files;
    std::vector<store::LentRecord> m_records;
    std::vector<std::size_t> m_lines;  // of the records
    std::vector<logbook::Record> m_founding;
    std::unordered_set<std::string> m_names;  // of stations and devices
    std::deque<std::string> m_contents;       // that do not stand so in their file
};

}  // namespace station
