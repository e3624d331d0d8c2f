// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing records; see entry.h.
#include "station/entry.h"

#include "rules/rulebook_reader.h"
#include "station/entry_check.h"
#include "station/entry_meaning.h"

#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Instant;
using logbook::Record;
using logbook::RecordName;

json::Value toJson(const Entry& entry, const RecordName& name, Instant now) {
    json::Object record{{"station", name.station},
                        {"seq", static_cast<double>(name.seq)},
                        {"at", toText(entry.at.value_or(now))},
                        {"entered", toText(now)},
                        {"by", entry.by},
                        {"device", entry.device},
                        {"kind", entry.kind},
                        {"body", entry.body}};
    const std::pair<const char*, const std::optional<std::string>*> others[] = {
        {"done_by", &entry.doneBy}, {"witness", &entry.witness}, {"form", &entry.form},
        {"batch", &entry.batch},    {"moved_from", &entry.movedFrom}};
    for (const auto& [field, text] : others) {
        if (*text) {
            record.emplace_back(field, **text);
        }
    }
    return record;
}

Result<RecordName> nextName(const Surroundings& surroundings, const WholeLog& log) {
    if (!log.ownStation) {
        return tl::unexpected(
            problemOf(surroundings.words, store::Trouble{store::Trouble::Code::NoStation}));
    }
    const auto head = log.heads.find(*log.ownStation);
    return RecordName{*log.ownStation, head == log.heads.end() ? 1 : head->second.head.seq + 1};
}

// A clock that was set back since the last record of this station.
void warnOfClock(const Surroundings& surroundings, const WholeLog& log, const Record& record,
                 std::vector<std::string>& warnings) {
    const auto head = log.heads.find(record.name.station);
    if (head == log.heads.end() || head->second.entered <= record.entered) {
        return;
    }
    warnings.push_back(surroundings.words.say(
        "entry.clock_back", {{"time", toText(record.entered)},
                             {"last", toText(head->second.entered)}}));
}

// Another program may have written in the meantime: only with the lock held is the name certain.
Result<RecordName> append(const Surroundings& surroundings, store::Logbook& logbook,
                          const Entry& entry, Instant now) {
    const auto names = logbook.appendOwn(
        [&](const RecordName& next) {
            auto record = logbook::readRecord(toJson(entry, next, now));
            return record ? std::vector<Record>{std::move(*record)} : std::vector<Record>{};
        },
        {entry.by, now});
    if (!names) {
        return tl::unexpected(problemOf(surroundings.words, names.error()));
    }
    return names->front();
}

Result<Written> writeIn(const Surroundings& surroundings, store::Logbook& logbook,
                        const WholeLog& log, const Entry& entry) {
    const auto now = surroundings.clock.now();
    const auto name = nextName(surroundings, log);
    if (!name) {
        return tl::unexpected(name.error());
    }
    const auto record = logbook::readRecord(toJson(entry, *name, now));
    if (!record) {
        return tl::unexpected(problemOf(surroundings.words, record.error()));
    }
    auto warnings = checkEntry(surroundings, log.log, *record);
    if (!warnings) {
        return tl::unexpected(std::move(warnings.error()));
    }
    warnOfClock(surroundings, log, *record, *warnings);
    if (log.verification && !log.verification->ok) {
        warnings->push_back(surroundings.words.say("verify.file_damaged"));
    }
    const auto written = append(surroundings, logbook, entry, now);
    if (!written) {
        return tl::unexpected(written.error());
    }
    return Written{*written, std::move(*warnings), entryMeaning(surroundings, log.log, *record)};
}

// Opens, reads the log and hands both to `use`.
template <class Use>
auto withLog(const Surroundings& surroundings, const LogbookFile& file, Use use)
    -> decltype(use(std::declval<store::Logbook&>(), std::declval<const WholeLog&>())) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const auto log = readWholeLog(surroundings, *logbook);
    if (!log) {
        return tl::unexpected(log.error());
    }
    return use(*logbook, *log);
}

}  // namespace

Result<Written> writeEntry(const Surroundings& surroundings, const LogbookFile& file,
                           const Entry& entry) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        return writeIn(surroundings, logbook, log, entry);
    });
}

Result<Written> strike(const Surroundings& surroundings, const LogbookFile& file,
                       const std::string& by, const RecordName& target,
                       const std::string& reason) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        Entry entry{by, "strike"};
        const auto index = log.log.find(target);
        entry.device = index ? log.log.records()[*index].device : "";
        entry.body = {{"target", toText(target)}, {"reason", reason}};
        return writeIn(surroundings, logbook, log, entry);
    });
}

Result<Adopted> adopt(const Surroundings& surroundings, const LogbookFile& file,
                      const Adoption& adoption) {
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
    const auto written = writeEntry(surroundings, file, entry);
    if (!written) {
        return tl::unexpected(written.error());
    }
    auto warnings = remarkLines(surroundings.words, reading.warnings);
    warnings.insert(warnings.end(), written->warnings.begin(), written->warnings.end());
    return Adopted{written->record, reading.rulebook->edition, std::move(warnings)};
}

}  // namespace station
