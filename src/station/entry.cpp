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

    // All or none, in this order; each is held against the log with those before it.
    Result<std::vector<Written>> write(const std::vector<Entry>& entries) {
        auto name = nextName(m_surroundings, m_log);
        if (!name) {
            return tl::unexpected(name.error());
        }
        std::vector<Signed> all;
        for (const auto& entry : entries) {
            auto prepared = sign(entry, *name);
            if (!prepared) {
                return tl::unexpected(std::move(prepared.error()));
            }
            all.push_back(std::move(*prepared));
        }
        const auto now = m_surroundings.clock.now();
        std::vector<Draft> drafts;
        for (auto& each : all) {
            if (!drafts.empty()) {
                extend();
            }
            auto checked = check(each, *name, now);
            if (!checked) {
                return tl::unexpected(std::move(checked.error()));
            }
            ++name->seq;
            drafts.push_back(each.draft);
        }
        const auto names = appendOwn(m_surroundings, m_logbook, drafts, now);
        if (!names) {
            return tl::unexpected(names.error());
        }
        // It is on the disk: that the clock could not be noted makes it no less.
        (void)noteClock(m_surroundings, m_logbook);
        std::vector<Written> written;
        for (std::size_t index = 0; index < all.size(); ++index) {
            all[index].written.record = (*names)[index];
            written.push_back(std::move(all[index].written));
        }
        return written;
    }

private:
    // An entry whose writer has signed, and what is told of it.
    struct Signed {
        Draft draft;
        Written written;
    };

    Result<Signed> sign(const Entry& entry, const RecordName& name) const {
        // What is no record is refused before anybody is asked for anything.
        const auto unsignedRecord = recordOf(m_surroundings, {entry, {entry.by.who, "", true}},
                                             name, m_surroundings.clock.now());
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
        return Signed{std::move(draft), {{}, signature->name, signature->confirmed,
                                         signature->isKnown, std::move(settled->warnings)}};
    }

    // Adds to what is told, and to the log that the next entry is held against.
    Result<void> check(Signed& entry, const RecordName& name, Instant now) {
        const auto record = recordOf(m_surroundings, entry.draft, name, now);
        if (!record) {
            return tl::unexpected(record.error());
        }
        const auto& log = m_extended ? *m_extended : m_log.log;
        auto warnings = checkEntry(m_surroundings, log, *record);
        if (!warnings) {
            return tl::unexpected(std::move(warnings.error()));
        }
        auto& told = entry.written.warnings;
        const auto& remarks = entry.draft.signature.remarks;
        told.insert(told.begin(), warnings->begin(), warnings->end());
        if (m_log.verification && !m_log.verification->ok) {
            told.push_back(m_surroundings.words.say("verify.file_damaged"));
        }
        told.insert(told.begin(), remarks.begin(), remarks.end());
        entry.written.meaning = entryMeaning(m_surroundings, log, *record);
        m_after.push_back(*record);
        return {};
    }

    // The log with the entries before, for the next one.
    void extend() {
        auto records = m_log.log.records();
        records.insert(records.end(), m_after.begin(), m_after.end());
        m_extended.emplace(std::move(records), m_surroundings.zones);
    }

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
    std::vector<Record> m_after;
    std::optional<rules::Log> m_extended;
};

// One entry in a logbook that is open.
Result<Written> writeOne(EntryWriting writing, const Entry& entry) {
    auto written = writing.write({entry});
    if (!written) {
        return tl::unexpected(std::move(written.error()));
    }
    return std::move(written->front());
}

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
        return writeOne(EntryWriting(surroundings, file, logbook, log), entry);
    });
}

Result<std::vector<Written>> writeTogether(const Surroundings& surroundings,
                                           const LogbookFile& file,
                                           const std::vector<Entry>& entries) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        return EntryWriting(surroundings, file, logbook, log).write(entries);
    });
}

Result<Written> strike(const Surroundings& surroundings, const LogbookFile& file,
                       const Writer& by, const RecordName& target, const std::string& reason) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        Entry entry{by, "strike"};
        const auto index = log.log.find(target);
        entry.device = index ? log.log.records()[*index].device : "";
        entry.body = {{"target", toText(target)}, {"reason", reason}};
        return writeOne(EntryWriting(surroundings, file, logbook, log), entry);
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
