// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back as text: what could be known then and what is known now side by side, each finding
// with its entries, and what came in since, marked.
#include "report/explain_parts.h"
#include "report/gravity.h"
#include "report/look_back.h"
#include "words/finding_words.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>
#include <utility>

namespace report {

namespace {

using words::Context;

std::string strikeMark(const Context& context, const logbook::Record& strike) {
    const auto* body = std::get_if<logbook::body::Strike>(&strike.body);
    return context.words.say("look_back.struck",
                             {{"person", words::personName(context, strike.by)},
                              {"time", context.times().time(strike.entered)},
                              {"reason", body ? body->reason : ""}});
}

std::string markOf(const Context& context, const SinceEntry& entry) {
    std::string mark;
    if (entry.enteredSince) {
        const auto later = entry.record.entered - entry.record.at;
        const auto key = later.ms < 60'000 ? "look_back.entered_then" : "look_back.entered";
        mark = context.words.say(key, {{"time", context.times().time(entry.record.entered)},
                                       {"later", words::duration(context.words, later)}});
    }
    if (entry.strike) mark += (mark.empty() ? "" : "; ") + strikeMark(context, *entry.strike);
    return mark;
}

Marks marksOf(const Context& context, const LookingBack& back) {
    Marks marks;
    for (const auto& entry : back.since)
        marks.emplace(entry.record.name, markOf(context, entry));
    return marks;
}

// The findings that one has and the other has not, in the shortest form; but those of checks whose
// state is another, which have a row of their own.
std::string onlyIn(const Context& context, const Explain& one, const Explain& other) {
    std::string text;
    const auto& checks = one.row().assessment.checks;
    const auto& otherChecks = other.row().assessment.checks;
    const auto& others = other.row().assessment.findings;
    for (const auto& finding : one.row().assessment.findings) {
        const auto same = [&finding](const rules::Finding& each) {
            return rules::toText(each) == rules::toText(finding) &&
                   each.blocking() == finding.blocking();
        };
        if (std::any_of(others.begin(), others.end(), same)) continue;
        const auto check = checks.find(finding.subject);
        const auto otherCheck = otherChecks.find(finding.subject);
        const bool hasRow = isOfCheck(finding) && check != checks.end() &&
                            (otherCheck == otherChecks.end() ||
                             otherCheck->second != check->second);
        if (hasRow) continue;
        const auto told = words::brief(context, finding);
        const bool ahead = words::isSheetHold(context, rules::toText(finding));
        if (text.empty()) {
            text = told;
        } else {
            text = ahead ? told + "; " + text : text + "; " + told;
        }
    }
    return text.empty() ? context.words.say("look_back.nothing_else") : text;
}

// Two columns of what differs.
class Comparison {
public:
    Comparison(const LookingBack& back, const words::Words& words)
        : m_then(*back.known), m_now(*back.actual), m_words(words),
          m_thenContext(m_then.context(words)), m_nowContext(m_now.context(words)),
          m_table({"", words.say("look_back.column_known",
                                 {{"time", m_nowContext.times().time(back.knownAt)}}),
                   words.say("look_back.column_actual")}) {}

    Table table() {
        addRow("look_back.verdict", verdictText(m_thenContext, m_then.row()),
               verdictText(m_nowContext, m_now.row()));
        addIfOther("look_back.ready_until", until(m_thenContext, m_then),
                   until(m_nowContext, m_now));
        addIfOther("look_back.place", placeText(m_thenContext, m_then.placeUnsaidSince),
                   placeText(m_nowContext, m_now.placeUnsaidSince));
        addIfOther("look_back.edition", m_then.board.state.rulebook->edition,
                   m_now.board.state.rulebook->edition);
        addChecks();
        addIfOther("look_back.against", onlyIn(m_thenContext, m_then, m_now),
                   onlyIn(m_nowContext, m_now, m_then));
        return m_table;
    }

private:
    void addRow(std::string_view key, const std::string& then, const std::string& now) {
        m_table.add({m_words.say(key), then, now});
    }

    void addIfOther(std::string_view key, const std::string& then, const std::string& now) {
        if (then != now) addRow(key, then, now);
    }

    std::string until(const Context& context, const Explain& explain) const {
        const auto& readyUntil = explain.row().assessment.readyUntil;
        return readyUntil ? context.times().inTable(*readyUntil) : "";
    }

    void addChecks() {
        const auto& then = m_then.row().assessment.checks;
        for (const auto& [key, status] : m_now.row().assessment.checks) {
            const auto before = then.find(key);
            if (before != then.end() && before->second == status) continue;
            m_table.add({words::checkLabel(m_nowContext, key),
                         before == then.end() ? "" : words::statusWord(m_words, before->second),
                         words::statusWord(m_words, status)});
        }
    }

    const Explain& m_then;
    const Explain& m_now;
    const words::Words& m_words;
    Context m_thenContext, m_nowContext;
    Table m_table;
};

// Both in words, side by side, or that they are the same.
void addComparison(Outline& page, const LookingBack& back, const Context& context) {
    const auto& words = context.words;
    const words::Gaps gaps{{"time", context.times().time(back.knownAt)}};
    page.gap();
    page.heading(words.say("look_back.compared"));
    if (!back.known) {
        page.paragraph(words.say("look_back.not_known", gaps), 2);
    } else if (!back.actual) {
        page.paragraph(words.say("look_back.not_so", gaps), 2);
    } else if (!back.isSame()) {
        page.table(Comparison(back, words).table(), 2);
    } else {
        const auto both = words.say("look_back.verdict_both",
                                    {{"verdict", verdictText(context, back.actual->row())}});
        page.paragraph(both + " " + words.say("look_back.same", gaps), 2);
    }
}

void addFindingsOfBoth(Outline& page, const LookingBack& back, const words::Words& words,
                       const Marks& marks) {
    const auto add = [&](const Explain& explain, const std::string& title) {
        // What to do was for then: now it would mislead.
        if (explain.row().assessment.verdict != rules::Verdict::Retired)
            addFindings(page, explain.context(words), explain.row(), {title, marks, false});
    };
    if (back.actual && back.isSame()) {
        add(*back.actual, words.say("look_back.findings_both"));
        return;
    }
    if (back.known) {
        const auto times = back.known->context(words).times();
        add(*back.known,
            words.say("look_back.findings_known", {{"time", times.time(back.knownAt)}}));
    }
    if (back.actual) add(*back.actual, words.say("look_back.findings_actual"));
}

void addSince(Outline& page, const LookingBack& back, const Context& context) {
    const auto& words = context.words;
    page.gap();
    page.heading(words.say("look_back.since", {{"time", context.times().time(back.knownAt)}}));
    if (back.since.empty()) {
        page.paragraph(words.say("look_back.nothing_since"), 2);
        return;
    }
    Table table({words.say("explain.record"), words.say("explain.at"), words.say("explain.who"),
                 words.say("explain.what")});
    for (const auto& entry : back.since)
        table.add({logbook::toText(entry.record.name), context.times().inTable(entry.record.at),
                   words::personName(context, words::doerOf(entry.record)),
                   words::recordLine(context, entry.record) + "; " + markOf(context, entry)});
    page.table(std::move(table), 2);
}

// Its state in tables: as could be known, where that is another.
void addTables(Outline& page, const LookingBack& back, const words::Words& words,
               const Marks& marks) {
    const auto& shown = back.known ? *back.known : *back.actual;
    const auto context = shown.context(words);
    if (back.known && !back.isSame()) {
        page.gap();
        page.paragraph(words.say("look_back.tables_known",
                                 {{"time", context.times().time(back.knownAt)}}));
    }
    addState(page, context, shown.row());
    const auto& recent = back.actual ? *back.actual : shown;
    addRecords(page, recent.context(words), recent, marks);
}

}  // namespace

Outline outlineOf(const LookingBack& back, const words::Words& words) {
    const auto& main = back.actual ? *back.actual : *back.known;
    const auto context = main.context(words);
    Outline page;
    page.paragraph(words.say("look_back.title", {{"device", back.device},
                                                 {"time", context.times().full(back.asked)}}));
    page.paragraph(identity(context, main.placeUnsaidSince));
    page.gap();
    page.head(context, main.board.provenance, main.board.groupAsked);
    page.paragraph(
        words.say("look_back.beside", {{"time", context.times().full(back.knownAt)}}));
    const auto marks = marksOf(context, back);
    addComparison(page, back, context);
    addFindingsOfBoth(page, back, words, marks);
    addSince(page, back, context);
    addTables(page, back, words, marks);
    page.caution(words);
    return page;
}

std::string toText(const LookingBack& back, const words::Words& words, const TextOptions& options) {
    return outlineOf(back, words).text(usableWidth(options));
}

}  // namespace report
