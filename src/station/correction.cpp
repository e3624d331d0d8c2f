// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several records of one correction, checked one by one and appended together; see correction.h.
#include "station/correction.h"

#include "logbook/kind.h"
#include "logbook/record_reader.h"
#include "station/entry_meaning.h"
#include "station/entry_outlook.h"
#include "station/own_records.h"
#include "station/signed_act.h"
#include "words/record_words.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Record;

json::Object bodyOf(const Record& record) {
    const auto content = json::parse(record.content);
    const auto* body = content ? content->find("body") : nullptr;
    const auto* object = body != nullptr ? body->object() : nullptr;
    return object != nullptr ? *object : json::Object{};
}

bool isOfBatch(const Record& record, const Record& named) {
    return record.batch == named.batch && record.name.station == named.name.station;
}

// Those of the batch of an entry that still stand; on its unit, or on all.
std::vector<const Record*> batchOf(const rules::Log& log, const Record& named, bool sameUnit) {
    std::vector<const Record*> found;
    for (std::size_t each = 0; each < log.records().size(); ++each) {
        const auto& record = log.records()[each];
        const bool isMeant =
            isOfBatch(record, named) && (!sameUnit || record.device == named.device);
        if (isMeant && log.struckBy(each) == nullptr) {
            found.push_back(&record);
        }
    }
    return found;
}

// The batch of an entry with that entry, found in the text of all records. Refused where some of
// that cannot be read: it is corrected whole, or not at all.
Result<std::vector<Record>> findBatch(const Surroundings& surroundings,
                                      const store::Logbook& logbook, const Record& named) {
    std::vector<std::string> kinds;
    for (int kind = 0; kind < logbook::kindCount; ++kind) {
        kinds.emplace_back(kindName(static_cast<logbook::Kind>(kind)));
    }
    const auto stated = R"("batch":)" + json::canonical(json::Value(*named.batch));
    std::vector<Record> found;
    bool hasReadAll = true;
    const auto read =
        logbook.forEachContent(kinds, [&](std::string_view, std::string_view content) {
            if (content.find(stated) == std::string_view::npos) {
                return;
            }
            auto record = logbook::readRecord(content);
            hasReadAll = hasReadAll && record;
            if (record && isOfBatch(*record, named)) {
                found.push_back(std::move(*record));
            }
        });
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    if (!hasReadAll || logbook.metDamage()) {
        return tl::unexpected(problemOf(surroundings.words, "correction.batch_unread", {},
                                        Problem::Weight::Logbook));
    }
    return found;
}

// What a correction is judged by. `device`: where the entries go; "" nowhere.
Result<Needed> neededFor(const Surroundings& surroundings, const store::Logbook& logbook,
                         const Correction& correction, const std::string& device) {
    Needed needed{{device}, {correction.record}, surroundings.clock.now()};
    const auto row = logbook.findRecord(correction.record);
    if (!row && row.error().code == store::Trouble::Code::NoRecord) {
        return needed;
    }
    if (!row) {
        return tl::unexpected(problemOf(surroundings.words, row.error()));
    }
    auto named = logbook::readRecord(std::string_view(row->content));
    if (!named) {
        return tl::unexpected(unreadable(surroundings, correction.record));
    }
    std::vector<Record> targets{*named};
    if (correction.withBatch && named->batch) {
        auto batch = findBatch(surroundings, logbook, *named);
        if (!batch) {
            return tl::unexpected(std::move(batch.error()));
        }
        targets = std::move(*batch);
    }
    for (const auto& target : targets) {
        needed.devices.insert(target.device);
        needed.records.push_back(target.name);
        needed.since = std::min(*needed.since, target.at);
    }
    return needed;
}

// A correction as entries, by the log as it stands.
class Correcting {
public:
    // `device` empty: nothing is entered anew.
    Correcting(const words::Words& words, const rules::Log& log, const Correction& correction,
               const std::string& device)
        : m_words(words), m_log(log), m_correction(correction), m_device(device) {}

    [[nodiscard]] Result<std::vector<Intended>> intended() const {
        const auto found = targets();
        if (!found) {
            return tl::unexpected(found.error());
        }
        std::vector<Intended> all;
        for (const auto* target : *found) {
            all.push_back({strikeOf(*target), target->name});
        }
        for (const auto* target : *found) {
            if (!m_device.empty()) {
                all.push_back({reentryOf(*target), target->name});
            }
        }
        return all;
    }

private:
    [[nodiscard]] tl::unexpected<Problem> problem(std::string_view code,
                                                  const words::Gaps& gaps) const {
        return tl::unexpected(problemOf(m_words, code, gaps));
    }

    // The entry named and, if it is wanted, those of its batch that still stand; in reading order.
    // For another unit only those on the same one.
    [[nodiscard]] Result<std::vector<const Record*>> targets() const {
        const words::Gaps gaps{{"record", toText(m_correction.record)}, {"device", m_device}};
        const auto index = m_log.find(m_correction.record);
        if (!index) {
            return problem("entry.no_target", gaps);
        }
        const auto& named = m_log.records()[*index];
        if (!m_device.empty() && (named.device.empty() || named.device == m_device)) {
            return problem(named.device.empty() ? "correction.no_unit" : "correction.same_unit",
                           gaps);
        }
        if (!m_correction.withBatch) {
            return std::vector<const Record*>{&named};
        }
        if (!named.batch) {
            return problem("correction.no_batch", gaps);
        }
        auto found = batchOf(m_log, named, !m_device.empty());
        if (found.empty()) {
            return problem("entry.struck_already", gaps);
        }
        if (const auto unseen = countUnseen(found); unseen > 0) {
            return problem("correction.not_shown", {{"count", std::to_string(unseen)}});
        }
        return found;
    }

    // Nothing is struck that nobody has looked at.
    [[nodiscard]] std::ptrdiff_t countUnseen(const std::vector<const Record*>& found) const {
        const auto& shown = m_correction.shown;
        return !shown ? 0 : std::ranges::count_if(found, [&](const Record* record) {
            return std::ranges::find(*shown, record->name) == shown->end();
        });
    }

    [[nodiscard]] Entry strikeOf(const Record& target) const {
        Entry entry{m_correction.by, "strike", target.device};
        entry.namesNoPatient = m_correction.namesNoPatient;
        entry.body = {{"target", toText(target.name)}, {"reason", m_correction.reason}};
        return entry;
    }

    [[nodiscard]] Entry reentryOf(const Record& target) const {
        Entry entry{m_correction.by, std::string(logbook::kindName(target.kind())), m_device,
                    bodyOf(target)};
        if (!logbook::mustBeTimely(target.kind())) {
            entry.at = target.at;
        }
        entry.doneBy = target.doneBy.value_or(target.by);
        if (target.witness) {
            entry.witness = Writer(*target.witness);
        }
        entry.form = target.form;
        entry.batch = target.batch.value_or(toText(m_correction.record));
        entry.movedFrom = toText(target.name);
        return entry;
    }

    const words::Words& m_words;
    const rules::Log& m_log;
    const Correction& m_correction;
    const std::string& m_device;
};

Result<Corrected> correct(const Surroundings& surroundings, const LogbookFile& file,
                          const Correction& correction, const std::string& device) {
    const auto open = OpenLog::open(surroundings, file, [&](const store::Logbook& logbook) {
        return neededFor(surroundings, logbook, correction, device);
    });
    if (!open) {
        return tl::unexpected(open.error());
    }
    SignedAct act(**open, [&](const OpenLog& log) {
        return Correcting(surroundings.words, log.log().log, correction, device).intended();
    });
    const auto kept = act.write(correction.by);
    if (!kept) {
        return tl::unexpected(kept.error());
    }
    Corrected corrected;
    corrected.device = device;
    for (const auto& record : kept->records) {
        const auto* strike = std::get_if<logbook::body::Strike>(&record.body);
        if (strike != nullptr) {
            corrected.struck.push_back(strike->target);
        } else {
            corrected.reentered.push_back(record.name);
        }
    }
    // What was odd about each is left out: it is about the log without the entries before it.
    auto meaning = correctionMeaning(surroundings, (*open)->log(), kept->records);
    corrected.warnings = kept->warnings;
    corrected.warnings.insert(corrected.warnings.end(), meaning.warnings.begin(),
                              meaning.warnings.end());
    corrected.meaning = std::move(meaning.standing);
    return corrected;
}

}  // namespace

Result<std::vector<CorrectionLine>> linesToCorrect(const Surroundings& surroundings,
                                                   const LogbookFile& file,
                                                   const Standing& standing,
                                                   const Correction& correction, bool moves) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto needed = neededFor(surroundings, *logbook, correction, {});
    if (!needed) {
        return tl::unexpected(needed.error());
    }
    const auto read = readAtHand(surroundings, file, *logbook, *needed);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const auto& log = read->log;
    const auto index = log.find(correction.record);
    if (!index || log.struckBy(*index) != nullptr) {
        return std::vector<CorrectionLine>();
    }
    const auto& named = log.records()[*index];
    std::vector<const Record*> targets{&named};
    if (correction.withBatch && named.batch) {
        targets = batchOf(log, named, moves);
    }
    std::vector<CorrectionLine> lines;
    for (const auto* record : targets) {
        const words::Context context{surroundings.words, standing.state,
                                     standing.state.device(record->device), standing.at, {},
                                     standing.lookup};
        lines.push_back({record->name, words::placedLine(context, *record)});
    }
    return lines;
}

namespace {

// Of no record that is kept.
constexpr std::int64_t firstUnused = 1'000'000'000;

// Strikes and entries as if written by those who wrote what they are about, who may.
std::vector<Record> asWritten(const Surroundings& surroundings, const LogAtHand& log,
                              const std::vector<Intended>& intended) {
    const auto now = surroundings.clock.now();
    logbook::RecordName name{log.ownStation.value_or("here"), firstUnused};
    std::vector<Record> records;
    for (const auto& [entry, target] : intended) {
        const auto* moved = target ? recordIn(log, *target) : nullptr;
        const auto writer = moved == nullptr ? entry.by.who : moved->by;
        auto record = recordOf(surroundings, {entry, {writer, writer}}, name, now);
        ++name.seq;
        if (record) {
            records.push_back(std::move(*record));
        }
    }
    return records;
}

}  // namespace

Result<MoveOutlook> moveOutlook(const Surroundings& surroundings, const LogbookFile& file,
                                const Standing& standing, const Correction& correction,
                                const std::string& device) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto needed = neededFor(surroundings, *logbook, correction, device);
    if (!needed) {
        return tl::unexpected(needed.error());
    }
    const auto read = readAtHand(surroundings, file, *logbook, *needed);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const auto intended =
        Correcting(surroundings.words, read->log, correction, device).intended();
    if (!intended) {
        return tl::unexpected(intended.error());
    }
    MoveOutlook outlook;
    for (const auto& [entry, target] : *intended) {
        if (entry.kind != logbook::kindName(logbook::Kind::Strike)) {
            outlook.entries.push_back(entry);
        }
    }
    outlook.told =
        entryOutlook(surroundings, file, standing, outlook.entries, {.isMove = true});
    if (const auto records = asWritten(surroundings, *read, *intended); !records.empty()) {
        const auto worse = worseBy(surroundings, *read, records);
        outlook.told.insert(outlook.told.end(), worse.begin(), worse.end());
    }
    return outlook;
}

Result<Corrected> strikeTogether(const Surroundings& surroundings, const LogbookFile& file,
                                 const Correction& correction) {
    return correct(surroundings, file, correction, {});
}

Result<Corrected> moveToUnit(const Surroundings& surroundings, const LogbookFile& file,
                             const Correction& correction, const std::string& device) {
    return correct(surroundings, file, correction, device);
}

}  // namespace station
