// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bar; see unit_bar.h.
#include "desktop/bedside/unit_bar.h"

#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/verdict_chip.h"

#include <QGridLayout>
#include <QLabel>

namespace desktop {

namespace {

QLabel* makeLabel(const QString& name, TextRole role) {
    auto* label = textLabel({}, role);
    label->setAccessibleDescription(name);
    return label;
}

}  // namespace

UnitBar::UnitBar(QWidget* parent) : QWidget(parent) {
    m_serial = makeLabel(tr("Serial"), TextRole::Title);
    m_asset = makeLabel(tr("Asset number and model"), TextRole::Plain);
    m_place = makeLabel(tr("Place"), TextRole::Strong);
    m_group = makeLabel(tr("Patient group"), TextRole::Plain);
    m_note = makeLabel(tr("Until when"), TextRole::Quiet);
    m_verdict = new VerdictChip;
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(12, 6, 12, 6);
    grid->setHorizontalSpacing(24);
    grid->setVerticalSpacing(2);
    grid->addWidget(m_serial, 0, 0);
    grid->addWidget(m_asset, 1, 0);
    grid->addWidget(m_place, 0, 1);
    grid->addWidget(m_group, 1, 1);
    grid->addWidget(m_verdict, 0, 2, 2, 1, Qt::AlignRight | Qt::AlignVCenter);
    m_age = makeLabel(tr("How old this is"), TextRole::Strong);
    m_age->hide();
    m_compare = makeLabel(tr("Last four characters"), TextRole::Strong);
    m_compare->hide();
    grid->addWidget(m_note, 2, 0, 1, 3);
    grid->addWidget(m_age, 3, 0, 1, 3);
    grid->addWidget(m_compare, 4, 0, 1, 3);
    grid->setColumnStretch(0, 3);
    grid->setColumnStretch(1, 2);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
}

void UnitBar::show(const report::BedsideIdentity& unit) {
    m_unit = unit;
    m_isAwaited = false;
    m_serial->setText(shownText(unit.serial));
    QStringList what;
    for (const auto& each : {unit.asset, unit.label, unit.model})
        if (!each.empty()) what << shownText(each);
    m_asset->setText(what.join(QStringLiteral(" · ")));
    m_place->setText(shownText(unit.place));
    m_group->setText(shownText(unit.groupAskedText.empty() ? unit.groupText : unit.groupAskedText));
    m_verdict->show({unit.verdict, shownText(unit.verdictWord)});
    m_note->setText(shownText(unit.inDoubt ? unit.doubtText : unit.readyUntilText));
    m_note->setVisible(!m_note->text().isEmpty());
    m_compare->setText(tr("Typed: does its plate end in %1?")
                           .arg(m_serial->text().right(4)));
}

void UnitBar::showAge(const QString& sentence, logbook::Instant now) {
    m_age->setText(sentence);
    m_age->setVisible(!sentence.isEmpty());
    showVerdict(!sentence.isEmpty(), now);
}

void UnitBar::showAwaited() {
    m_isAwaited = true;
    m_note->hide();
    showVerdict(false, {});
}

void UnitBar::showVerdict(bool isOld, logbook::Instant now) {
    if (m_isAwaited) {
        m_verdict->show({rules::Verdict::NotReady, tr("one moment")});
        return;
    }
    const bool isOver = m_unit.readyUntil && *m_unit.readyUntil <= now;
    const bool isKnown = m_unit.verdict != rules::Verdict::Ready || (!isOld && !isOver);
    if (isKnown) {
        m_verdict->show({m_unit.verdict, shownText(m_unit.verdictWord)});
    } else {
        m_verdict->show({rules::Verdict::NotReady, tr("not known now")});
    }
}

void UnitBar::askToCompare(bool isAsked) {
    m_compare->setVisible(isAsked);
}

}  // namespace desktop
