// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log is folded with the records in their places, which is not the end for a late one.
#include "station/entry_meaning.h"

#include "station/later_units.h"
#include "station/notice_reach.h"
#include "words/entry_words.h"
#include "words/finding_words.h"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

namespace station {

namespace {

using logbook::Record;

// The log after the records, as it stands when they are written.
class Outcome {
public:
    Outcome(const Surroundings& surroundings, const LogAtHand& log,
            const std::vector<Record>& written)
        : m_words(surroundings.words), m_asked(written.front().entered),
          m_log(extended(surroundings, log, written)) {
        if (m_log.log.firstEdition()) {
            m_state = stateOf(m_log, m_asked);
            const auto last = std::ranges::max(written, {}, &Record::entered).entered;
            const auto now = nowFor(m_log.log, last, rules::unlimited);
            m_withLater = unitsWithLater(
                *m_state, laterThan(now, rules::unlimited, m_log.log),
                [this](const logbook::RecordName& name) { return recordIn(m_log, name); });
        }
    }

    [[nodiscard]] words::Context context(const std::string& device) const {
        words::Context context{m_words, *m_state, m_state->device(device), m_asked, {}, {}};
        context.lookup = [this](const logbook::RecordName& name) -> const Record* {
            return recordIn(m_log, name);
        };
        return context;
    }

    [[nodiscard]] bool isJudged() const { return m_state.has_value(); }

    [[nodiscard]] std::string standing(const std::string& device) const {
        auto known = context(device);
        const auto found = rules::assess(*m_state, *known.device, {m_asked});
        if (found.verdict == rules::Verdict::Ready && isInDoubt()) {
            return m_words.say("standing.in_doubt", {{"device", device}});
        }
        if (found.verdict == rules::Verdict::Ready && m_withLater.contains(device)) {
            return m_words.say("standing.later", {{"device", device}});
        }
        known.group = found.group;
        return words::standingSentence(known, found);
    }

    // Said besides a verdict that says nothing of it.
    [[nodiscard]] std::optional<std::string> later(const std::string& device) const {
        const auto known = context(device);
        const bool isSaid =
            rules::assess(*m_state, *known.device, {m_asked}).verdict == rules::Verdict::Ready;
        return m_withLater.contains(device) && !isSaid
                   ? std::optional(m_words.say("standing.later_besides", {{"device", device}}))
                   : std::nullopt;
    }

    // How it stands worse than in the state before; "" where it does not.
    [[nodiscard]] std::string worse(const rules::State& before, const std::string& device) const {
        const auto* had = before.device(device);
        auto known = context(device);
        if (had == nullptr || known.device == nullptr) {
            return "";
        }
        const auto found = rules::assess(*m_state, *known.device, {m_asked});
        known.group = found.group;
        return words::worseSentence(known, rules::assess(before, *had, {m_asked}), found);
    }

    // Of a check that does not count as it stands now.
    [[nodiscard]] std::optional<std::string> discount(const Record& record) const {
        const auto* check = std::get_if<logbook::body::Check>(&record.body);
        const auto known = context(record.device);
        if (check == nullptr || known.device == nullptr) {
            return std::nullopt;
        }
        const auto found = known.device->checks.find(check->check);
        if (found == known.device->checks.end() || !found->second.discounted ||
            found->second.discounted->record.name != record.name) {
            return std::nullopt;
        }
        return words::discountedSentence(known, check->check, *found->second.discounted).text();
    }

private:
    // Of which units what is lacking tells is not known here.
    [[nodiscard]] bool isInDoubt() const {
        return m_log.isDamaged || !m_log.gone.empty() || !m_log.unread.empty() ||
               (m_log.verification && !m_log.verification->ok);
    }

    const words::Words& m_words;
    logbook::Instant m_asked;
    LogAtHand m_log;
    std::optional<rules::State> m_state;
    std::set<std::string> m_withLater;  // as the board has it
};

}  // namespace

std::vector<std::string> entryMeaning(const Surroundings& surroundings, const LogAtHand& log,
                                      const Record& record) {
    const Outcome outcome(surroundings, log, {record});
    if (!outcome.isJudged()) {
        return {};
    }
    std::vector<std::string> told;
    const auto context = outcome.context(record.device);
    if (record.at != record.entered) {
        told.push_back(surroundings.words.say("entry.backdated",
                                              {{"time", context.times().full(record.at)}}));
    }
    if (context.device != nullptr) {
        told.push_back(outcome.standing(record.device));
        if (auto later = outcome.later(record.device)) {
            told.push_back(*std::move(later));
        }
    }
    if (const auto* notice = std::get_if<logbook::body::Notice>(&record.body)) {
        const auto reach = reachOf(surroundings.words, context.state, *notice);
        told.insert(told.end(), reach.told.begin(), reach.told.end());
    }
    return told;
}

CorrectionMeaning correctionMeaning(const Surroundings& surroundings, const LogAtHand& log,
                                    const std::vector<Record>& records) {
    const Outcome outcome(surroundings, log, records);
    if (!outcome.isJudged()) {
        return {};
    }
    CorrectionMeaning meaning;
    std::set<std::string> devices;
    for (const auto& record : records) {
        devices.insert(record.device);
        if (auto discount = outcome.discount(record)) {
            meaning.warnings.push_back(*std::move(discount));
        }
    }
    for (const auto& device : devices) {
        if (outcome.context(device).device != nullptr) {
            meaning.standing.push_back(outcome.standing(device));
        }
    }
    return meaning;
}

std::vector<std::string> worseBy(const Surroundings& surroundings, const LogAtHand& log,
                                 const std::vector<Record>& records) {
    const Outcome outcome(surroundings, log, records);
    if (!outcome.isJudged()) {
        return {};
    }
    const auto before = stateOf(log, records.front().entered);
    std::vector<std::string> told;
    for (const auto& [device, known] : before.devices) {
        const bool isTouched = std::ranges::any_of(records, [&](const Record& record) {
            return record.device == device;
        });
        if (isTouched) {
            if (auto sentence = outcome.worse(before, device); !sentence.empty()) {
                told.push_back(std::move(sentence));
            }
        }
    }
    return told;
}

}  // namespace station
