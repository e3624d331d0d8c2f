// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An attempt; see check_attempt.h.
#include "desktop/bedside/check_attempt.h"

#include "desktop/bedside/keeping.h"
#include "desktop/bedside/not_so_sheet.h"
#include "desktop/bedside/person_sheet.h"
#include "desktop/bedside/when_done_sheet.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "words/shown.h"
#include "words/times.h"

#include <algorithm>
#include <utility>

namespace desktop {

namespace {

bool asksForValues(const report::CheckToLog& check, Ending ending, bool withValues) {
    if (ending != Ending::Pass || withValues) return !check.measures.empty();
    return std::ranges::any_of(check.measures, [](const auto& each) { return each.required; });
}

station::Result<station::Act> actOf(const words::Words& words, const MeasuresAsked& asked,
                                    const std::vector<station::TypedMeasure>& measures) {
    switch (asked.ending) {
        case Ending::Fail: return station::failOf(words, asked.check, measures, asked.notSo);
        case Ending::NotSo: return station::notSoOf(words, asked.check, measures, *asked.notSo);
        case Ending::Pass: break;
    }
    return station::passOf(words, asked.check, measures);
}

}  // namespace

CheckAttempt::CheckAttempt(Asked asked, QObject* parent)
    : QObject(parent),
      m_asked(std::move(asked)),
      m_making(m_asked.tools.strip.take()),
      m_begun(workplace().clock().now()) {
    // Who verified it did so for somebody who is gone.
    connect(&workplace().presence(), &Presence::left, this, [this] {
        m_making.second.reset();
        if (m_isAsking) giveUp();
    });
}

bool CheckAttempt::isBeingEntered() const {
    return m_isAsking || (m_measures && m_measures->isVisible()) ||
           (m_conditions && m_conditions->isVisible());
}

// The unit is named on every sheet: they lie over its bar.
QString CheckAttempt::title() const {
    const auto unit = shownText(words::shown(device()));
    const auto check = shownText(m_asked.check.label);
    const auto& fleet = workplace().fleet();
    if (!m_making.choice.at || !fleet) return tr("Unit %1: %2").arg(unit, check);
    const words::Times times(workplace().words(), *fleet->standing->state.rulebook->zone,
                             workplace().clock().now());
    return tr("Unit %1: %2, done at %3")
        .arg(unit, check, shownText(times.time(*m_making.choice.at)));
}

void CheckAttempt::pass(bool withValues, const TypedTexts& typed) {
    const auto act = station::passOf(workplace().words(), m_asked.check, {});
    if (!act) {
        endAs(Ending::Pass, withValues, typed);
        return;
    }
    m_isAsking = true;
    askIfUncounted(workplace(), entriesOf(*act), {true, !m_making.second}, this,
                   [this, withValues, typed](const CountAnswer& answer) {
                       if (m_isOver) return;
                       m_isAsking = false;
                       m_isKnownUncounted = answer.isKnownUncounted;
                       if (answer.isToBeKept) {
                           endAs(Ending::Pass, withValues, typed);
                       } else {
                           endUnkept();
                       }
                   });
}

void CheckAttempt::endAs(Ending ending, bool withValues, const TypedTexts& typed) {
    m_ending = ending;
    if (asksForValues(m_asked.check, ending, withValues)) {
        askMeasures(typed);
    } else {
        finish(ending);
    }
}

void CheckAttempt::askNotSo() {
    m_conditions = new NotSoSheet(title(), m_asked.check);
    connect(m_conditions, &Sheet::calledOff, this, &CheckAttempt::endUnkept);
    connect(m_conditions, &NotSoSheet::codeRead, this, &CheckAttempt::codeRead);
    connect(m_conditions, &NotSoSheet::notFinished, this, [this] {
        m_isKnownUncounted = true;
        keep(station::incompleteOf(m_asked.check, m_conditions->notSo()));
    });
    connect(m_conditions, &NotSoSheet::failed, this, [this] {
        m_notSo = m_conditions->notSo();
        endAs(Ending::Fail, true, {});
    });
    connect(m_conditions, &NotSoSheet::conditionsNotSo, this,
            [this](const std::vector<std::string>& conditions) {
                m_notSo = conditions;
                endAs(Ending::NotSo, true, {});
            });
    askWhen(*m_conditions);
    m_asked.tools.desk.sheets.put(m_conditions);
}

void CheckAttempt::askMeasures(const TypedTexts& typed) {
    m_measures =
        new MeasureSheet(workplace(), {title(), m_asked.check, m_ending, m_notSo}, typed);
    connect(m_measures, &MeasureSheet::finished, this, &CheckAttempt::finish);
    connect(m_measures, &MeasureSheet::codeRead, this, &CheckAttempt::codeRead);
    connect(m_measures, &Sheet::calledOff, this, [this] {
        Q_EMIT typedUnkept(check(), m_measures->typed());
        m_measures.clear();
        if (!m_conditions) endUnkept();
    });
    askWhen(*m_measures);
    m_asked.tools.desk.sheets.put(m_measures);
}

// Whenever it comes back, unless a time was chosen: "now" is another by then.
void CheckAttempt::askWhen(Sheet& sheet) {
    connect(
        &sheet, &Sheet::cameBack, this,
        [this, &sheet] {
            askWhenDone(m_asked.tools.desk,
                        {sheet, m_begun, [this] { return m_making.choice.at.has_value(); }},
                        [this](std::optional<logbook::Instant> at) { m_making.choice.at = at; });
        },
        Qt::QueuedConnection);
}

void CheckAttempt::renew(const report::CheckToLog& check) {
    m_asked.check = check;
    if (m_measures) m_measures->renew(check);
}

void CheckAttempt::finish(Ending ending) {
    m_ending = ending;
    const auto measures =
        m_measures ? m_measures->measures() : std::vector<station::TypedMeasure>{};
    const auto act =
        actOf(workplace().words(), {{}, m_asked.check, ending, m_notSo}, measures);
    if (!act) {
        say(act.error());
        if (!m_measures && !m_conditions) endUnkept();
    } else if (ending == Ending::Pass && m_asked.check.needsSecond && !m_making.second) {
        askSecond(*act);
    } else {
        keep(*act);
    }
}

void CheckAttempt::askSecond(const station::Act& act) {
    auto* second = new SecondSheet(workplace(),
                                   m_asked.tools.strip.whoDid(m_making.choice));
    second->offerWithout(tr("Nobody is here: keep it, it does not count"));
    connect(second, &Sheet::calledOff, this, [this] {
        if (!m_measures) endUnkept();
    });
    connect(second, &SecondSheet::withoutChosen, this, [this, act] {
        m_isKnownUncounted = true;
        keep(act);
    });
    connect(second, &SecondSheet::verified, this, [this, act](const station::Session& session) {
        m_making.second = session;
        keep(act);
    });
    m_asked.tools.desk.sheets.put(second);
}

void CheckAttempt::keep(const station::Act& act) {
    setKeeping(true);
    m_writer = workplace().whoIsHere();
    askForHold(workplace(), device(), {act}, this, [this, act](bool isYes) {
        if (isYes) {
            keepIfCounted(act);
        } else {
            takeKept({{}, {}, true});
        }
    });
}

// With its values and its second person more is known than when it was begun.
void CheckAttempt::keepIfCounted(const station::Act& act) {
    const bool isKnown = m_isKnownUncounted || m_ending != Ending::Pass ||
                         (m_measures && m_measures->isKnownUncounted());
    if (isKnown) {
        keepNow(act);
        return;
    }
    askIfUncounted(workplace(), entriesOf(act), {}, this, [this, act](const CountAnswer& answer) {
        if (m_isOver) return;
        if (answer.isToBeKept && isStillTheirs(workplace(), device(), m_writer)) {
            keepNow(act);
        } else {
            takeKept({{}, {}, true});
        }
    });
}

// What was typed was agreed to where it seems impossible.
std::vector<station::Entry> CheckAttempt::entriesOf(const station::Act& act) const {
    std::vector acts{act};
    if (const auto seen = m_conditions ? plainText(m_conditions->seen()) : std::string();
        !seen.empty())
        acts.push_back(station::noteOf(m_asked.check, seen));
    auto entries = m_asked.tools.strip.entriesOf(device(), std::move(acts), m_making);
    for (auto& entry : entries) entry.asMeasured = true;
    return entries;
}

void CheckAttempt::keepNow(const station::Act& act) {
    workplace().keep(entriesOf(act), this,
                     [this](const Workplace::Kept& kept) { takeKept(kept); });
}

void CheckAttempt::setKeeping(bool isKeeping) {
    if (m_measures) m_measures->setKeeping(isKeeping);
    if (m_conditions) m_conditions->setKeeping(isKeeping);
    Q_EMIT keepingChanged(isKeeping);
}

void CheckAttempt::takeKept(const Workplace::Kept& kept) {
    if (kept.isAll()) {
        Q_EMIT this->kept(kept.written.front().record);  // a note may come after it
        endSheets();
        end();
        return;
    }
    setKeeping(false);
    m_making.second.reset();
    m_isKnownUncounted = false;
    if (kept.refused && (m_measures || m_conditions)) say(*kept.refused);
    if (!m_measures && !m_conditions) endUnkept();
}

void CheckAttempt::say(const station::Problem& problem) {
    const auto text = problemText(problem);
    if (m_measures) {
        m_measures->say(text);
    } else if (m_conditions) {
        m_conditions->say(text);
    } else {
        Q_EMIT workplace().refused(problem);
    }
}

void CheckAttempt::endSheets() {
    if (m_measures) m_measures->close();
    if (m_conditions) m_conditions->close();
    m_measures.clear();
    m_conditions.clear();
}

void CheckAttempt::giveUp() {
    endSheets();
    endUnkept();
}

void CheckAttempt::endUnkept() {
    m_asked.tools.strip.giveBack(m_making);
    end();
}

void CheckAttempt::end() {
    m_isOver = true;
    m_conditions.clear();
    deleteLater();
}

}  // namespace desktop
