// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Doubts about an entry, and who settles them; see doubts.h.
#include "station/doubts.h"

#include "station/clock_doubt.h"
#include "station/privacy.h"
#include "words/times.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

class Settling {
public:
    Settling(const Surroundings& surroundings, bool waits)
        : m_words(surroundings.words), m_terminal(surroundings.terminal), m_waits(waits) {}

    [[nodiscard]] bool canAsk() const {
        return m_waits && m_terminal != nullptr && m_terminal->isThere();
    }

    // Anything but yes is no: who is not sure looks again.
    [[nodiscard]] bool isStoodBy(std::string_view question, const words::Gaps& gaps) const {
        const auto answer = m_terminal->ask(m_words.say(question, gaps));
        if (!answer) {
            return false;
        }
        const auto yes = m_words.listed("question.yes");
        return std::ranges::find(yes, words::smallLetters(*answer)) != yes.end();
    }

    [[nodiscard]] bool waits() const { return m_waits; }

private:
    const words::Words& m_words;
    Terminal* m_terminal;
    bool m_waits;
};

Result<void> settleClock(const Surroundings& surroundings, const ClockDoubt& doubt,
                         const rules::Zone* zone, const Settling& settling, Settled& settled) {
    const auto told = doubtSentence(surroundings.words, doubt, zone);
    if (!settling.canAsk()) {
        settled.warnings.push_back(told);
        return {};
    }
    if (!settling.isStoodBy("question.clock", {{"doubt", told}})) {
        return tl::unexpected(problemOf(surroundings.words, "entry.clock_not_right"));
    }
    return {};
}

std::string seen(const words::Words& words, const std::vector<PatientTrace>& traces) {
    std::vector<std::string> texts;
    for (const auto& trace : traces) {
        texts.push_back(words.say("privacy.seen", {{"text", trace.text}}));
    }
    return words.all(texts);
}

// Reasons and texts may be empty, a place may not.
void withhold(const words::Words& words, logbook::json::Object& body) {
    for (auto& [name, value] : body) {
        if (isFreeText(name) && value.string() != nullptr) {
            value = name == "location" ? words.say("privacy.place") : std::string();
        }
    }
}

Result<void> settleTexts(const Surroundings& surroundings, const Entry& entry,
                         const Settling& settling, Settled& settled) {
    const auto traces = entry.namesNoPatient ? std::vector<PatientTrace>{}
                                             : patientTraces(entry.body, surroundings.words);
    if (traces.empty()) {
        return {};
    }
    const words::Gaps gaps{{"texts", seen(surroundings.words, traces)}};
    if (!settling.waits()) {
        withhold(surroundings.words, settled.body);
        settled.warnings.push_back(surroundings.words.say("entry.text_withheld", gaps));
        return {};
    }
    if (settling.canAsk() && settling.isStoodBy("question.patient", gaps)) {
        return {};
    }
    return tl::unexpected(problemOf(surroundings.words, "entry.patient_text", gaps));
}

}  // namespace

Result<Settled> settleDoubts(const Surroundings& surroundings, const store::Logbook& logbook,
                             const WholeLog& log, const Entry& entry, bool waits) {
    const Settling settling(surroundings, waits);
    Settled settled{entry.body, {}};
    const auto doubt = doubtClock(surroundings, logbook, log);
    if (!doubt) {
        return tl::unexpected(doubt.error());
    }
    if (*doubt) {
        const auto edition = log.log.firstEdition();
        if (auto stood = settleClock(surroundings, **doubt,
                                     edition ? edition->zone.get() : nullptr, settling, settled);
            !stood) {
            return tl::unexpected(std::move(stood.error()));
        }
    }
    if (auto stood = settleTexts(surroundings, entry, settling, settled); !stood) {
        return tl::unexpected(std::move(stood.error()));
    }
    return settled;
}

}  // namespace station
