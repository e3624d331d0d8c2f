// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Importing record files; see import.h.
#include "station/import.h"

#include "rules/rulebook_reader.h"

#include <iterator>
#include <utility>

namespace station {

namespace {

using logbook::Record;

Result<std::vector<Record>> readFiles(const words::Words& words,
                                      const std::vector<std::filesystem::path>& paths) {
    std::vector<Record> records;
    for (const auto& path : paths) {
        const auto bytes = system::readFile(path);
        if (!bytes) {
            return tl::unexpected(problemOf(words, bytes.error(), path));
        }
        auto lines = exchange::readRecordFile(*bytes);
        if (!lines) {
            return tl::unexpected(problemOf(words, lines.error(), path));
        }
        records.reserve(records.size() + lines->size());
        for (auto& line : *lines) {
            records.push_back(std::move(line.record));
        }
    }
    return records;
}

// An edition that this version refuses would leave the log without a judge.
Result<void> checkEditions(const Surroundings& surroundings, const std::vector<Record>& records) {
    for (const auto& record : records) {
        const auto* adopt = std::get_if<logbook::body::Adopt>(&record.body);
        if (adopt == nullptr) {
            continue;
        }
        const auto reading = rules::readRulebook(adopt->text, surroundings.zones);
        const words::Gaps gaps{{"record", toText(record.name)}, {"edition", adopt->edition}};
        if (!reading.faults.empty()) {
            auto problem = problemOf(surroundings.words, "import.bad_rulebook", gaps);
            problem.details = remarkLines(surroundings.words, reading.faults);
            return tl::unexpected(std::move(problem));
        }
        if (reading.rulebook->edition != adopt->edition) {
            auto named = gaps;
            named["found"] = reading.rulebook->edition;
            return tl::unexpected(
                problemOf(surroundings.words, "import.wrong_edition", named));
        }
    }
    return {};
}

Result<void> refuseOwnName(const Surroundings& surroundings, const store::Logbook& logbook,
                           const std::vector<Record>& records) {
    const auto own = logbook.station();
    if (!own) {
        return tl::unexpected(problemOf(surroundings.words, own.error()));
    }
    const auto heads = own->has_value() ? logbook.heads() : store::StationHeads{};
    if (!heads) {
        return tl::unexpected(problemOf(surroundings.words, heads.error()));
    }
    const auto head = own->has_value() ? heads->find(**own) : heads->end();
    const auto written = head == heads->end() ? 0 : head->second.head.seq;
    for (const auto& record : records) {
        if (own->has_value() && record.name.station == **own && record.name.seq > written) {
            return tl::unexpected(problemOf(
                surroundings.words, "import.own_name",
                {{"record", toText(record.name)}, {"station", record.name.station}}));
        }
    }
    return {};
}

std::string namesOf(const std::vector<std::filesystem::path>& paths) {
    std::string names;
    for (const auto& path : paths) {
        names += (names.empty() ? "" : ", ") + path.filename().string();
    }
    return names;
}

Result<ImportAnswer> append(const Surroundings& surroundings, store::Logbook& logbook,
                            const std::vector<Record>& records, const std::string& names) {
    if (const auto allowed = refuseOwnName(surroundings, logbook, records); !allowed) {
        return tl::unexpected(allowed.error());
    }
    const auto result = logbook.importRecords(
        records, names, {surroundings.login, surroundings.clock.now()});
    if (!result) {
        return tl::unexpected(problemOf(surroundings.words, result.error()));
    }
    return ImportAnswer{result->added, result->skipped, false};
}

}  // namespace

Result<ImportAnswer> importFiles(const Surroundings& surroundings, const LogbookFile& file,
                                 const std::vector<std::filesystem::path>& paths) {
    const auto records = readFiles(surroundings.words, paths);
    if (!records) {
        return tl::unexpected(records.error());
    }
    if (const auto sound = checkEditions(surroundings, *records); !sound) {
        return tl::unexpected(sound.error());
    }
    const bool isThere = system::exists(file.path);
    auto answer = [&]() -> Result<ImportAnswer> {
        auto logbook = openLogbook(surroundings, file, isThere ? Access::Write : Access::Create);
        if (!logbook) {
            return tl::unexpected(std::move(logbook.error()));
        }
        return append(surroundings, *logbook, *records, namesOf(paths));
    }();
    if (answer) {
        answer->made = !isThere;
    } else if (!isThere) {
        system::removeFile(file.path);
    }
    return answer;
}

}  // namespace station
