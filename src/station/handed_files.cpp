// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading record files and telling where their records stand; see handed_files.h.
#include "station/handed_files.h"

#include "exchange/record_file.h"
#include "station/system.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace station {

namespace {

using logbook::Record;

constexpr std::size_t mostPlaces = 100;
// No record is shorter, as a line.
constexpr std::size_t shortestLine = 100;

// The faulty lines of all files as one problem.
class FaultyFiles {
public:
    FaultyFiles(const words::Words& words, bool oneFile) : m_words(words), m_oneFile(oneFile) {}

    void add(const std::filesystem::path& path, exchange::RecordFileFault fault) {
        m_names += (m_names.empty() ? "" : ", ") + path.string();
        m_count += fault.lines.size() + fault.more;
        const auto listed = std::min(fault.lines.size(), exchange::faultyLinesListed - m_listed);
        fault.lines.resize(listed);
        fault.more = 0;
        m_listed += listed;
        for (const auto& detail : problemOf(m_words, fault, path).details) {
            m_details.push_back(m_oneFile ? detail
                                          : m_words.say("file.of", {{"path", path.string()},
                                                                    {"sentence", detail}}));
        }
    }

    [[nodiscard]] bool none() const { return m_count == 0; }

    [[nodiscard]] Problem problem() const {
        auto problem = problemOf(m_words, "trouble.bad_records",
                                 {{"path", m_names}, {"count", std::to_string(m_count)}});
        problem.details = m_details;
        if (m_count > m_listed) {
            problem.details.push_back(m_words.say(
                "file.more_lines", {{"count", std::to_string(m_count - m_listed)}}));
        }
        return problem;
    }

private:
    const words::Words& m_words;
    bool m_oneFile;
    std::string m_names;
    std::size_t m_count = 0, m_listed = 0;  // lines
    std::vector<std::string> m_details;
};

}  // namespace

Result<HandedFiles> HandedFiles::read(const words::Words& words,
                                      const std::vector<std::filesystem::path>& paths) {
    HandedFiles handed(words);
    FaultyFiles faulty(words, paths.size() == 1);
    for (const auto& path : paths) {
        auto bytes = system::readFile(path);
        if (!bytes) {
            return tl::unexpected(problemOf(words, bytes.error(), path));
        }
        auto added = handed.add(path, *std::move(bytes));
        if (added) {
            continue;
        }
        if (added.error().code != exchange::RecordFileFault::Code::Lines) {
            return tl::unexpected(problemOf(words, added.error(), path));
        }
        faulty.add(path, std::move(added.error()));
    }
    if (!faulty.none()) {
        return tl::unexpected(faulty.problem());
    }
    return handed;
}

tl::expected<void, exchange::RecordFileFault> HandedFiles::add(const std::filesystem::path& path,
                                                               std::string bytes) {
    const auto& file =
        m_files.emplace_back(File{path.string(), m_records.size(), std::move(bytes)});
    // A line may be blank, or none of a record.
    const auto lines = static_cast<std::size_t>(std::ranges::count(file.bytes, '\n')) + 1;
    m_records.reserve(m_records.size() + std::min(lines, file.bytes.size() / shortestLine));
    return exchange::readRecordFile(
        file.bytes, [this](std::size_t line, std::string_view text, Record& record) {
            m_lines.push_back(line);
            m_records.push_back(lend(record, text));
            if (record.kind() == logbook::Kind::Adopt || record.kind() == logbook::Kind::Person) {
                m_founding.push_back(std::move(record));
            }
        });
}

store::LentRecord HandedFiles::lend(const Record& record, std::string_view line) {
    auto lent = store::lend(record);
    lent.station = kept(record.name.station);
    lent.device = kept(record.device);
    lent.content =
        lent.content == line ? line : std::string_view(m_contents.emplace_back(lent.content));
    return lent;
}

std::string_view HandedFiles::kept(const std::string& name) {
    return *m_names.insert(name).first;
}

std::vector<std::string> HandedFiles::placesOf(
    const std::vector<logbook::RecordName>& names) const {
    std::vector<std::string> lines;
    const Places places = placesByName();
    for (const auto& name : names) {
        const auto found = places.find(name);
        if (found != places.end()) {
            add(lines, *found, "import.place", {});
        }
    }
    return bounded(std::move(lines));
}

std::vector<std::string> HandedFiles::placesBehind(
    const std::vector<logbook::RecordName>& missing) const {
    std::vector<std::string> lines;
    const Places places = placesByName();
    for (const auto& name : missing) {
        const auto found = places.upper_bound(name);
        if (found != places.end() && found->first.station == name.station) {
            add(lines, *found, "import.gap", toText(name));
        }
    }
    return bounded(std::move(lines));
}

// Only asked for by a refusal, and large.
HandedFiles::Places HandedFiles::placesByName() const {
    Places places;
    auto file = m_files.begin();
    for (std::size_t index = 0; index < m_records.size(); ++index) {
        while (std::next(file) != m_files.end() && std::next(file)->first <= index) {
            ++file;
        }
        places[nameOf(m_records[index])].push_back({file->path, m_lines[index]});
    }
    return places;
}

void HandedFiles::add(std::vector<std::string>& lines, const Places::value_type& record,
                      std::string_view key, const std::string& missing) const {
    for (const auto& place : record.second) {
        words::Gaps gaps{{"path", place.path},
                         {"line", std::to_string(place.line)},
                         {"record", toText(record.first)}};
        if (!missing.empty()) {
            gaps["missing"] = missing;
        }
        lines.push_back(m_words.say(key, gaps));
    }
}

std::vector<std::string> HandedFiles::bounded(std::vector<std::string> lines) const {
    if (lines.size() > mostPlaces) {
        const auto more = lines.size() - mostPlaces;
        lines.resize(mostPlaces);
        lines.push_back(m_words.say("import.more", {{"count", std::to_string(more)}}));
    }
    return lines;
}

}  // namespace station
