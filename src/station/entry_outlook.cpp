// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries tried out on a copy of the state; see entry_outlook.h.
#include "station/entry_outlook.h"

#include "rules/discount_reasons.h"
#include "rules/fold.h"
#include "station/own_records.h"
#include "station/part_outlook.h"
#include "words/entry_words.h"
#include "words/finding_words.h"

#include <algorithm>
#include <memory>
#include <utility>

namespace station {

namespace {

using logbook::Record;

class Outlook {
public:
    Outlook(const Surroundings& surroundings, const LogbookFile& file, const Standing& standing,
            const StillToCome& toCome)
        : m_surroundings(surroundings), m_file(file), m_standing(standing), m_toCome(toCome),
          m_now(std::max(standing.at, surroundings.clock.now())) {}

    std::vector<std::string> of(const std::vector<Entry>& entries) {
        std::vector<std::string> told;
        logbook::RecordName name{m_standing.facts.ownStation.value_or("here"), firstUnused};
        std::vector<Record> records;
        for (const auto& entry : entries) {
            Draft draft{entry, {writerOf(entry), writerOf(entry)}};
            auto record = recordOf(m_surroundings, draft, name, m_now);
            ++name.seq;
            if (record) {
                records.push_back(std::move(*record));
            }
        }
        for (const auto& record : records) {
            if (!m_toCome.isMove && !waits(record)) {
                continue;
            }
            m_takesAway = !m_toCome.isMove && !isReplaced(records, record);
            if (auto why = whyNot(record); !why.empty()) {
                told.push_back(std::move(why));
            }
        }
        return told;
    }

private:
    // Of no record that is kept.
    static constexpr std::int64_t firstUnused = 1'000'000'000;

    // Nobody may have signed in yet.
    static std::string writerOf(const Entry& entry) {
        return entry.by.who.empty() ? "somebody" : entry.by.who;
    }

    [[nodiscard]] bool waits(const Record& record) const {
        return waitsForPin(m_standing.state, record.kind(), record.device);
    }

    // A part taken out there for which another is put in.
    static bool isReplaced(const std::vector<Record>& records, const Record& record) {
        const auto* removal = std::get_if<logbook::body::Remove>(&record.body);
        return removal != nullptr && std::ranges::any_of(records, [&](const Record& each) {
            const auto* fit = std::get_if<logbook::body::Fit>(&each.body);
            return fit != nullptr && fit->position == removal->position &&
                   each.device == record.device;
        });
    }

    // Nothing where it cannot be read.
    [[nodiscard]] std::optional<rules::State> stateAt(logbook::Instant at) const {
        if (at >= m_standing.at) {
            return m_standing.state;
        }
        auto then = standing(m_surroundings, m_file, {at, {}, {}});
        return then ? std::optional(std::move(then->state)) : std::nullopt;
    }

    // The state before the record, in which anybody may write: who may is asked when it is kept.
    rules::State* stateBefore(const Record& record) {
        if (!m_isRead || m_at != record.at) {
            m_isRead = true;
            m_at = record.at;
            m_state = stateAt(record.at);
            if (m_state) {
                auto rulebook = std::make_shared<rules::Rulebook>(*m_state->rulebook);
                rulebook->authority.clear();
                m_state->rulebook = std::move(rulebook);
            }
        }
        return m_state ? &*m_state : nullptr;
    }

    std::string whyNot(const Record& record) {
        auto* state = stateBefore(record);
        if (state == nullptr || state->device(record.device) == nullptr) {
            return "";
        }
        const auto before = *state;
        const auto effect = rules::fold(*state, record, {});
        if (isRefused(effect)) {
            return "";
        }
        if (!effect.effective) {
            return words::noEffect(context(before, record), record);
        }
        if (record.kind() == logbook::Kind::Reprocess && !happened(effect)) {
            return m_surroundings.words.say("no_effect.reprocess", {{"device", record.device}});
        }
        const auto loss = m_takesAway
                              ? takenFrom(m_surroundings.words, record, before, *state)
                              : std::string();
        if (const auto* fit = std::get_if<logbook::body::Fit>(&record.body)) {
            const auto unready = unreadyWith(*state, record, fit->position);
            return unready.empty() || loss.empty() ? unready + loss : unready + " " + loss;
        }
        if (!loss.empty()) {
            return loss;
        }
        const auto* check = std::get_if<logbook::body::Check>(&record.body);
        return check == nullptr ? "" : discount(*state, record, *check);
    }

    // A part may be moved here from another unit.
    static bool isRefused(const rules::Effect& effect) {
        return std::ranges::any_of(effect.anomalies, [](rules::AnomalyCode code) {
            return code != rules::AnomalyCode::PartMoved;
        });
    }

    // What stands against ready because of the part that is in that position now. Checks that fall
    // due with it do so with any part.
    [[nodiscard]] std::string unreadyWith(const rules::State& state, const Record& record,
                                          const std::string& position) const {
        const auto findings =
            findingsOn(context(state, record), position, PartFindings::Blocking);
        const bool isInUse = state.device(record.device)->use.has_value();
        return findings.empty() || isInUse
                   ? findings
                   : m_surroundings.words.say(
                                      "no_effect.unready_with",
                                      {{"device", record.device}, {"findings", findings}});
    }

    // On no part.
    static bool happened(const rules::Effect& effect) {
        return std::ranges::any_of(effect.events, [](const rules::DeviceEvent& each) {
            return each.event.kind == rules::EventKind::Reprocess;
        });
    }

    [[nodiscard]] std::string discount(const rules::State& state, const Record& record,
                                       const logbook::body::Check& check) const {
        const auto& checks = state.device(record.device)->checks;
        const auto found = checks.find(check.check);
        if (found == checks.end() || !found->second.discounted ||
            found->second.discounted->record.name != record.name) {
            return "";
        }
        auto discounted = *found->second.discounted;
        std::erase_if(discounted.reasons, [this](const std::string& reason) {
            return (m_toCome.values && rules::lacksMeasure(reason)) ||
                   (m_toCome.second && rules::lacksSecond(reason));
        });
        return discounted.reasons.empty()
                   ? ""
                   : words::discountedSentence(context(state, record), check.check, discounted)
                         .text();
    }

    [[nodiscard]] words::Context context(const rules::State& state, const Record& record) const {
        words::Context context{m_surroundings.words,        state, state.device(record.device),
                               record.at, {}, {}};
        context.lookup = [this, &record](const logbook::RecordName& name) -> const Record* {
            return name == record.name ? &record : m_standing.lookup(name);
        };
        return context;
    }

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    const Standing& m_standing;
    StillToCome m_toCome;
    logbook::Instant m_now;
    bool m_takesAway = false;  // the record that is looked at, from a unit that is told of
    bool m_isRead = false;
    logbook::Instant m_at{};
    std::optional<rules::State> m_state{};
};

}  // namespace

std::vector<std::string> entryOutlook(const Surroundings& surroundings, const LogbookFile& file,
                                      const Standing& now, const std::vector<Entry>& entries,
                                      const StillToCome& toCome) {
    return Outlook(surroundings, file, now, toCome).of(entries);
}

}  // namespace station
