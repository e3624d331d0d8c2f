// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Doubts about an entry, and who settles them; see doubts.h.
#include "station/doubts.h"

#include "station/clock_doubt.h"
#include "station/impossible_values.h"
#include "station/privacy.h"
#include "station/question.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

using Traces = std::vector<PatientTrace>;

std::string seen(const words::Words& words, const Traces& traces) {
    std::vector<std::string> texts;
    for (const auto& trace : traces) {
        texts.push_back(words.say("privacy.seen", {{"text", trace.text}}));
    }
    return words.all(texts);
}

void add(Traces& traces, const Traces& more) {
    for (const auto& trace : more) {
        if (std::ranges::find(traces, trace.text, &PatientTrace::text) == traces.end()) {
            traces.push_back(trace);
        }
    }
}

// What stands beside the body of an entry and names nobody whom the log knows.
class Names {
public:
    Names(const words::Words& words, const Gate& gate) : m_words(words), m_gate(gate) {}

    [[nodiscard]] Traces in(const std::string& name) const {
        return m_gate.knows(name) ? Traces{}
                                  : patientTraces(name, m_words, TextSort::Name);
    }

    [[nodiscard]] Traces in(const Entry& entry) const {
        Traces traces;
        for (const auto* text : {&entry.doneBy, &entry.form, &entry.batch}) {
            add(traces, *text ? in(**text) : Traces{});
        }
        add(traces, entry.witness ? in(entry.witness->who) : Traces{});
        return traces;
    }

    // Leaves out those that are doubted.
    [[nodiscard]] Traces withhold(Entry& entry) const {
        const auto traces = in(entry);
        for (auto* text : {&entry.doneBy, &entry.form, &entry.batch}) {
            if (*text && !in(**text).empty()) {
                text->reset();
            }
        }
        if (entry.witness && !in(entry.witness->who).empty()) {
            entry.witness.reset();
        }
        return traces;
    }

private:
    const words::Words& m_words;
    const Gate& m_gate;
};

Traces tracesIn(const words::Words& words, const std::vector<Entry>& entries) {
    Traces traces;
    for (const auto& entry : entries) {
        if (!entry.namesNoPatient) {
            add(traces, patientTraces(entry.kind, entry.body, words));
        }
    }
    return traces;
}

bool warnsOfDanger(const Entry& entry) {
    using logbook::Kind;
    const auto kind = logbook::kindOf(entry.kind);
    return kind == Kind::Fault || kind == Kind::Withdraw || kind == Kind::Soil ||
           kind == Kind::Alarm;
}

}  // namespace

std::string patientHint(const words::Words& words, const std::vector<Entry>& entries) {
    const auto traces = tracesIn(words, entries);
    return traces.empty() ? std::string()
                          : words.say("question.patient_hint", {{"texts", seen(words, traces)}});
}

std::string patientQuestion(const words::Words& words, const std::vector<Entry>& entries) {
    if (!std::ranges::all_of(entries, &warnsOfDanger)) {
        return {};
    }
    const auto traces = tracesIn(words, entries);
    return traces.empty() ? std::string()
                          : words.say("question.patient", {{"texts", seen(words, traces)}});
}

bool Doubts::canAsk() const {
    return m_surroundings.terminal != nullptr && m_surroundings.terminal->isThere();
}

bool Doubts::isStoodBy(const std::string& about, std::string_view question,
                       const words::Gaps& gaps) {
    const bool stands = m_stoodBy.contains(about) || saysYes(m_surroundings, question, gaps);
    if (stands) {
        m_stoodBy.insert(about);
    }
    return stands;
}

Result<void> Doubts::settle(OpenLog& open, const Doubted& doubted) {
    m_warnings.clear();
    m_clockSeemsAhead = false;
    if (auto settled = settleClock(open, doubted.waits); !settled) {
        return settled;
    }
    if (auto settled = settleTexts(open.gate(), doubted); !settled) {
        return settled;
    }
    return settleValues(open.gate(), doubted);
}

// A check waits for whoever writes it, so that somebody can be asked.
Result<void> Doubts::settleValues(const Gate& gate, const Doubted& doubted) {
    const auto& words = m_surroundings.words;
    std::string told;
    for (const auto* entry : doubted.entries) {
        if (entry->asMeasured || gate.people() == nullptr) {
            continue;
        }
        for (const auto& sentence : impossibleValues(words, *gate.people(), *entry)) {
            told += (told.empty() ? "" : " ") + sentence;
        }
    }
    const words::Gaps gaps{{"values", told}};
    if (told.empty() || (canAsk() && isStoodBy(told, "question.impossible", gaps))) {
        return {};
    }
    return tl::unexpected(problemOf(words, "entry.impossible_value", gaps));
}

Result<void> Doubts::settleClock(OpenLog& open, bool waits) {
    const auto doubt = doubtClock(m_surroundings, open.logbook(), open.log());
    if (!doubt && !waits && open.damage()) {
        return {};
    }
    if (!doubt) {
        return tl::unexpected(doubt.error());
    }
    if (!*doubt) {
        return {};
    }
    const auto edition = open.log().log.firstEdition();
    const auto told = doubtSentence(m_surroundings.words, **doubt,
                                    edition ? edition->zone.get() : nullptr);
    const bool ahead = (*doubt)->code == ClockDoubt::Code::SetAhead;
    if (!waits || !canAsk()) {
        m_warnings.push_back(told);
        m_clockSeemsAhead = ahead;
        return {};
    }
    if (!isStoodBy(ahead ? "clock ahead" : "clock back", "question.clock", {{"doubt", told}})) {
        return tl::unexpected(problemOf(m_surroundings.words, "entry.clock_not_right"));
    }
    return {};
}

Result<void> Doubts::settleTexts(const Gate& gate, const Doubted& doubted) {
    const auto& words = m_surroundings.words;
    const Names names(words, gate);
    Traces texts;
    Traces others;
    for (auto* entry : doubted.entries) {
        if (entry->namesNoPatient) {
            continue;
        }
        add(texts, patientTraces(entry->kind, entry->body, words));
        add(others, doubted.waits ? names.in(*entry) : names.withhold(*entry));
        if (!doubted.waits) {
            withholdTraces(entry->kind, entry->body, words);
        }
    }
    if (!doubted.waits) {
        if (const auto traces = names.in(doubted.person); !traces.empty()) {
            add(others, traces);
            doubted.person = words.say("privacy.place");
        }
        if (!texts.empty()) {
            m_warnings.push_back(
                words.say("entry.text_withheld", {{"texts", seen(words, texts)}}));
        }
        if (!others.empty()) {
            m_warnings.push_back(
                words.say("entry.names_withheld", {{"texts", seen(words, others)}}));
        }
        return {};
    }
    add(texts, others);
    const words::Gaps gaps{{"texts", seen(words, texts)}};
    if (texts.empty() ||
        (canAsk() && isStoodBy(gaps.at("texts"), "question.patient", gaps))) {
        return {};
    }
    return tl::unexpected(problemOf(words, "entry.patient_text", gaps));
}

}  // namespace station
