// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrolling from fleet lists; see fleet_list.h.
#include "station/fleet_list.h"

#include "station/fleet_check.h"
#include "station/signed_act.h"
#include "store/database_mark.h"

#include <algorithm>
#include <iterator>
#include <system_error>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::body::Enrol;

json::Array listOf(const std::vector<std::string>& keys) {
    return {keys.begin(), keys.end()};
}

Result<void> requireEdition(const Surroundings& surroundings, const WholeLog& log) {
    if (!log.log.firstEdition()) {
        return tl::unexpected(lackOfEdition(surroundings, log,
                                            problemOf(surroundings.words, "entry.no_edition")));
    }
    return {};
}

// A logbook is no list, and is not read as a file: to close that would let go of the locks under
// which another thread of this program may be writing.
Result<std::string> bytesOf(const Surroundings& surroundings, const LogbookFile& file,
                            const std::filesystem::path& path) {
    std::error_code error;
    if (std::filesystem::equivalent(path, file.path, error)) {
        return std::string(store::databaseMark);
    }
    return system::readFile(path).map_error(
        [&](system::FileTrouble trouble) { return problemOf(surroundings.words, trouble, path); });
}

Result<exchange::FleetList> readList(const Surroundings& surroundings, const LogbookFile& file,
                                     const std::filesystem::path& path) {
    const auto bytes = bytesOf(surroundings, file, path);
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    return exchange::readFleetList(*bytes).map_error(
        [&](const std::vector<exchange::FleetFault>& faults) {
            auto problem =
                problemOf(surroundings.words, "fleet.bad_list", {{"path", path.string()}});
            for (const auto& fault : faults) {
                problem.details.push_back(reasonOf(surroundings.words, fault).sentence.text());
            }
            return problem;
        });
}

// What the list got wrong by itself, and what the log says of the same row.
RefusedUnit refusedOf(const words::Words& words, const exchange::RefusedFleetRow& refused,
                      std::vector<FleetReason> inLog) {
    RefusedUnit unit{refused.row.line, refused.row.serial, {}};
    for (const auto& fault : refused.faults) {
        unit.reasons.push_back(reasonOf(words, fault));
    }
    std::ranges::move(inLog, std::back_inserter(unit.reasons));
    return unit;
}

// To be looked at alone.
Result<LogAtHand> readOfNow(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    return neededFor(surroundings, *logbook, {}).and_then([&](const Needed& needed) {
        return readAtHand(surroundings, file, *logbook, needed);
    });
}

// What was good when the person looked may have been enrolled since.
std::optional<Problem> refuseChanged(const OpenLog& open, const FleetPreview& preview) {
    const auto& words = open.surroundings().words;
    if (preview.good.empty()) {
        return problemOf(words, "fleet.nothing");
    }
    const FleetCheck check(open.surroundings(), open.log());
    auto problem = problemOf(words, "fleet.changed");
    for (const auto& unit : preview.good) {
        for (const auto& reason : check.reasonsAgainst(unit.row, true)) {
            problem.details.push_back(
                words.say("fleet.of_unit", {{"unit", unit.row.serial},
                                            {"sentence", reason.sentence.text()}}));
        }
    }
    return problem.details.empty() ? std::nullopt : std::optional(std::move(problem));
}

// The good units as entries of one batch. Their texts the person has looked at.
std::vector<Intended> entriesOf(const OpenLog& open, const FleetTaking& taking) {
    std::vector<Intended> entries;
    for (const auto& unit : taking.preview.good) {
        Entry entry{taking.by, "enrol", unit.row.serial};
        entry.body = enrolBody(unit.row.unit);
        entry.batch = "fleet list " + toText(open.gate().now());
        entry.namesNoPatient = true;
        entries.push_back({std::move(entry)});
    }
    return entries;
}

}  // namespace

json::Object enrolBody(const Enrol& unit) {
    json::Object body{{"model", unit.model},
                      {"groups", listOf(unit.groups)},
                      {"features", listOf(unit.features)},
                      {"commissioned", logbook::toText(unit.commissioned)}};
    const std::pair<const char*, const std::optional<std::string>*> others[] = {
        {"label", &unit.label},       {"asset", &unit.asset}, {"maker", &unit.maker},
        {"udi", &unit.udi},           {"location", &unit.location},
        {"owner", &unit.owner},       {"return_by", &unit.returnBy}};
    for (const auto& [field, text] : others) {
        if (*text) {
            body.emplace_back(field, **text);
        }
    }
    return body;
}

Result<FleetPreview> previewFleet(const Surroundings& surroundings, const LogbookFile& file,
                                  const FleetAsked& asked) {
    const auto log = readOfNow(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    if (const auto edition = requireEdition(surroundings, *log); !edition) {
        return tl::unexpected(edition.error());
    }
    auto list = readList(surroundings, file, asked.list);
    if (!list) {
        return tl::unexpected(std::move(list.error()));
    }
    const FleetCheck check(surroundings, *log);
    FleetPreview preview{asked.list, {}, {}, std::move(list->ignored)};
    for (auto& row : list->rows) {
        auto reasons = check.reasonsInLog(row, asked.namesNoPatient);
        if (reasons.empty()) {
            auto remarks = check.remarksOn(row);
            preview.good.push_back({std::move(row), std::move(remarks)});
        } else {
            preview.refused.push_back({row.line, row.serial, std::move(reasons)});
        }
    }
    for (const auto& refused : list->refused) {
        preview.refused.push_back(
            refusedOf(surroundings.words, refused,
                      check.reasonsInLog(refused.row, asked.namesNoPatient)));
    }
    std::ranges::sort(preview.refused, {}, &RefusedUnit::line);
    return preview;
}

Result<FleetTaken> takeFleet(const Surroundings& surroundings, const LogbookFile& file,
                             const FleetTaking& taking) {
    const auto open = OpenLog::open(surroundings, file, [&](const store::Logbook& logbook) {
        return neededFor(surroundings, logbook, {});
    });
    if (!open) {
        return tl::unexpected(open.error());
    }
    SignedAct act(**open, [&](const OpenLog& log) -> Result<std::vector<Intended>> {
        if (const auto edition = requireEdition(surroundings, log.log()); !edition) {
            return tl::unexpected(edition.error());
        }
        if (auto refused = refuseChanged(log, taking.preview)) {
            return tl::unexpected(*std::move(refused));
        }
        return entriesOf(log, taking);
    });
    const auto kept = act.write(taking.by);
    if (!kept) {
        return tl::unexpected(kept.error());
    }
    FleetTaken taken{kept->signature.name, {}, kept->warnings};
    for (const auto& record : kept->records) {
        taken.records.push_back(record.name);
    }
    return taken;
}

Result<std::vector<FleetReason>> lookOver(const Surroundings& surroundings,
                                          const LogbookFile& file, const NewUnit& unit) {
    const auto log = readOfNow(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    if (const auto edition = requireEdition(surroundings, *log); !edition) {
        return tl::unexpected(edition.error());
    }
    return FleetCheck(surroundings, *log)
        .reasonsAgainst({0, unit.serial, unit.unit}, unit.namesNoPatient);
}

Result<Written> enrolUnit(const Surroundings& surroundings, const LogbookFile& file,
                          const Writer& by, const NewUnit& unit) {
    const auto reasons = lookOver(surroundings, file, unit);
    if (!reasons) {
        return tl::unexpected(reasons.error());
    }
    if (!reasons->empty()) {
        auto problem =
            problemOf(surroundings.words, "fleet.bad_unit", {{"unit", unit.serial}});
        for (const auto& reason : *reasons) {
            problem.details.push_back(reason.sentence.text());
        }
        return tl::unexpected(std::move(problem));
    }
    Entry entry{by, "enrol", unit.serial};
    entry.body = enrolBody(unit.unit);
    entry.namesNoPatient = unit.namesNoPatient;
    return writeEntry(surroundings, file, entry);
}

}  // namespace station
