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
#include "station/part_outlook.h"

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
    : Sheet(QString(), parent), m_tools(tools), m_unit(std::move(unit)), m_fit(fit) {
    addHead();
    const auto& words = tools.desk.workplace.words();
    m_fields = new PartFields(words, groupsFor(*m_unit, words, m_fit), m_fit.asked);
    content()->addWidget(m_fields);
    m_strip = new EntryStrip(m_tools.desk);
    m_strip->continueFrom(m_tools.strip);
    m_strip->askWhenBack(*this);
    content()->addWidget(m_strip);
    content()->addStretch();
    addFoot();
    showFit();
    setFocusProxy(m_fields->first());
    connect(m_fields, &PartFields::changed, this, [this] {
        m_isTouched = true;
        showAnswers();
    });
    connect(m_fields, &PartFields::named, this,
            [this](const std::string& attribute, const QString& text) { look(text, attribute); });
    // What is entered elsewhere meanwhile, a notice say, is told too.
    connect(&tools.desk.workplace, &Workplace::fleetChanged, this, &FitSheet::showOutlook);
    propose(m_fit.proposed, Proposed::OfUnit);
    m_isTouched = false;
}

void FitSheet::proposeKnown(const report::PartProposal& proposal, const std::string& code) {
    m_code = code;
    propose(proposal, Proposed::ByCode);
    m_isTouched = false;
}

void FitSheet::addHead() {
    m_line = textLabel({}, TextRole::Strong);
    content()->addWidget(m_line);
    content()->addWidget(
        textLabel(tr("Scan the part, or type what is on it. The rest is as proposed; change what "
                     "is not so."),
                  TextRole::Plain));
    m_source = textLabel({}, TextRole::Quiet);
    content()->addWidget(m_source);
    m_same = new WrappedButton;
    connect(m_same, &QPushButton::clicked, this, [this] {
        if (m_fit.putBack) propose(*m_fit.putBack, Proposed::PutBack);
    });
    content()->addWidget(m_same);
}

// What stands with the position as the unit was last read.
void FitSheet::showFit() {
    const auto label = shownText(m_fit.label);
    setTitle(m_fit.occupied ? tr("Swap: %1").arg(label) : tr("Fit: %1").arg(label));
    m_line->setText(unitLine(m_unit->bedside.identity));
    m_same->setVisible(m_fit.putBack.has_value());
    if (m_fit.putBack)
        m_same->setText(tr("The same part again: %1").arg(shownText(m_fit.putBack->summary)));
}

void FitSheet::addFoot() {
    m_outlook = textLabel({}, TextRole::Strong);
    m_outlook->setAccessibleName(tr("What stands against this part"));
    m_outlook->hide();
    overFoot()->addWidget(m_outlook);
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

void FitSheet::propose(const report::PartProposal& proposal, Proposed how) {
    if (m_isKeeping) return;
    m_proposed = how;
    showSource(proposal);
    m_fields->propose(proposal);
}

void FitSheet::showSource(const report::PartProposal& proposal) {
    m_elsewhere = shownText(proposal.standsElsewhere);
    say(*m_source, proposal.source.empty()
                       ? QString()
                       : tr("Proposed: %1, %2")
                             .arg(shownText(proposal.summary), shownText(proposal.source)));
}

bool FitSheet::takeScan(const QString& text) {
    if (isUnitCode(*m_unit->fleet, text)) {
        Q_EMIT codeRead(text);
    } else {
        say(*m_trouble, {});
        look(text.trimmed());
    }
    return true;
}

// Scanned, or typed as that attribute.
void FitSheet::look(const QString& text, const std::string& attribute) {
    if (text.isEmpty()) return;
    ++m_looks;
    m_tools.desk.workplace.read(
        [unit = m_unit, text = plainText(text)](const auto& surroundings, const auto& file) {
            return findNamed(*unit->fleet, surroundings, file, text,
                             unit->bedside.identity.device);
        },
        this,
        [this, attribute](const station::Found& found) { takeFound(found, attribute); });
}

void FitSheet::takeFound(const station::Found& found, const std::string& attribute) {
    --m_looks;
    noteOtherPosition(found);
    if (!m_isKeeping) {
        attribute.empty() ? takeScanned(found) : takeTyped(found, attribute);
        showAnswers();
    }
    if (m_looks == 0 && std::exchange(m_keepsThen, false)) keepPressed();
}

const report::PartProposal* FitSheet::proposalIn(const station::Found& found) const {
    const auto here = std::ranges::find(found.parts, m_fit.position,
                                        &report::PartProposal::position);
    return here == found.parts.end() ? nullptr : &*here;
}

// A part by its serial or model that was never here is told and left alone; a lot is taken, since
// nothing else can be told by it.
void FitSheet::takeScanned(const station::Found& found) {
    using What = station::Found::What;
    const auto read = shownText(found.read);
    const auto* here = proposalIn(found);
    const bool isPart = found.what == What::Part || found.what == What::Model;
    if (isPart && here == nullptr) {
        say(*m_trouble, tr("%1 It is not known as: %2.")
                            .arg(shownText(found.sentence), shownText(m_fit.label)));
    } else if (isPart && m_fields->losesTyped(*here)) {
        askToPropose(*here, read);
    } else if (isPart) {
        m_code = found.read;
        propose(*here, Proposed::ByCode);
    } else if (found.what == What::Lot ? !m_fields->typeLot(read)
                                       : !m_fields->typeIntoFocused(read)) {
        say(*m_trouble, tr("Read %1. Put the cursor where it belongs, and scan again.").arg(read));
    }
}

void FitSheet::takeTyped(const station::Found& found, const std::string& attribute) {
    const auto* here = proposalIn(found);
    if (attribute == "lot" || found.what == station::Found::What::Lot || here == nullptr) return;
    if (m_fields->losesTyped(*here)) {
        askToPropose(*here, shownText(found.read));
        return;
    }
    m_code = found.read;
    propose(*here, Proposed::ByCode);
}

void FitSheet::noteOtherPosition(const station::Found& found) {
    m_otherPositions.erase(found.read);
    if (!found.isOfParts() || found.parts.empty() || proposalIn(found) != nullptr) return;
    m_otherPositions.emplace(
        found.read,
        report::otherPositionSentence(contextOf(*m_unit, m_tools.desk.workplace.words()),
                                      found.read, found.parts, m_fit.position));
}

void FitSheet::askToPropose(const report::PartProposal& proposal, const QString& read) {
    m_tools.desk.workplace.ask(
        {tr("Read %1. Take what is known of it, in place of what you typed?").arg(read),
         tr("Take what is known of %1").arg(read), tr("Keep what I typed")},
        [self = QPointer<FitSheet>(this), proposal, code = plainText(read)](bool isYes) {
            if (!self || !isYes) return;
            self->m_code = code;
            self->propose(proposal, Proposed::ByCode);
        });
}

// What is proposed may be old by now; what somebody typed, scanned or chose stays.
void FitSheet::comeBack() {
    const auto fleet = m_tools.desk.workplace.fleet();
    if (!fleet) return;
    const auto code = m_proposed == Proposed::ByCode ? m_code : std::string();
    m_tools.desk.workplace.read(
        [fleet, code, device = m_unit->bedside.identity.device](const auto& surroundings,
                                                                const auto& file) {
            return readUnitView(fleet, surroundings, file, device)
                .map([&](const SharedUnitView& unit) {
                    Again again{unit, {}};
                    if (!code.empty())
                        again.found = findNamed(*fleet, surroundings, file, code, device);
                    return again;
                });
        },
        this, [this](const station::Result<Again>& again) {
            if (again) renew(*again);
        });
}

void FitSheet::renew(const Again& again) {
    if (m_isKeeping) return;
    m_unit = again.unit;
    m_fit = fitFor(*m_unit, m_tools.desk.workplace.words(), m_fit.position);
    showFit();
    const auto* proposal = m_proposed == Proposed::OfUnit ? &m_fit.proposed
                           : m_proposed == Proposed::PutBack && m_fit.putBack
                               ? &*m_fit.putBack
                           : again.found ? proposalIn(*again.found)
                                         : nullptr;
    if (again.found) noteOtherPosition(*again.found);
    if (proposal != nullptr) {
        showSource(*proposal);
        m_fields->renew(*proposal);
    }
    showAnswers();
}

QString FitSheet::otherGroups() const {
    const auto part = m_fields->stated(m_fit.position);
    const auto context = contextOf(*m_unit, m_tools.desk.workplace.words());
    return shownText(report::otherGroupsSentence(context, m_fit.position, part.groups));
}

// What is to be agreed to besides, where it may wait for that.
std::vector<std::string> FitSheet::remarks() const {
    std::vector<std::string> remarks;
    if (const auto groups = otherGroups(); !groups.isEmpty()) remarks.push_back(plainText(groups));
    for (const auto& [attribute, text] : m_fields->stated(m_fit.position).texts) {
        const auto other = m_otherPositions.find(text);
        const bool isMark = attribute == "serial" || attribute == "lot" || attribute == "model";
        if (isMark && other != m_otherPositions.end()) remarks.push_back(other->second);
    }
    return remarks;
}

void FitSheet::showAnswers() {
    if (m_keep == nullptr || m_isKeeping) return;
    QStringList told;
    for (const auto& remark : remarks()) told << shownText(remark);
    if (!m_elsewhere.isEmpty() && !m_fields->isOfOtherPart()) told << m_elsewhere;
    told << m_fields->lacking();
    say(*m_remark, told.join(QLatin1Char('\n')));
    const auto wrong = m_fields->wrong();
    m_keep->setEnabled(wrong.isEmpty());
    m_keep->setText(!wrong.isEmpty()  ? wrong
                    : m_fit.occupied ? tr("The old one is out, this one is in")
                                     : tr("This one was fitted"));
    showOutlook();
}

// One question at a time: while somebody types only the last one matters.
void FitSheet::showOutlook() {
    if (std::exchange(m_isJudging, true)) {
        m_judgesAgain = true;
        return;
    }
    auto& workplace = m_tools.desk.workplace;
    workplace.read(
        [fleet = workplace.fleet() ? workplace.fleet() : m_unit->fleet,
         device = m_unit->bedside.identity.device,
         part = m_fields->stated(m_fit.position)](const auto& surroundings, const auto&) {
            return station::partOutlook(surroundings, *fleet->standing, device, part);
        },
        this, [this](const std::string& told) {
            m_isJudging = false;
            say(*m_outlook, m_fields->wrong().isEmpty() ? shownText(told) : QString());
            if (std::exchange(m_judgesAgain, false)) showOutlook();
        });
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

Pressed FitSheet::pressed() const {
    const auto part = m_fields->stated(m_fit.position);
    auto acts = m_fit.occupied ? station::swapOf(part) : std::vector{station::fitOf(part)};
    return {m_unit->bedside.identity.device, std::move(acts), remarks()};
}

// On a patient nothing is.
bool FitSheet::mayAsk() const {
    const auto press = pressed();
    return m_tools.desk.workplace.waitsForPin(
        station::entriesOf({station::Writer(""), press.device}, press.acts));
}

// What is still being looked up may have to be asked about.
void FitSheet::keep() {
    m_fields->finishTyping();
    const bool isLookedUp = m_looks == 0 || !mayAsk();
    m_presser = m_tools.desk.workplace.whoIsHere();
    setKeeping(true);
    if (isLookedUp) {
        keepPressed();
    } else {
        m_keepsThen = true;
    }
}

void FitSheet::keepPressed() {
    if (!isStillTheirs(m_tools.desk.workplace, m_unit->bedside.identity.device, m_presser)) {
        setKeeping(false);
        return;
    }
    keepActs({m_tools.desk, *m_strip}, pressed(), this,
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
