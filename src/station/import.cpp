// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Importing record files; see import.h.
#include "station/import.h"

#include "logbook/text.h"
#include "rules/rulebook_reader.h"
#include "station/handed_files.h"
#include "station/imported_notices.h"
#include "station/managers.h"
#include "station/open_log.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace station {

namespace {

using logbook::Record;

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
Result<void> checkEditions(const Surroundings& surroundings, const HandedFiles& handed) {
    std::optional<Problem> refused;  // the first, with the details of all
    for (const auto& record : handed.founding()) {
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
                           const HandedFiles& handed) {
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
        if (record.station == **own && record.seq > written) {
            foreign.push_back(nameOf(record));
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

Problem refusalOf(const words::Words& words, const store::Trouble& trouble,
                  const HandedFiles& handed) {
    auto problem = problemOf(words, trouble);
    problem.details = trouble.code == store::Trouble::Code::Gap
                          ? handed.placesBehind(trouble.records)
                          : handed.placesOf(trouble.records);
    return problem;
}

struct Bringing {
    const HandedFiles& handed;
    std::string names;  // of the files
    const Bringer& bringer;
};

struct Admitted {
    std::string person;
    std::vector<std::string> remarks;
    std::int64_t arrival = 0;  // of the last record of the log that it rests on
};

// Who brings the files in: signed in where people sign in, else as they say. Judged again and again
// if need be, and asked for the PIN once.
class Admission {
public:
    Admission(const Surroundings& surroundings, const LogbookFile& file,
              const store::Logbook& logbook, const Bringing& bringing)
        : m_surroundings(surroundings), m_file(file), m_logbook(logbook), m_bringing(bringing) {}

    Result<Admitted> judge() {
        const auto arrival = m_logbook.lastArrival();
        if (!arrival) {
            return tl::unexpected(problemOf(m_surroundings.words, arrival.error()));
        }
        const auto pins = store::Credentials(m_file.path, m_file.trustLocks).pins();
        if (!pins) {
            return tl::unexpected(problemOf(m_surroundings.words, pins.error()));
        }
        const auto& by = m_bringing.bringer.by;
        if (pins->empty()) {
            return Admitted{by ? by->who : m_surroundings.login, {}, *arrival};
        }
        if (!by) {
            return tl::unexpected(problemOf(m_surroundings.words, "import.nobody"));
        }
        auto log = readWholeLog(m_surroundings, m_logbook);
        if (log && !m_signature) {
            log = afterSigning(*by, *std::move(log));
        }
        return log ? settle(*log) : tl::unexpected(std::move(log.error()));
    }

private:
    // The log as it is when the PIN has been typed.
    Result<WholeLog> afterSigning(const Writer& by, WholeLog log) {
        auto signature = Gate(m_surroundings, m_file, log).sign(by);
        if (!signature) {
            return tl::unexpected(std::move(signature.error()));
        }
        m_signature = std::move(*signature);
        const auto arrival = m_logbook.lastArrival();
        if (!arrival) {
            return tl::unexpected(problemOf(m_surroundings.words, arrival.error()));
        }
        return *arrival == log.arrival ? std::move(log)
                                       : readWholeLog(m_surroundings, m_logbook);
    }

    Result<Admitted> settle(const WholeLog& log) const {
        const Gate gate(m_surroundings, m_file, log);
        const auto signature = gate.renewed(*m_signature);
        if (!signature) {
            return tl::unexpected(signature.error());
        }
        return settlePeople(m_surroundings,
                            {log, m_bringing.handed.founding(), gate.now(), signature->isManager,
                             m_bringing.bringer.managersChange})
            .map([&](std::vector<std::string>&& remarks) {
                return Admitted{signature->person, std::move(remarks), log.arrival};
            });
    }

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    const store::Logbook& m_logbook;
    const Bringing& m_bringing;
    std::optional<Signature> m_signature;
};

std::vector<logbook::RecordName> lastOf(const std::vector<store::LentRecord>& records) {
    std::map<std::string_view, std::int64_t> last;
    for (const auto& record : records) {
        auto& seq = last[record.station];
        seq = std::max(seq, record.seq);
    }
    std::vector<logbook::RecordName> names;
    for (const auto& [station, seq] : last) {
        names.push_back({std::string(station), seq});
    }
    return names;
}

// A clock was ahead where they were written, or is behind here.
void remarkLater(const Surroundings& surroundings,
                 const std::vector<store::LentRecord>& records,
                 std::vector<std::string>& remarks) {
    const auto now = surroundings.clock.now();
    const auto count = std::ranges::count_if(
        records, [&](const auto& record) { return record.entered > now; });
    if (count > 0) {
        remarks.push_back(surroundings.words.say(
            "done.later", {{"count", std::to_string(count)}, {"time", toText(now)}}));
    }
}

Result<ImportAnswer> append(const Surroundings& surroundings, const LogbookFile& file,
                            store::Logbook& logbook, const Bringing& bringing) {
    const auto& handed = bringing.handed;
    Admission admission(surroundings, file, logbook, bringing);
    for (int times = 1;; ++times) {
        if (const auto allowed = refuseOwnName(surroundings, logbook, handed); !allowed) {
            return tl::unexpected(allowed.error());
        }
        auto admitted = admission.judge();
        if (!admitted) {
            return tl::unexpected(std::move(admitted.error()));
        }
        const ImportedNotices notices(logbook, handed.records());
        const auto result = logbook.importRecords(
            handed.records(), bringing.names, {admitted->person, surroundings.clock.now()},
            admitted->arrival);
        if (result) {
            remarkLater(surroundings, handed.records(), admitted->remarks);
            notices.addRemarks(surroundings, file, admitted->remarks);
            return ImportAnswer{result->added, result->skipped, false,
                                std::move(admitted->remarks), lastOf(handed.records())};
        }
        if (result.error().code != store::Trouble::Code::LogMoved ||
            times == OpenLog::mostAttempts) {
            return tl::unexpected(refusalOf(surroundings.words, result.error(), handed));
        }
    }
}

}  // namespace

Result<ImportAnswer> importFiles(const Surroundings& surroundings, const LogbookFile& file,
                                 const std::vector<std::filesystem::path>& paths,
                                 const Bringer& bringer) {
    const auto handed = HandedFiles::read(surroundings.words, paths);
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
