// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window; see window.h.
#include "desktop/shell/window.h"

#include "desktop/bedside/bedside_desk.h"
#include "desktop/first_start/first_start.h"
#include "desktop/fleet/fleet_desk.h"
#include "desktop/shell/closing.h"
#include "desktop/shell/head_bar.h"
#include "desktop/shell/help_sheet.h"
#include "desktop/shell/pin_sheet.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/shortcuts.h"
#include "desktop/shell/sign_in_sheet.h"
#include "desktop/shell/text.h"
#include "desktop/shell/told_text.h"
#include "desktop/shell/unkept_starts.h"
#include "desktop/shell/waiting_hint.h"
#include "desktop/theme/appearance.h"
#include "station/sample.h"
#include "station/settings.h"
#include "station/system.h"

#include <QApplication>
#include <QButtonGroup>
#include <QCloseEvent>
#include <QPushButton>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTimer>
#include <QVBoxLayout>
#include <chrono>
#include <filesystem>
#include <utility>

namespace desktop {

namespace {

// Two windows on two logbooks are told apart.
void nameLogbook(QWidget& window, const station::LogbookFile& file) {
    const auto path = std::filesystem::absolute(file.path);
    window.setWindowTitle(Window::tr("%1 in %2 - Airmuster")
                              .arg(shownText(path.filename().string()),
                                   shownText(path.parent_path().string())));
}

}  // namespace

Window::Window(Start start, QWidget* parent) : QWidget(parent), m_workplace(std::move(start)) {
    setWindowTitle(tr("Airmuster"));
    auto* layout = new QVBoxLayout(this);
    layout->setSpacing(8);
    m_stack = new QStackedWidget;
    makeHead();
    layout->addWidget(m_head);
    layout->addWidget(m_stack, 1);
    m_told = new ToldText;
    layout->addWidget(m_told);
    m_sheets = new SheetStack(this);
    m_sheets->covers(m_head);
    m_sheets->covers(m_stack);
    m_questions = std::make_unique<SheetQuestions>(*m_sheets);
    m_workplace.askThrough(m_questions.get());
    auto* unkept = new UnkeptStarts({m_workplace, *m_sheets});
    m_sheets->covers(unkept);
    layout->insertWidget(1, unkept);
    m_waiting = new WaitingHint({m_workplace, *m_sheets});
    m_sheets->covers(m_waiting);
    layout->insertWidget(3, m_waiting);
    makeDesks();
    makeShortcuts();
    makeFirstStart();
    makeClosing();
    connect(&m_scans, &ScanFilter::scanned, this, &Window::takeScan);
    m_scans.askAtEnd([this](QLineEdit& line) { return askIfScanned(line); });
    connect(m_sheets, &SheetStack::escaped, this, &Window::askToLeave);
    // What was told of the last act makes room for the next.
    connect(m_sheets, &SheetStack::began, this, [this] { tell({}); });
    connect(m_sheets, &SheetStack::draftsCalledOff, this, [this] { tell({}); });
    connect(&m_workplace.presence(), &Presence::changed, this, &Window::showPresence);
    connect(&m_workplace.presence(), &Presence::left, this, &Window::leave);
    connect(&m_workplace.presence(), &Presence::came, this, &Window::comeBack);
    connect(&m_workplace, &Workplace::told, this, &Window::tell);
    connect(&m_workplace, &Workplace::refused, this, &Window::tellProblem);
    connect(&m_workplace, &Workplace::troubled, this, [this](const auto& problem) {
        if (!isFirstStart()) tellProblem(problem);  // it says by itself what it met
    });
    connect(&m_workplace, &Workplace::writerWanted, this, &Window::askWhoWrites);
    showPresence();
    m_workplace.refresh();
    verifyLog();
    if (!station::system::exists(m_workplace.file().path)) showFirstStart(true);
}

Window::~Window() {
    hide();  // what loses the keys still asks of the workplace
    m_workplace.askThrough(nullptr);
}

void Window::makeHead() {
    m_head = new HeadBar;
    connect(m_head, &HeadBar::typed, this, &Window::takeTyped);
    connect(m_head, &HeadBar::personPressed, this, &Window::signInOrLock);
    connect(m_head, &HeadBar::helpPressed, this, &Window::showHelp);
}

void Window::signInOrLock() {
    auto& presence = m_workplace.presence();
    if (presence.session()) {
        presence.lock();
    } else if (m_sheets->isEmpty()) {
        m_sheets->put(new SignInSheet(m_workplace, SignInSheet::Wanted::SignIn,
                                      [this](const station::Writer&) { focusWork(); }));
    }
}

// Where a scan or a step goes on; what was put aside for whoever came has the focus already.
void Window::focusWork() {
    if (!m_sheets->isEmpty() || isFirstStart()) return;
    if (!static_cast<Desk*>(m_stack->currentWidget())->focusWork())
        m_head->focusCodes(Qt::OtherFocusReason);
}

void Window::makeDesks() {
    m_deskGroup = new QButtonGroup(this);
    const DeskTools tools{m_workplace, *m_sheets};
    m_bedside = new BedsideDesk(tools);
    m_fleet = new FleetDesk(tools);
    addDesk(m_bedside, tr("Bedside"));
    addDesk(m_fleet, tr("Fleet"));
    showDesk(0);
}

void Window::addDesk(Desk* desk, const QString& name) {
    const int index = m_stack->addWidget(desk);
    auto* button = new QPushButton(name);
    button->setCheckable(true);
    m_deskGroup->addButton(button);
    // A screen reader chooses it without a click.
    connect(button, &QPushButton::toggled, this, [this, index](bool isChosen) {
        if (isChosen) showDesk(index);
    });
    // Pressed where it is chosen already: back to where the desk begins.
    connect(button, &QPushButton::pressed, this, [this, desk, button] {
        if (button->isChecked() && m_stack->currentWidget() == desk) desk->goHome();
    });
    m_head->addDesk(button);
    m_deskButtons.push_back(button);
    connect(desk, &Desk::unitWanted, this, [this](const QString& serial) {
        showDesk(m_stack->indexOf(m_bedside));
        m_bedside->showUnit(serial);
    });
}

void Window::makeFirstStart() {
    const auto folder = QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation);
    m_firstStart = new FirstStart({m_workplace, *m_sheets}, plainText(folder));
    m_stack->addWidget(m_firstStart);
    connect(m_firstStart, &FirstStart::opened, this,
            [this](const station::LogbookFile& file, const QString& serial) {
                if (file.path != m_workplace.file().path) m_workplace.open(file);
                showFirstStart(false);
                if (m_workplace.fleet() == nullptr) m_workplace.refresh();  // and tell why
                showDesk(m_stack->indexOf(serial.isEmpty() ? static_cast<QWidget*>(m_fleet)
                                                           : m_bedside));
                if (!serial.isEmpty()) m_bedside->showUnit(serial);
            });
    connect(&m_workplace, &Workplace::troubled, this, [this] {
        const bool mayLack = !m_firstStart->lacksNothing(m_workplace.file());
        if (m_workplace.fleet() == nullptr && mayLack) showFirstStart(true);
    });
    connect(&m_workplace, &Workplace::fleetChanged, this, [this] {
        const bool hasPersons = !m_workplace.fleet()->board.state.persons.empty();
        if (!m_firstStart->isUnderWay()) showFirstStart(!hasPersons);
    });
}

void Window::makeClosing() {
    const auto unit = [this] {
        return m_stack->currentWidget() == m_bedside ? m_bedside->serial() : QString();
    };
    const auto lost = [this] {
        return isFirstStart() ? m_firstStart->lostIfClosed()
                              : UnkeptStarts::ifClosed(m_workplace).lost;
    };
    const auto waits = [this] { return UnkeptStarts::ifClosed(m_workplace).waits; };
    m_closing = new Closing({m_workplace, *m_sheets}, {unit, lost, waits}, this);
    connect(m_closing, &Closing::wanted, this, [this] { close(); });
}

void Window::closeEvent(QCloseEvent* event) {
    m_scans.giveBack();  // it belongs to what is asked about
    event->setAccepted(m_closing->mayClose(Closing::Cause::Window));
}

bool Window::isFirstStart() const {
    return m_stack->currentWidget() == m_firstStart;
}

void Window::showFirstStart(bool isFirst) {
    if (isFirst == isFirstStart()) return;
    m_head->setVisible(!isFirst);
    m_stack->setCurrentWidget(isFirst ? static_cast<QWidget*>(m_firstStart) : m_bedside);
    tell({});  // it was about the other page, or stands on this one
    if (isFirst) m_firstStart->begin(m_workplace.file());
}

void Window::makeShortcuts() {
    addShortcut(m_head, Command::ShowBedside, [this] { showDesk(m_stack->indexOf(m_bedside)); });
    addShortcut(m_head, Command::ShowFleet, [this] { showDesk(m_stack->indexOf(m_fleet)); });
    addShortcut(m_head, Command::TypeCode,
                [this] { m_head->focusCodes(Qt::ShortcutFocusReason); });
    addShortcut(m_head, Command::ShowWaiting, [this] { m_waiting->open(); });
    // Also over a sheet: what is on it is kept for its owner.
    addShortcut(this, Command::SignInOrLock, [this] { signInOrLock(); });
    addShortcut(this, Command::ShowHelp, [this] { showHelp(); });
}

void Window::showHelp() {
    if (!m_sheets->isEmpty()) return;
    auto* sheet = new HelpSheet({m_workplace, *m_sheets});
    connect(sheet, &HelpSheet::appearanceWanted, this, [this, sheet](int percent, bool isDark) {
        sheet->callOff();
        apply(*qApp, {isDark ? Theme::Dark : Theme::Light, percent});
        Q_EMIT m_workplace.appearanceChanged();
    });
    m_sheets->put(sheet);
}

void Window::showDesk(int index) {
    if (isFirstStart()) return;
    if (index != m_stack->currentIndex()) tell({});  // it was about the other desk
    m_stack->setCurrentIndex(index);
    m_deskButtons[static_cast<std::size_t>(index)]->setChecked(true);
}

void Window::askWhoWrites(const Workplace::WriterWanted& wanted,
                          const std::function<void(station::Writer)>& then) {
    if (wanted.isAgain) {
        m_sheets->put(new PinSheet(m_workplace, wanted.what, then));
        return;
    }
    const auto what = wanted.waits ? SignInSheet::Wanted::SignIn : SignInSheet::Wanted::NameOnly;
    auto* sheet = new SignInSheet(m_workplace, what, then);
    sheet->sayFor(wanted.what);
    m_sheets->put(sheet);
}

void Window::showPresence() {
    m_head->showPerson(m_workplace.presence().name());
}

// Of the station whose logbook it is; how the window looks is settled before it is opened.
void Window::takeSettings() {
    m_workplace.read(
        [](const auto& surroundings, const auto& file) {
            return station::settingsOf(surroundings, file);
        },
        this, [this](const station::Result<station::StationSettings>& read) {
            if (!read) return;
            const auto& settings = read->settings;
            m_workplace.presence().lockAfter(std::chrono::milliseconds(settings.lockAfter.ms));
            m_workplace.standAt(settings.place);
            m_workplace.measureIn(settings.units);
            m_scans.setFrame(shownText(settings.scannerPrefix), shownText(settings.scannerSuffix));
        });
}

// In the background, after the desks are filled; what is found stands across the head of the fleet.
void Window::verifyLog() {
    connect(&m_workplace, &Workplace::fleetChanged, this, [this] {
        if (std::exchange(m_verified, m_workplace.file().path) == m_workplace.file().path) return;
        nameLogbook(*this, m_workplace.file());
        takeSettings();
        m_workplace.verify();
        tellDemo();
    });
    // They may be set from outside meanwhile.
    auto* look = new QTimer(this);
    connect(look, &QTimer::timeout, this, [this] {
        if (m_workplace.fleet()) takeSettings();
    });
    look->start(std::chrono::seconds(15));
}

// On the way in; the sheet for signing in tells it again.
void Window::tellDemo() {
    if (!station::isSample(m_workplace.fleet()->standing->facts)) return;
    m_workplace.read([](const auto&, const auto&) { return station::samplePeople(); }, this,
                     [this](const std::vector<station::SamplePerson>& people) {
                         const auto& guest = people.front();
                         tell(shownText(m_workplace.words().say(
                             "sample.welcome", {{"key", guest.key}, {"pin", guest.pin}})));
                     });
}

// What was being entered is put aside for its owner; whoever comes next finds what is ready.
void Window::leave(const std::string& person) {
    tell({});
    m_sheets->putAside({person, plainText(m_bedside->serial())});
    m_unitOf[person] = m_bedside->serial();
    m_bedside->closeUnit();
    showDesk(m_stack->indexOf(m_bedside));
}

void Window::comeBack(const std::string& person) {
    const auto unit = std::exchange(m_unitOf[person], {});
    if (!unit.isEmpty() && m_bedside->serial().isEmpty()) m_bedside->showUnit(unit);
    m_sheets->bringBack({person, {}});
    if (const auto open = plainText(m_bedside->serial()); !open.empty())
        m_sheets->bringBack({person, open});
}

void Window::tell(const QString& text) {
    m_told->setText(text);
    if (auto* sheet = m_sheets->top()) sheet->tell(text);
}

void Window::tellProblem(const station::Problem& problem) {
    m_told->setText(problemText(problem));  // a sheet says by itself why it was refused
}

}  // namespace desktop
