// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several records of one correction, checked one by one and appended together; see correction.h.
#include "station/correction.h"

#include "logbook/kind.h"
#include "station/signed_act.h"
#include "station/entry_meaning.h"
#include "words/record_words.h"

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

// Those of the batch of an entry that still stand; on its unit, or on all.
std::vector<const Record*> batchOf(const rules::Log& log, const Record& named, bool sameUnit) {
    std::vector<const Record*> found;
    for (std::size_t each = 0; each < log.records().size(); ++each) {
        const auto& record = log.records()[each];
        const bool ofBatch = record.batch == named.batch &&
                             record.name.station == named.name.station &&
                             (!sameUnit || record.device == named.device);
        if (ofBatch && log.struckBy(each) == nullptr) {
            found.push_back(&record);
        }
    }
    return found;
}

// A correction as entries, by the log as it stands.
class Correcting {
public:
    // `device` empty: nothing is entered anew.
    Correcting(const OpenLog& open, const Correction& correction, const std::string& device)
        : m_words(open.surroundings().words), m_log(open.log().log), m_correction(correction),
          m_device(device) {}

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
        return found;
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
    const auto open = OpenLog::open(surroundings, file);
    if (!open) {
        return tl::unexpected(open.error());
    }
    SignedAct act(**open, [&](const OpenLog& log) {
        return Correcting(log, correction, device).intended();
    });
    const auto kept = act.write(correction.by);
    if (!kept) {
        return tl::unexpected(kept.error());
    }
    Corrected corrected;
    for (const auto& record : kept->records) {
        const auto* strike = std::get_if<logbook::body::Strike>(&record.body);
        if (strike != nullptr) {
            corrected.struck.push_back(strike->target);
        } else {
            corrected.reentered.push_back(record.name);
        }
    }
    // What was odd about each is left out: it is about the log without the entries before it.
    auto meaning = correctionMeaning(surroundings, (*open)->log().log, kept->records);
    corrected.warnings = kept->warnings;
    corrected.warnings.insert(corrected.warnings.end(), meaning.warnings.begin(),
                              meaning.warnings.end());
    corrected.meaning = std::move(meaning.standing);
    return corrected;
}

}  // namespace

std::vector<std::string> linesToCorrect(const Surroundings& surroundings,
                                        const WholeStanding& standing,
                                        const Correction& correction, bool moves) {
    const auto& log = standing.log->log;
    const auto index = log.find(correction.record);
    if (!index || log.struckBy(*index) != nullptr) return {};
    const auto& named = log.records()[*index];
    std::vector<const Record*> targets{&named};
    if (correction.withBatch && named.batch) targets = batchOf(log, named, moves);
    std::vector<std::string> lines;
    for (const auto* record : targets) {
        const words::Context context{surroundings.words, standing.state,
                                     standing.state.device(record->device), standing.at, {},
                                     standing.lookup};
        lines.push_back(words::placedLine(context, *record));
    }
    return lines;
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
