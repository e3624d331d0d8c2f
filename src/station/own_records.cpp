// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries to records of this station; see own_records.h.
#include "station/own_records.h"

#include "logbook/text.h"
#include "rules/rulebook_reader.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Instant;
using logbook::Record;
using logbook::RecordName;

json::Value toJson(const Draft& draft, const RecordName& name, Instant now) {
    const auto& entry = draft.entry;
    json::Object record{{"station", name.station},
                        {"seq", static_cast<double>(name.seq)},
                        {"at", toText(entry.at.value_or(now))},
                        {"entered", toText(now)},
                        {"by", draft.signature.person},
                        {"device", entry.device},
                        {"kind", entry.kind},
                        {"body", entry.body}};
    const std::pair<const char*, const std::optional<std::string>*> others[] = {
        {"done_by", &entry.doneBy},
        {"form", &entry.form},
        {"batch", &entry.batch},
        {"moved_from", &entry.movedFrom}};
    for (const auto& [field, text] : others) {
        if (*text) {
            record.emplace_back(field, **text);
        }
    }
    if (entry.witness) {
        record.emplace_back("witness", entry.witness->who);
    }
    if (!draft.signature.confirmed) {
        record.emplace_back("confirmed", false);
    }
    return record;
}

// The records that an entry names: what it strikes or answers, and where it was before.
std::vector<RecordName> namedBy(const Entry& entry) {
    std::vector<RecordName> names;
    const auto add = [&](const std::string* text) {
        const auto name = text != nullptr ? logbook::parseRecordName(*text) : std::nullopt;
        if (name) {
            names.push_back(*name);
        }
    };
    const auto body = json::Value(entry.body);
    const auto* target = body.find("target");
    add(target != nullptr ? target->string() : nullptr);
    add(entry.movedFrom ? &*entry.movedFrom : nullptr);
    return names;
}

}  // namespace

Result<Needed> neededFor(const Surroundings& surroundings, const store::Logbook& logbook,
                         const std::vector<Entry>& entries) {
    Needed needed;
    needed.since = surroundings.clock.now();
    for (const auto& entry : entries) {
        needed.devices.insert(entry.device);
        needed.since = std::min(*needed.since, entry.at.value_or(*needed.since));
        for (auto& name : namedBy(entry)) {
            const auto row = logbook.findRecord(name);
            if (row) {
                needed.since = std::min(*needed.since, row->place.at);
            } else if (row.error().code != store::Trouble::Code::NoRecord) {
                return tl::unexpected(problemOf(surroundings.words, row.error()));
            }
            needed.records.push_back(std::move(name));
        }
    }
    return needed;
}

namespace {

// What the file has as the name of its station came to harm, as no program keeps such a one; what
// must not wait goes on paper as of any damage.
Problem noStationsName(const words::Words& words, const std::string& name) {
    constexpr std::size_t mostShown = 40;
    auto problem = problemOf(words, "trouble.station_damaged",
                             {{"station", name.substr(0, mostShown)}}, Problem::Weight::Logbook);
    problem.code = "trouble.damaged";
    return problem;
}

}  // namespace

Result<RecordName> nextName(const Surroundings& surroundings, const WholeLog& log) {
    if (!log.ownStation) {
        return tl::unexpected(
            problemOf(surroundings.words, store::Trouble{store::Trouble::Code::NoStation}));
    }
    return nextName(surroundings, log, *log.ownStation);
}

Result<RecordName> nextName(const Surroundings& surroundings, const WholeLog& log,
                            const std::string& station) {
    if (!logbook::isStationName(station)) {
        return tl::unexpected(noStationsName(surroundings.words, station));
    }
    const auto head = log.heads.find(station);
    const auto last = head == log.heads.end() ? 0 : head->second.head.seq;
    if (last >= 0 && last < logbook::largestSeq) {
        return RecordName{station, last + 1};
    }
    // No program writes such a note; where the log goes on is told by nothing else.
    const auto gone = std::ranges::find(log.gone, station, [](const store::Break& each) {
        return each.record.station;
    });
    return tl::unexpected(unreadable(surroundings, gone == log.gone.end()
                                                       ? RecordName{station, 1}
                                                       : gone->record));
}

Result<Record> recordOf(const Surroundings& surroundings, const Draft& draft,
                        const RecordName& name, Instant now) {
    return logbook::readRecord(toJson(draft, name, now))
        .map_error([&](const logbook::RecordFaults& faults) {
            return problemOf(surroundings.words, faults);
        });
}

Result<Entry> adoptionOf(const Surroundings& surroundings, const Adoption& adoption,
                         std::vector<std::string>& warnings) {
    const auto text = system::readFile(adoption.rulebook);
    if (!text) {
        return tl::unexpected(problemOf(surroundings.words, text.error(), adoption.rulebook));
    }
    const auto reading = rules::readRulebook(*text, surroundings.zones);
    if (!reading.rulebook) {
        auto problem = problemOf(surroundings.words, "adopt.bad_rulebook",
                                 {{"path", adoption.rulebook.string()}});
        problem.details = remarkLines(surroundings.words, reading.faults);
        return tl::unexpected(std::move(problem));
    }
    Entry entry{adoption.by, "adopt"};
    entry.body = {{"edition", reading.rulebook->edition}, {"text", *text}};
    const std::pair<const char*, const std::optional<std::string>*> others[] = {
        {"approved_by", &adoption.approvedBy},
        {"department", &adoption.department},
        {"facility", &adoption.facility}};
    for (const auto& [field, value] : others) {
        if (*value) {
            entry.body.emplace_back(field, **value);
        }
    }
    const auto lines = remarkLines(surroundings.words, reading.warnings);
    warnings.insert(warnings.end(), lines.begin(), lines.end());
    return entry;
}

}  // namespace station
