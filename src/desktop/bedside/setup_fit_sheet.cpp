// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see setup_fit_sheet.h.
#include "desktop/bedside/setup_fit_sheet.h"

#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/keeping.h"
#include "desktop/bedside/setup_part_fields.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

void say(QLabel& label, const QString& text) {
    label.setText(text);
    label.setVisible(!text.isEmpty());
}

// Whether it matters there for which group a part is.
bool asksGroups(const UnitView& unit, const report::FitToLog& fit) {
    const auto& rulebook = rulebookOf(unit);
    const auto* position = rulebook.position(fit.position);
    return fit.proposed.groups || (position != nullptr && position->matchGroup) ||
           std::ranges::any_of(rulebook.checks, [&](const rules::Check& check) {
               return std::ranges::find(check.needsMatch, fit.position) != check.needsMatch.end();
           });
}

PartFields::Groups groupsFor(const UnitView& unit, const words::Words& words,
                             const report::FitToLog& fit) {
    PartFields::Groups groups;
    if (!asksGroups(unit, fit)) return groups;
    const auto context = contextOf(unit, words);
    for (const auto& group : rulebookOf(unit).groups)
        groups.emplace_back(group.key, shownText(words::groupLabel(context, group.key)));
    return groups;
}

}  // namespace

report::FitToLog fitFor(const UnitView& unit, const words::Words& words,
                        const std::string& position) {
    for (const auto& row : unit.bedside.rows)
        if (const auto* fit = std::get_if<report::FitToLog>(&row.act))
            if (fit->position == position) return *fit;
    const auto& identity = unit.bedside.identity;
    const auto context = contextOf(unit, words);
    return report::fitToLog(context, position,
                            identity.groupAsked ? identity.groupAsked : identity.group);
}

FitSheet::FitSheet(const PanelTools& tools, SharedUnitView unit, const report::FitToLog& fit,
                   QWidget* parent)
    : Sheet(fit.occupied ? tr("Swap: %1").arg(shownText(fit.label))
                         : tr("Fit: %1").arg(shownText(fit.label)),
            parent),
      m_tools(tools),
      m_unit(std::move(unit)),
      m_fit(fit) {
    addHead();
    m_fields =
        new PartFields(groupsFor(*m_unit, tools.desk.workplace.words(), m_fit));
    content()->addWidget(m_fields);
    m_strip = new EntryStrip(m_tools.desk);
    m_strip->continueFrom(m_tools.strip);
    m_strip->askWhenBack(*this);
    content()->addWidget(m_strip);
    content()->addStretch();
    addFoot();
    setFocusProxy(m_fields->first());
    connect(m_fields, &PartFields::changed, this, [this] {
        m_isTouched = true;
        showAnswers();
    });
    connect(m_fields, &PartFields::named, this, [this](const QString& text) { look(text, false); });
    propose(m_fit.proposed);
    m_isTouched = false;
}

void FitSheet::addHead() {
    content()->addWidget(textLabel(unitLine(m_unit->bedside.identity), TextRole::Strong));
    content()->addWidget(
        textLabel(tr("Scan the part, or type what is on it. The rest is as proposed; change what "
                     "is not so."),
                  TextRole::Plain));
    m_source = textLabel({}, TextRole::Quiet);
    content()->addWidget(m_source);
    if (!m_fit.putBack) return;
    auto* same = new WrappedButton(
        tr("The same part again: %1").arg(shownText(m_fit.putBack->summary)));
    connect(same, &QPushButton::clicked, this, [this] { propose(*m_fit.putBack); });
    content()->addWidget(same);
}

void FitSheet::addFoot() {
    m_remark = textLabel({}, TextRole::Strong);
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why it was not kept"));
    m_trouble->hide();
    auto* back = new WrappedButton(tr("Back, keep nothing"));
    m_keep = new WrappedButton;
    m_keep->setMain(true);
    for (auto* each : std::initializer_list<QWidget*>{m_remark, m_trouble, back, m_keep})
        foot()->addWidget(each);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_keep, &QPushButton::clicked, this, &FitSheet::keep);
}

void FitSheet::propose(const report::PartProposal& proposal) {
    if (m_isKeeping) return;
    m_elsewhere = shownText(proposal.standsElsewhere);
    say(*m_source, proposal.source.empty()
                       ? QString()
                       : tr("Proposed: %1, %2")
                             .arg(shownText(proposal.summary), shownText(proposal.source)));
    m_fields->propose(proposal);
}

bool FitSheet::takeScan(const QString& text) {
    if (isUnitCode(*m_unit->fleet, text)) {
        Q_EMIT codeRead(text);
    } else {
        look(text.trimmed(), true);
    }
    return true;
}

void FitSheet::look(const QString& text, bool isScanned) {
    if (text.isEmpty()) return;
    m_tools.desk.workplace.read(
        [unit = m_unit, text = plainText(text)](const auto& surroundings, const auto& file) {
            return station::find(
                surroundings, *unit->fleet->standing,
                [&] { return withLog(*unit->fleet, surroundings, file); }, text,
                unit->bedside.identity.device);
        },
        this, [this, isScanned](const station::Found& found) { takeFound(found, isScanned); });
}

void FitSheet::takeFound(const station::Found& found, bool isScanned) {
    const auto here = std::ranges::find_if(found.parts, [this](const auto& part) {
        return part.position == m_fit.position;
    });
    if (here != found.parts.end()) {
        if (isScanned && m_fields->losesTyped(*here)) {
            askToPropose(*here, shownText(found.read));
        } else {
            propose(*here);
        }
        return;
    }
    const bool isElse = found.what == station::Found::What::Part ||
                        found.what == station::Found::What::Model;
    if (isElse) {
        say(*m_trouble, tr("%1 It is not known as: %2.")
                            .arg(shownText(found.sentence), shownText(m_fit.label)));
    } else if (isScanned && isKnownLot(*m_unit->fleet, found.read)) {
        m_fields->typeLot(shownText(found.read));
    } else if (isScanned && !m_fields->typeIntoFocused(shownText(found.read))) {
        say(*m_trouble, tr("Read %1. Put the cursor where it belongs, and scan again.")
                            .arg(shownText(found.read)));
    }
}

void FitSheet::askToPropose(const report::PartProposal& proposal, const QString& read) {
    m_tools.desk.workplace.ask(
        {tr("Read %1. Take what is known of it, in place of what you typed?").arg(read),
         tr("Take what is known of %1").arg(read), tr("Keep what I typed")},
        [self = QPointer<FitSheet>(this), proposal](bool isYes) {
            if (self && isYes) self->propose(proposal);
        });
}

QString FitSheet::otherGroups() const {
    const auto part = m_fields->stated(m_fit.position);
    const auto context = contextOf(*m_unit, m_tools.desk.workplace.words());
    return shownText(report::otherGroupsSentence(context, m_fit.position, part.groups));
}

void FitSheet::showAnswers() {
    if (m_keep == nullptr || m_isKeeping) return;
    auto remark = otherGroups();
    if (!m_elsewhere.isEmpty()) remark += (remark.isEmpty() ? "" : "\n") + m_elsewhere;
    say(*m_remark, remark);
    const auto wrong = m_fields->wrong();
    m_keep->setEnabled(wrong.isEmpty());
    m_keep->setText(!wrong.isEmpty()  ? wrong
                    : m_fit.occupied ? tr("The old one is out, this one is in")
                                     : tr("This one was fitted"));
}

// What is on the button is what is kept: until it is told what came of it nothing can be changed.
void FitSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    setHeld(isKeeping);
    m_fields->setEnabled(!isKeeping);
    m_strip->setEnabled(!isKeeping);
    m_keep->setEnabled(false);
    if (!isKeeping) showAnswers();
}

void FitSheet::keep() {
    setKeeping(true);
    const auto part = m_fields->stated(m_fit.position);
    auto acts = m_fit.occupied ? station::swapOf(part) : std::vector{station::fitOf(part)};
    Pressed pressed{m_unit->bedside.identity.device, std::move(acts)};
    if (const auto groups = otherGroups(); !groups.isEmpty())
        pressed.remarks.push_back(plainText(groups));
    keepActs({m_tools.desk, *m_strip}, std::move(pressed), this,
             [this](const Workplace::Kept& kept) { take(kept); });
}

void FitSheet::take(const Workplace::Kept& kept) {
    if (kept.isAll()) {
        m_strip->endAt(m_tools.strip);
        Q_EMIT this->kept();
        close();
        return;
    }
    setKeeping(false);
    if (!kept.refused) return;
    say(*m_trouble, problemText(*kept.refused));
}

}  // namespace desktop
