// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bedside desk; see bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"

#include "desktop/bedside/acts_panel.h"
#include "desktop/bedside/history_panel.h"
#include "desktop/bedside/hold_banner.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/bedside/setup_panel.h"
#include "desktop/bedside/unit_bar.h"
#include "desktop/bedside/way_panel.h"
#include "desktop/shell/clock_sentence.h"
#include "desktop/shell/emergency_starts.h"
#include "desktop/shell/first_focus.h"
#include "desktop/shell/shortcuts.h"
#include "desktop/shell/text.h"
#include "desktop/shell/unrecorded.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "words/shown.h"

#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

BedsideDesk::BedsideDesk(DeskTools tools, QWidget* parent) : Desk(tools, parent) {
    m_ready = new ReadyList(workplace().words());
    m_work = new QWidget;
    m_bar = new UnitBar;
    m_hold = new HoldBanner(tools);
    m_tabs = new QHBoxLayout;
    m_tabs->setSpacing(targetGap);
    m_panels = new QStackedWidget;
    m_strip = new EntryStrip(tools);
    auto* work = new QVBoxLayout(m_work);
    work->setContentsMargins(0, 0, 0, 0);
    work->setSpacing(8);
    work->addWidget(m_bar);
    work->addWidget(m_hold);
    work->addLayout(m_tabs);
    work->addWidget(m_panels, 1);
    work->addWidget(m_strip);
    makePanels();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    m_doubts = textLabel({});
    m_doubts->setProperty("banner", true);
    m_doubts->setAccessibleName(tr("What is in doubt"));
    m_doubts->hide();
    layout->addWidget(m_doubts);
    takeStarts();
    layout->addWidget(m_ready, 1);
    layout->addWidget(m_work, 1);
    m_work->hide();
    showPanel(0);
    addShortcut(this, Command::ShowWhen, [this] { focusFirst(*m_strip); });
    addShortcut(this, Command::CloseUnit, [this] {
        closeUnit();
        focusFirst(*m_ready);
    });
    connect(m_ready, &ReadyList::unitWanted, this, &BedsideDesk::showUnit);
    connect(m_ready, &ReadyList::emergencyWanted, this, &BedsideDesk::startInEmergency);
    connect(m_ready, &ReadyList::enrolmentWanted, this, [this] { enrolUnits({}); });
    connect(&workplace(), &Workplace::fleetChanged, this, [this] {
        m_ready->show(workplace().fleet());
        showDoubts();
        showAge();
        readUnit();
        if (const auto early = std::exchange(m_early, nullptr)) early();
    });
    connect(&workplace(), &Workplace::fleetMarked, this, &BedsideDesk::showMarked);
    connect(&workplace(), &Workplace::readOnlyChanged, this, &BedsideDesk::showDoubts);
    connect(&workplace(), &Workplace::appearanceChanged, m_ready, &ReadyList::restyle);
    connect(&workplace(), &Workplace::kept, this, &BedsideDesk::await);
    connect(&workplace().presence(), &Presence::left, this, &BedsideDesk::leave);
    m_second.setInterval(std::chrono::seconds(1));
    connect(&m_second, &QTimer::timeout, this, &BedsideDesk::showAge);
    m_second.start();
}

// What cannot be read again gets older, and "ready" runs out: neither is shown as if it were now.
void BedsideDesk::showAge() {
    const auto& fleet = workplace().fleet();
    if (!fleet) return;
    const auto now = workplace().clock().now();
    m_ready->showAge(ageSentence(*fleet, workplace().words(), now));
    // The unit may be one that could not be read again, though the fleet was.
    if (m_unit) m_bar->showAge(ageSentence(*m_unit->fleet, workplace().words(), now), now);
}

// At once, whether or not the logbook can be read.
void BedsideDesk::showMarked() {
    m_ready->show(workplace().fleet());
    if (isShown()) {
        auto marked = std::make_shared<UnitView>(*m_unit);
        // Of the fleet by which its rows were read: what was entered since is not in them.
        marked->fleet = withUnrecorded(m_unit->fleet, workplace().starts().units(),
                                       workplace().words());
        tellUnrecorded(marked->bedside, *marked->fleet, workplace().words());
        show(marked);
    }
    readUnit();
}

// What was found wrong with the logbook, or with the clock.
void BedsideDesk::showDoubts() {
    if (!workplace().fleet()) return;  // another logbook is being opened
    QStringList lines;
    const auto& fleet = *workplace().fleet();
    for (const auto& problem : fleet.board.provenance.problems)
        lines << shownText(workplace().words().say("board.problem", {{"problem", problem}}));
    if (const auto later = laterSentence(fleet, workplace().words()); !later.isEmpty())
        lines << later;
    if (const auto readOnly = workplace().readOnlySentence(); !readOnly.isEmpty())
        lines << readOnly;
    m_doubts->setText(lines.join(QLatin1Char('\n')));
    m_doubts->setVisible(!lines.isEmpty());
}

void BedsideDesk::makePanels() {
    const PanelTools panel{tools(), *m_strip};
    auto* way = new WayPanel(panel);
    m_setup = new SetupPanel(panel);
    auto* acts = new ActsPanel(panel);
    addPanel(way, tr("Way to ready"), Command::ShowWay);
    addPanel(m_setup, tr("Set-up"), Command::ShowSetup);
    addPanel(acts, tr("Other entries"), Command::ShowActs);
    addPanel(new HistoryPanel(panel), tr("History"), Command::ShowHistory);
    connect(way, &WayPanel::fitWanted, m_setup,
            [this](const QString& position) { m_setup->fit(plainText(position)); });
    connect(way, &WayPanel::serviceWanted, acts,
            [acts](const QString& service) { acts->recordService(plainText(service)); });
}

void BedsideDesk::addPanel(UnitPanel* panel, const QString& name, Command command) {
    const int index = m_panels->addWidget(panel);
    auto* button = new QPushButton(name);
    button->setCheckable(true);
    button->setAutoExclusive(true);
    // A screen reader chooses it without a click.
    connect(button, &QPushButton::toggled, this, [this, index](bool isChosen) {
        if (isChosen) showPanel(index);
    });
    addShortcut(this, command, [this, index] {
        if (m_serial.isEmpty()) return;
        showPanel(index);
        if (!this->panel(index)->focusWork()) focusFirst(*this->panel(index));
    });
    connect(panel, &UnitPanel::codeRead, this,
            [this](const QString& text) { readCode(text, Origin::Scanned); });
    connect(panel, &UnitPanel::unitWanted, this, &BedsideDesk::showUnit);
    m_tabs->addWidget(button);
    m_panelButtons.push_back(button);
}

void BedsideDesk::showPanel(int index) {
    m_panels->setCurrentIndex(index);
    m_strip->setVisible(panel(index)->asksWhen());
    m_panelButtons[static_cast<std::size_t>(index)]->setChecked(true);
}

UnitPanel* BedsideDesk::panel(int index) const {
    return static_cast<UnitPanel*>(m_panels->widget(index));
}

bool BedsideDesk::isOpen() const {
    if (sheets().hasDraft()) return true;  // one that came back belongs to no panel
    for (int i = 0; i < m_panels->count(); ++i)
        if (panel(i)->isOpen()) return true;
    return false;
}

void BedsideDesk::showUnit(const QString& serial) {
    openAsked(serial, Origin::Chosen);
}

void BedsideDesk::openAsked(const QString& serial, Origin origin) {
    if (serial == m_serial) {
        Q_EMIT workplace().told(tr("Unit %1 is open.").arg(serial));
        return;
    }
    if (!isOpen()) {
        open(serial, origin);
        return;
    }
    workplace().ask({tr("You are entering something on unit %1. Leave that and open unit %2? "
                        "Nothing of it is kept in the log. What you typed stays here as a draft, "
                        "and is back when you open %1 again.")
                         .arg(m_serial, serial),
                     tr("Leave it, open %1").arg(serial), tr("Stay with %1").arg(m_serial)},
                    [this, serial, origin](bool isYes) {
                        if (!isYes) return;
                        leaveDraft();
                        open(serial, origin);
                    });
}

// What is entered on the unit waits for whoever entered it; what cannot wait is given up.
void BedsideDesk::leaveDraft() {
    sheets().putAside({personHere(), plainText(m_serial)});
    for (int i = 0; i < m_panels->count(); ++i) panel(i)->giveUp();
}

std::string BedsideDesk::personHere() const {
    const auto& session = workplace().presence().session();
    return session ? session->person() : std::string();
}

// Of whoever is signed in, and of nobody.
void BedsideDesk::bringDraftBack() {
    const auto unit = plainText(m_serial);
    bool isBack = sheets().bringBack({{}, unit});
    if (const auto person = personHere(); !person.empty())
        isBack = sheets().bringBack({person, unit}) || isBack;
    if (isBack)
        Q_EMIT workplace().told(tr("This was being entered on unit %1 and is not kept yet.")
                                    .arg(m_serial));
}

void BedsideDesk::open(const QString& serial, Origin origin) {
    m_serial = serial;
    m_origin = origin;
    m_strip->clear();
    if (origin != Origin::Chosen) Q_EMIT workplace().told({});  // it was about another unit
    nameSession();
    showPanel(0);
    readUnit();
    workplace().refresh();  // what others wrote a moment ago bears on it too
}

// What is entered from here until another unit is opened can be struck or moved together.
void BedsideDesk::nameSession() {
    const auto fleet = workplace().fleet();
    if (!fleet) return;
    workplace().read(
        [fleet](const auto& surroundings, const auto&) {
            return station::batchName(surroundings, *fleet->standing);
        },
        this, [this, serial = m_serial](const std::string& name) {
            if (serial == m_serial) m_strip->setBatch(name);
        });
}

bool BedsideDesk::focusWork() {
    return !m_serial.isEmpty() && panel(m_panels->currentIndex())->focusWork();
}

void BedsideDesk::closeUnit() {
    m_serial.clear();
    m_unit.reset();
    m_work->hide();
    m_ready->show();
}

void BedsideDesk::readUnit() {
    const auto fleet = workplace().fleet();
    if (!fleet || m_serial.isEmpty()) return;
    workplace().read(
        [fleet, serial = plainText(m_serial)](const auto& surroundings, const auto& file) {
            return readUnitView(fleet, surroundings, file, serial);
        },
        this, [this, fleet, serial = m_serial](const station::Result<SharedUnitView>& unit) {
            if (serial != m_serial) return;
            // One that is not in it may have been enrolled since that fleet was read.
            const bool isLast = fleet == workplace().fleet() && !workplace().isReading();
            if (unit || isLast) take(unit);
        });
}

void BedsideDesk::take(const station::Result<SharedUnitView>& unit) {
    if (!unit) {
        takeUnread(unit.error());
    } else if (!isShown() || !isBefore(**unit)) {
        show(*unit);
    }
}

// What is shown stays, and says how old it is; a unit that is not known has nothing to be shown.
void BedsideDesk::takeUnread(const station::Problem& problem) {
    if (isShown() && problem.code != "trouble.unknown_device") {
        Q_EMIT workplace().troubled(problem);
        return;
    }
    closeUnit();
    Q_EMIT workplace().refused(problem);
}

// Whether what is shown is the unit that is open; for a moment it may be the one before.
bool BedsideDesk::isShown() const {
    return m_unit && m_unit->bedside.identity.device == plainText(m_serial);
}

// What was kept is told at once; until it is known what becomes of the unit by it, nothing from
// before it is shown as how things stand.
void BedsideDesk::await(const logbook::RecordName& kept) {
    m_awaited = kept;
    if (m_unit) showAwaited();
}

void BedsideDesk::showAwaited() {
    m_bar->showAwaited();
    for (int i = 0; i < m_panels->count(); ++i) panel(i)->await();
}

bool BedsideDesk::isBefore(const UnitView& unit) const {
    return m_awaited && unit.fleet->isBefore(*m_awaited);
}

// From before an entry only where nothing else of the unit can be shown yet.
void BedsideDesk::show(const SharedUnitView& unit) {
    const auto before = std::exchange(m_unit, unit);
    m_bar->show(unit->bedside.identity);
    showAge();
    m_hold->show(unit);
    for (int i = 0; i < m_panels->count(); ++i) panel(i)->show(unit);
    if (isBefore(*unit)) {
        showAwaited();
    } else {
        m_awaited.reset();
    }
    if (!before || before->bedside.identity.device != unit->bedside.identity.device) showFirst();
    Q_EMIT unitShown(m_serial);
}

// For the first time since it was opened.
void BedsideDesk::showFirst() {
    m_bar->askToCompare(m_origin == Origin::Typed);
    m_ready->hide();
    m_work->show();
    const auto& session = workplace().presence().session();
    const auto aside = session ? m_setAside.find(session->person()) : m_setAside.end();
    if (aside != m_setAside.end()) {
        if (aside->second.serial == m_serial) m_strip->choose(aside->second.choice);
        m_setAside.erase(aside);
    }
    bringDraftBack();
    if (m_origin != Origin::Chosen) askPlace();
}

// A unit that is in somebody's hands here, and recorded elsewhere.
void BedsideDesk::askPlace() {
    const auto& place = workplace().place();
    const auto& unit = m_unit->bedside.identity;
    if (!place || unit.location == place) return;
    const auto here = shownText(words::shown(*place));
    const auto question = unit.location
                              ? tr("Unit %1 is recorded at another place: %2. Is it here now, %3?")
                              : tr("Unit %1: %2. Is it here now, %3?");
    workplace().ask(
        {question.arg(shownText(unit.serial), shownText(unit.place), here),
         tr("It is here: record that"), tr("Leave it as it is")},
        [this, device = unit.device, location = *place](bool isYes) {
            if (!isYes) return;
            station::Entry entry{station::Writer(""), "move"};
            entry.device = device;
            entry.body = {{"location", location}};
            workplace().keep({entry}, this);
        });
}

// What is chosen in the strip is put aside with the sheets.
void BedsideDesk::leave(const std::string& person) {
    m_setAside.insert_or_assign(person, SetAside{m_serial, m_strip->choice()});
    m_strip->clear();
}

}  // namespace desktop
