// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Importing record files; see import.h.
#include "station/import.h"

#include "logbook/text.h"
#include "rules/rulebook_reader.h"
#include "station/managers.h"
#include "station/snapshots.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace station {

namespace {

using logbook::Record;

constexpr std::size_t mostPlaces = 100;

// The records of all files, and where each stands.
class Handed {
public:
    explicit Handed(const words::Words& words) : m_words(words) {}

    void add(const std::filesystem::path& path, std::vector<exchange::RecordLine>& lines) {
        m_files.push_back({path.string(), m_records.size()});
        m_records.reserve(m_records.size() + lines.size());
        m_lines.reserve(m_records.size() + lines.size());
        for (auto& line : lines) {
            m_lines.push_back(line.line);
            m_records.push_back(std::move(line.record));
        }
    }

    [[nodiscard]] const std::vector<Record>& records() const { return m_records; }

    // A line for each place where the records stand.
    [[nodiscard]] std::vector<std::string> placesOf(
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

    // The same for the first record behind each that is missing.
    [[nodiscard]] std::vector<std::string> placesBehind(
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

private:
    struct File {
        std::string path;
        std::size_t first = 0;  // its first record
    };
    struct Place {
        std::string path;
        std::size_t line = 0;
    };
    using Places = std::map<logbook::RecordName, std::vector<Place>>;

    // Only asked for by a refusal, and large.
    [[nodiscard]] Places placesByName() const {
        Places places;
        auto file = m_files.begin();
        for (std::size_t index = 0; index < m_records.size(); ++index) {
            while (std::next(file) != m_files.end() && std::next(file)->first <= index) {
                ++file;
            }
            places[m_records[index].name].push_back({file->path, m_lines[index]});
        }
        return places;
    }

    void add(std::vector<std::string>& lines, const Places::value_type& record,
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

    [[nodiscard]] std::vector<std::string> bounded(std::vector<std::string> lines) const {
        if (lines.size() > mostPlaces) {
            const auto more = lines.size() - mostPlaces;
            lines.resize(mostPlaces);
            lines.push_back(m_words.say("import.more", {{"count", std::to_string(more)}}));
        }
        return lines;
    }

    const words::Words& m_words;
    std::vector<Record> m_records;
    std::vector<std::size_t> m_lines;  // of the records
    std::vector<File> m_files;
};

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

Result<Handed> readFiles(const words::Words& words,
                         const std::vector<std::filesystem::path>& paths) {
    Handed handed(words);
    FaultyFiles faulty(words, paths.size() == 1);
    for (const auto& path : paths) {
        const auto bytes = system::readFile(path);
        if (!bytes) {
            return tl::unexpected(problemOf(words, bytes.error(), path));
        }
        auto lines = exchange::readRecordFile(*bytes);
        if (lines) {
            handed.add(path, *lines);
        } else if (lines.error().code == exchange::RecordFileFault::Code::Lines) {
            faulty.add(path, std::move(lines.error()));
        } else {
            return tl::unexpected(problemOf(words, lines.error(), path));
        }
    }
    if (!faulty.none()) {
        return tl::unexpected(faulty.problem());
    }
    return handed;
}

// Why an edition cannot be taken in, its place not yet named.
std::optional<Problem> refuseEdition(const Surroundings& surroundings, const Record& record,
                                     const logbook::body::Adopt& adopt) {
    const auto reading = rules::readRulebook(adopt.text, surroundings.zones);
    words::Gaps gaps{{"record", toText(record.name)}, {"edition", adopt.edition}};
    if (!reading.faults.empty()) {
        auto problem = problemOf(surroundings.words, "import.bad_rulebook", gaps);
        problem.details = remarkLines(surroundings.words, reading.faults);
        return problem;
    }
    if (reading.rulebook->edition != adopt.edition) {
        gaps["found"] = reading.rulebook->edition;
        return problemOf(surroundings.words, "import.wrong_edition", gaps);
    }
    return std::nullopt;
}

// An edition that this version refuses would leave the log without a judge.
Result<void> checkEditions(const Surroundings& surroundings, const Handed& handed) {
    std::optional<Problem> refused;  // the first, with the details of all
    for (const auto& record : handed.records()) {
        const auto* adopt = std::get_if<logbook::body::Adopt>(&record.body);
        auto found = adopt != nullptr ? refuseEdition(surroundings, record, *adopt) : std::nullopt;
        if (!found) {
            continue;
        }
        auto details = handed.placesOf({record.name});
        std::ranges::move(found->details, std::back_inserter(details));
        if (!refused) {
            refused = std::move(found);
            refused->details.clear();
        }
        std::ranges::move(details, std::back_inserter(refused->details));
    }
    if (refused) {
        return tl::unexpected(*std::move(refused));
    }
    return {};
}

Result<void> refuseOwnName(const Surroundings& surroundings, const store::Logbook& logbook,
                           const Handed& handed) {
    const auto own = logbook.station();
    if (!own) {
        return tl::unexpected(problemOf(surroundings.words, own.error()));
    }
    if (!own->has_value()) {
        return {};
    }
    const auto heads = logbook.heads();
    if (!heads) {
        return tl::unexpected(problemOf(surroundings.words, heads.error()));
    }
    const auto head = heads->find(**own);
    const auto written = head == heads->end() ? 0 : head->second.head.seq;
    std::vector<logbook::RecordName> foreign;
    for (const auto& record : handed.records()) {
        if (record.name.station == **own && record.name.seq > written) {
            foreign.push_back(record.name);
        }
    }
    if (foreign.empty()) {
        return {};
    }
    auto problem = problemOf(surroundings.words, "import.own_name",
                             {{"record", toText(foreign.front())}, {"station", **own}});
    std::ranges::sort(foreign);
    foreign.erase(std::ranges::unique(foreign).begin(), foreign.end());
    problem.details = handed.placesOf(foreign);
    return tl::unexpected(std::move(problem));
}

// A name in other bytes than UTF-8 is kept as far as it can be read.
std::string nameOf(const std::filesystem::path& path) {
    auto name = path.filename().string();
    if (!logbook::isUtf8(name)) {
        std::ranges::replace_if(
            name, [](char byte) { return static_cast<unsigned char>(byte) >= 0x80; }, '?');
    }
    return name;
}

std::string namesOf(const std::vector<std::filesystem::path>& paths) {
    std::string names;
    for (const auto& path : paths) {
        names += (names.empty() ? "" : ", ") + nameOf(path);
    }
    return names;
}

Problem refusalOf(const words::Words& words, const store::Trouble& trouble, const Handed& handed) {
    auto problem = problemOf(words, trouble);
    problem.details = trouble.code == store::Trouble::Code::Gap
                          ? handed.placesBehind(trouble.records)
                          : handed.placesOf(trouble.records);
    return problem;
}

struct Bringing {
    const Handed& handed;
    std::string names;  // of the files
    const Bringer& bringer;
};

struct Admitted {
    std::string person;
    std::vector<std::string> remarks;
};

// Who brings the files in: signed in where people sign in, else as they say.
Result<Admitted> admit(const Surroundings& surroundings, const LogbookFile& file,
                       const store::Logbook& logbook, const Bringing& bringing) {
    const auto& by = bringing.bringer.by;
    const auto pins = store::Credentials(file.path, file.trustLocks).pins();
    if (!pins) {
        return tl::unexpected(problemOf(surroundings.words, pins.error()));
    }
    if (pins->empty()) {
        return Admitted{by ? by->who : surroundings.login, {}};
    }
    if (!by) {
        return tl::unexpected(problemOf(surroundings.words, "import.nobody"));
    }
    const auto log = readWholeLog(surroundings, logbook);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    const auto signature = gate.sign(*by);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    return settlePeople(surroundings, {*log, bringing.handed.records(), gate.now(),
                                       signature->isManager, bringing.bringer.managersChange})
        .map([&](std::vector<std::string>&& remarks) {
            return Admitted{signature->person, std::move(remarks)};
        });
}

Result<ImportAnswer> append(const Surroundings& surroundings, const LogbookFile& file,
                            store::Logbook& logbook, const Bringing& bringing) {
    const auto& handed = bringing.handed;
    if (const auto allowed = refuseOwnName(surroundings, logbook, handed); !allowed) {
        return tl::unexpected(allowed.error());
    }
    auto admitted = admit(surroundings, file, logbook, bringing);
    if (!admitted) {
        return tl::unexpected(std::move(admitted.error()));
    }
    const auto result = logbook.importRecords(handed.records(), bringing.names,
                                              {admitted->person, surroundings.clock.now()});
    if (!result) {
        return tl::unexpected(refusalOf(surroundings.words, result.error(), handed));
    }
    renewSnapshots(surroundings, logbook);
    return ImportAnswer{result->added, result->skipped, false, std::move(admitted->remarks)};
}

}  // namespace

Result<ImportAnswer> importFiles(const Surroundings& surroundings, const LogbookFile& file,
                                 const std::vector<std::filesystem::path>& paths,
                                 const Bringer& bringer) {
    const auto handed = readFiles(surroundings.words, paths);
    if (!handed) {
        return tl::unexpected(handed.error());
    }
    if (const auto sound = checkEditions(surroundings, *handed); !sound) {
        return tl::unexpected(sound.error());
    }
    const bool isThere = system::exists(file.path);
    bool made = false;
    auto answer = [&]() -> Result<ImportAnswer> {
        auto logbook = openLogbook(surroundings, file, isThere ? Access::Write : Access::Create);
        if (!logbook) {
            return tl::unexpected(std::move(logbook.error()));
        }
        made = !isThere;
        return append(surroundings, file, *logbook, {*handed, namesOf(paths), bringer});
    }();
    if (answer) {
        answer->made = made;
    } else if (made) {
        removeIfEmpty(file);
    }
    return answer;
}

}  // namespace station
