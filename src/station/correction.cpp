// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several records of one correction, checked one by one and appended together; see correction.h.
#include "station/correction.h"

#include "logbook/kind.h"
#include "station/doubts.h"
#include "station/entry_check.h"
#include "station/entry_meaning.h"
#include "station/own_records.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Record;
using logbook::RecordName;

json::Object bodyOf(const Record& record) {
    const auto content = json::parse(record.content);
    const auto* body = content ? content->find("body") : nullptr;
    const auto* object = body != nullptr ? body->object() : nullptr;
    return object != nullptr ? *object : json::Object{};
}

class CorrectionWriting {
public:
    CorrectionWriting(const Surroundings& surroundings, const LogbookFile& file,
                      store::Logbook& logbook, const WholeLog& log, const Correction& correction)
        : m_surroundings(surroundings), m_logbook(logbook), m_log(log),
          m_gate(surroundings, file, log), m_correction(correction) {}

    Result<Corrected> strike() { return write({}); }

    Result<Corrected> moveTo(const std::string& device) {
        const auto index = m_log.log.find(m_correction.record);
        if (index) {
            const auto& from = m_log.log.records()[*index].device;
            if (from.empty() || from == device) {
                return problem(from.empty() ? "correction.no_unit" : "correction.same_unit",
                               {{"record", toText(m_correction.record)}, {"device", device}});
            }
        }
        return write(device);
    }

private:
    [[nodiscard]] tl::unexpected<Problem> problem(std::string_view code,
                                                  const words::Gaps& gaps) const {
        return tl::unexpected(problemOf(m_surroundings.words, code, gaps));
    }

    // The entry named and, if it is wanted, those of its batch that still stand; in reading order.
    // With `device` only those on the same unit.
    [[nodiscard]] Result<std::vector<const Record*>> targets(bool sameUnit) const {
        const auto index = m_log.log.find(m_correction.record);
        if (!index) {
            return problem("entry.no_target", {{"record", toText(m_correction.record)}});
        }
        const auto& named = m_log.log.records()[*index];
        if (!m_correction.withBatch) {
            return std::vector<const Record*>{&named};
        }
        if (!named.batch) {
            return problem("correction.no_batch", {{"record", toText(named.name)}});
        }
        std::vector<const Record*> found;
        for (std::size_t each = 0; each < m_log.log.records().size(); ++each) {
            const auto& record = m_log.log.records()[each];
            const bool ofBatch = record.batch == named.batch &&
                                 record.name.station == named.name.station &&
                                 (!sameUnit || record.device == named.device);
            if (ofBatch && m_log.log.struckBy(each) == nullptr) {
                found.push_back(&record);
            }
        }
        if (found.empty()) {
            return problem("entry.struck_already", {{"record", toText(named.name)}});
        }
        return found;
    }

    [[nodiscard]] Draft strikeOf(const Record& target, const Signature& signature) const {
        Entry entry{m_correction.by, "strike", target.device};
        entry.namesNoPatient = m_correction.namesNoPatient;
        entry.body = {{"target", toText(target.name)}, {"reason", m_correction.reason}};
        return {std::move(entry), signature};
    }

    [[nodiscard]] Draft reentryOf(const Record& target, const std::string& device,
                                  const Signature& signature) const {
        Entry entry{m_correction.by, std::string(logbook::kindName(target.kind())), device,
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
        return {std::move(entry), signature};
    }

    // The drafts as records, each held against the log before; what is refused says of which entry.
    [[nodiscard]] Result<std::vector<Record>> checked(const std::vector<Draft>& drafts,
                                                      const std::vector<const Record*>& targets,
                                                      logbook::Instant now) const {
        auto next = nextName(m_surroundings, m_log);
        if (!next) {
            return tl::unexpected(next.error());
        }
        std::vector<Record> records;
        for (std::size_t index = 0; index < drafts.size(); ++index) {
            auto record = recordOf(m_surroundings, drafts[index], *next, now);
            ++next->seq;
            if (!record) {
                return tl::unexpected(about(*targets[index % targets.size()], record.error()));
            }
            // Its remarks are left out: they are about the log without the entries before it.
            const auto allowed = checkEntry(m_surroundings, m_log.log, *record);
            if (!allowed) {
                return tl::unexpected(about(*targets[index % targets.size()], allowed.error()));
            }
            records.push_back(*std::move(record));
        }
        return records;
    }

    [[nodiscard]] Problem about(const Record& target, Problem problem) const {
        problem.details.insert(problem.details.begin(),
                               m_surroundings.words.say("correction.of_entry",
                                                        {{"record", toText(target.name)}}));
        return problem;
    }

    // `device` empty: nothing is entered anew.
    Result<Corrected> write(const std::string& device) {
        const auto found = targets(!device.empty());
        if (!found) {
            return tl::unexpected(found.error());
        }
        auto signature = m_gate.sign(m_correction.by);
        if (!signature) {
            return tl::unexpected(std::move(signature.error()));
        }
        const auto settled =
            settleDoubts(m_surroundings, m_logbook, m_log,
                         strikeOf(*found->front(), *signature).entry, true);
        if (!settled) {
            return tl::unexpected(settled.error());
        }
        std::vector<Draft> drafts;
        for (const auto* target : *found) {
            drafts.push_back(strikeOf(*target, *signature));
        }
        for (const auto* target : *found) {
            if (!device.empty()) {
                drafts.push_back(reentryOf(*target, device, *signature));
            }
        }
        const auto now = m_surroundings.clock.now();
        const auto records = checked(drafts, *found, now);
        if (!records) {
            return tl::unexpected(records.error());
        }
        const auto written = appendOwn(m_surroundings, m_logbook, drafts, now);
        if (!written) {
            return tl::unexpected(written.error());
        }
        Corrected corrected;
        for (const auto* target : *found) {
            corrected.struck.push_back(target->name);
        }
        corrected.reentered.assign(written->begin() + static_cast<std::ptrdiff_t>(found->size()),
                                   written->end());
        auto meaning = correctionMeaning(m_surroundings, m_log.log, *records);
        corrected.warnings = settled->warnings;
        corrected.warnings.insert(corrected.warnings.end(), meaning.warnings.begin(),
                                  meaning.warnings.end());
        corrected.meaning = std::move(meaning.standing);
        return corrected;
    }

    const Surroundings& m_surroundings;
    store::Logbook& m_logbook;
    const WholeLog& m_log;
    Gate m_gate;
    const Correction& m_correction;
};

}  // namespace

Result<Corrected> strikeTogether(const Surroundings& surroundings, const LogbookFile& file,
                                 const Correction& correction) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        return CorrectionWriting(surroundings, file, logbook, log, correction).strike();
    });
}

Result<Corrected> moveToUnit(const Surroundings& surroundings, const LogbookFile& file,
                             const Correction& correction, const std::string& device) {
    return withLog(surroundings, file, [&](store::Logbook& logbook, const WholeLog& log) {
        return CorrectionWriting(surroundings, file, logbook, log, correction).moveTo(device);
    });
}

}  // namespace station
