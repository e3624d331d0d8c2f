// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing records; see entry.h.
#include "station/entry.h"

#include "station/clock_doubt.h"
#include "station/doubts.h"
#include "station/entry_check.h"
#include "station/entry_meaning.h"
#include "station/own_records.h"

#include <utility>

namespace station {

namespace {

using logbook::Instant;
using logbook::Kind;
using logbook::Record;
using logbook::RecordName;

bool waits(const rules::Log& log, const Record& record) {
    return waitsForPin(log.firstEdition() ? log.stateAt(record.at, rules::unlimited)
                                          : rules::State{},
                       record.kind(), record.device);
}

class EntryWriting {
public:
    EntryWriting(const Surroundings& surroundings, const LogbookFile& file,
                 store::Logbook& logbook, const WholeLog& log)
        : m_surroundings(surroundings), m_logbook(logbook), m_log(log),
          m_gate(surroundings, file, log) {}

    Result<Written> write(const Entry& entry) {
        const auto name = nextName(m_surroundings, m_log);
        if (!name) {
            return tl::unexpected(name.error());
        }
        // What is no record is refused before anybody is asked for anything.
        const auto unsignedRecord = recordOf(m_surroundings, {entry, {entry.by.who, "", true}},
                                             *name, m_surroundings.clock.now());
        if (!unsignedRecord) {
            return tl::unexpected(unsignedRecord.error());
        }
        const bool isWaiting = waits(m_log.log, *unsignedRecord);
        auto signature = isWaiting ? m_gate.sign(entry.by) : m_gate.signUnwaiting(entry.by);
        if (!signature) {
            return tl::unexpected(std::move(signature.error()));
        }
        auto settled = settleDoubts(m_surroundings, m_logbook, m_log, entry, isWaiting);
        if (!settled) {
            return tl::unexpected(std::move(settled.error()));
        }
        Draft draft{entry, *signature};
        draft.entry.body = std::move(settled->body);
        if (auto verified = signWitness(draft.entry); !verified) {
            return tl::unexpected(std::move(verified.error()));
        }
        const auto now = m_surroundings.clock.now();
        const auto record = recordOf(m_surroundings, draft, *name, now);
        if (!record) {
            return tl::unexpected(record.error());
        }
        auto warnings = checkEntry(m_surroundings, m_log.log, *record);
        if (!warnings) {
            return tl::unexpected(std::move(warnings.error()));
        }
        warnings->insert(warnings->end(), settled->warnings.begin(), settled->warnings.end());
        if (m_log.verification && !m_log.verification->ok) {
            warnings->push_back(m_surroundings.words.say("verify.file_damaged"));
        }
        warnings->insert(warnings->begin(), signature->remarks.begin(), signature->remarks.end());
        const auto written = appendOwn(m_surroundings, m_logbook, {draft}, now);
        if (!written) {
            return tl::unexpected(written.error());
        }
        // It is on the disk: that the clock could not be noted makes it no less.
        (void)noteClock(m_surroundings, m_logbook);
        return Written{written->front(), signature->name, signature->confirmed,
                       signature->isKnown, std::move(*warnings),
                       entryMeaning(m_surroundings, m_log.log, *record)};
    }

private:
    // A second person verifies in their own name, or has signed the form that is copied.
    Result<void> signWitness(Entry& entry) const {
        if (!entry.witness || entry.form) {
            return {};
        }
        const auto signature = m_gate.sign(*entry.witness);
        if (!signature) {
            return tl::unexpected(signature.error());
        }
        entry.witness = Writer(signature->person);
        return {};
    }

    const Surroundings& m_surroundings;
    store::Logbook& m_logbook;
    const WholeLog& m_log;
    Gate m_gate;
};

}  // namespace

bool waitsForPin(const rules::State& state, Kind kind, const std::string& device) {
    switch (kind) {
        case Kind::UseStart:
        case Kind::UsePause:
        case Kind::UseResume:
        case Kind::UseEnd:
        case Kind::Fault:
        case Kind::Withdraw:
        case Kind::Soil:
        case Kind::Alarm: return false;
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Move: {
            const auto* unit = state.device(device);
            return unit == nullptr || !unit->use;
        }
        case Kind::Adopt: return state.rulebook != nullptr;
        default: return true;
    }
}

Result<Written> writeEntry(const Surroundings& surroundings, const LogbookFile& file,
                           const Entry& entry) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        return EntryWriting(surroundings, file, logbook, log).write(entry);
    });
}

Result<Written> strike(const Surroundings& surroundings, const LogbookFile& file,
                       const Writer& by, const RecordName& target, const std::string& reason) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        Entry entry{by, "strike"};
        const auto index = log.log.find(target);
        entry.device = index ? log.log.records()[*index].device : "";
        entry.body = {{"target", toText(target)}, {"reason", reason}};
        return EntryWriting(surroundings, file, logbook, log).write(entry);
    });
}

Result<Adopted> adopt(const Surroundings& surroundings, const LogbookFile& file,
                      const Adoption& adoption) {
    std::vector<std::string> warnings;
    const auto entry = adoptionOf(surroundings, adoption, warnings);
    if (!entry) {
        return tl::unexpected(entry.error());
    }
    const auto written = writeEntry(surroundings, file, *entry);
    if (!written) {
        return tl::unexpected(written.error());
    }
    warnings.insert(warnings.end(), written->warnings.begin(), written->warnings.end());
    std::string edition;
    for (const auto& [field, value] : entry->body) {
        if (field == "edition" && value.string() != nullptr) {
            edition = *value.string();
        }
    }
    return Adopted{*written, edition, std::move(warnings)};
}

}  // namespace station
