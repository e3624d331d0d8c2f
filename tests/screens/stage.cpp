// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The stage; see stage.h.
#include "screens/stage.h"

#include "desktop/bedside/bedside_desk.h"
#include "desktop/bedside/unit_bar.h"
#include "desktop/shell/pin_field.h"
#include "station/system.h"
#include "support/kept_logbook.h"

#include <QAbstractButton>
#include <QApplication>
#include <QElapsedTimer>
#include <QInputMethodEvent>
#include <QLabel>
#include <QLineEdit>
#include <QtTest/QTest>
#include <map>
#include <stdexcept>
#include <utility>

namespace screens {

namespace {

// Saturday 28 November 2026, 08:00 at Kestrel Bay.
constexpr logbook::Instant fixed{1'795'874'400'000};

const words::Words& wordsOf(const std::string& language) {
    return *words::Words::builtIn(language);
}

constexpr int keyMs = 30;     // slower than any scanner, and long enough for a key to be handed on
constexpr int mostMs = 400;   // to look at a window in which something goes on
constexpr int quietMs = 100;  // without a happening: it is over

// What the widgets of a window are told and paint.
class Happenings : public QObject {
public:
    explicit Happenings(const QWidget& window) : m_window(window) {
        m_since.start();
        qApp->installEventFilter(this);
    }
    [[nodiscard]] bool areOver() const { return m_since.hasExpired(quietMs); }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Timer || !watched->isWidgetType()) return false;
        const auto* widget = static_cast<const QWidget*>(watched);
        if (widget == &m_window || m_window.isAncestorOf(widget)) m_since.restart();
        return false;
    }

private:
    const QWidget& m_window;
    QElapsedTimer m_since;
};

// A busy computer may still hold the last letter.
bool isTyped(const QWidget& field, const QString& text) {
    if (const auto* line = qobject_cast<const QLineEdit*>(&field))
        return line->text().endsWith(text);
    const auto* pin = qobject_cast<const desktop::PinField*>(&field);
    return pin == nullptr || static_cast<qsizetype>(pin->secret().text().size()) >= text.size();
}

bool says(const QWidget& widget, const QString& text) {
    auto label = widget.property("text").toString().remove(QLatin1Char('&'));
    return (!label.isEmpty() && label.startsWith(text)) ||
           widget.accessibleName().startsWith(text);
}

}  // namespace

Stage::Stage(Look look)
    : m_look(std::move(look)), m_labels(m_look.language), m_clock(fixed) {
    QApplication::installTranslator(&m_labels);
    desktop::apply(*qApp, m_look.appearance);
    qputenv("XDG_DATA_HOME", QByteArray::fromStdString(m_home.path().string()));
}

Stage::~Stage() {
    m_window.reset();
    QApplication::removeTranslator(&m_labels);
    qunsetenv("XDG_DATA_HOME");
}

void Stage::openDemo() {
    if (m_isOnDemo) {
        goBack();
        return;
    }
    m_isOnDemo = true;
    m_signedIn.reset();
    const station::LogbookFile file{m_home.file("kestrel-bay.logbook")};
    support::copyDemo({m_clock, station::system::systemZones(), wordsOf(m_look.language), "desk"},
                      m_look.language, file.path);
    open(file);
    waitUntil("the fleet is read", [&] { return window().workplace().fleet() != nullptr; });
}

void Stage::openNothing() {
    m_isOnDemo = false;
    std::filesystem::remove_all(m_home.path());
    std::filesystem::create_directory(m_home.path());
    open({});
}

void Stage::goBack() {
    const auto* sheets = window().findChild<desktop::SheetStack*>();
    while (auto* sheet = sheets->top()) sheet->callOff();
    window().workplace().presence().lock();
    window().findChild<desktop::BedsideDesk*>()->closeUnit();
    press(QStringLiteral("Bedside"));
    Q_EMIT window().workplace().told({});
}

void Stage::open(const station::LogbookFile& file) {
    m_clock.moveTo(fixed);
    m_window = std::make_unique<desktop::Window>(
        desktop::Start{file, m_clock, wordsOf(m_look.language), &station::system::systemZones,
                       "desk", m_home.file("starts")});
    m_stamps.install();
    m_window->resize(m_look.size);
    m_window->show();
    (void)QTest::qWaitForWindowExposed(m_window.get());
    QApplication::setActiveWindow(m_window.get());
}

void Stage::waitUntil(const std::string& what, const std::function<bool()>& isSo) {
    if (!QTest::qWaitFor(isSo, 60'000)) throw std::runtime_error("it never came that " + what);
}

bool Stage::isSaid(const QString& english) const {
    const auto texts = m_labels.saidFor(english);
    for (const auto* label : window().findChildren<QLabel*>())
        for (const auto& text : texts)
            if (label->isVisible() && label->text().contains(text)) return true;
    return false;
}

// What lies uppermost goes first.
QWidget* Stage::find(const QString& english, bool isButton) const {
    const auto* stack = window().findChild<desktop::SheetStack*>();
    const QWidget* within = stack->top();
    if (within == nullptr) within = &window();
    for (const auto& said : m_labels.saidFor(english))
        for (auto* each : within->findChildren<QWidget*>()) {
            const bool fits = isButton ? qobject_cast<QAbstractButton*>(each) != nullptr
                                       : (each->focusPolicy() & Qt::TabFocus) != 0;
            const auto text = said.section(QLatin1Char('%'), 0, 0);  // up to what is filled in
            if (fits && each->isVisible() && says(*each, text)) return each;
        }
    return nullptr;
}

bool Stage::offers(const QString& english) const {
    return find(english, true) != nullptr;
}

void Stage::press(const QString& english) {
    waitUntil("there is a press that says " + english.toStdString(),
              [&] { return offers(english); });
    auto* button = qobject_cast<QAbstractButton*>(find(english, true));
    button->setFocus();
    button->click();
}

void Stage::type(const QString& english, const QString& text) {
    waitUntil("there is a field " + english.toStdString(),
              [&] { return find(english, false) != nullptr; });
    auto* widget = find(english, false);
    widget->setFocus();
    if (qobject_cast<QLineEdit*>(widget) != nullptr) {
        // At once, as an input method does.
        QInputMethodEvent typed;
        typed.setCommitString(text);
        QApplication::sendEvent(widget, &typed);
    } else {
        for (const auto letter : text)
            QTest::keyClick(widget, letter.toLatin1(), Qt::NoModifier, keyMs);
        QTest::qWait(keyMs);
    }
    waitUntil("it is typed", [&] { return isTyped(*widget, text); });
}

void Stage::key(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    QTest::qWait(keyMs);
    auto* focused = QApplication::focusWidget();
    QTest::keyClick(focused != nullptr ? focused : &window(), key, modifiers);
    QTest::qWait(keyMs);
}

void Stage::openUnit(const QString& serial) {
    auto* desk = window().findChild<desktop::BedsideDesk*>();
    bool isShown = false;
    const auto shown =
        QObject::connect(desk, &desktop::BedsideDesk::unitShown, &window(),
                         [&](const QString& open) { isShown |= open == serial; });
    desk->showUnit(serial);
    if (desk->serial() == serial && isShown) return;
    waitUntil("unit " + serial.toStdString() + " is shown", [&] { return isShown; });
    QObject::disconnect(shown);
}

void Stage::typeUnit(const QString& serial) {
    const auto* desk = window().findChild<desktop::BedsideDesk*>();
    type(QStringLiteral("Scan, or type a serial or asset number"), serial);
    key(Qt::Key_Return);
    const auto isShown = [&] {
        return desk->serial() == serial && window().findChild<desktop::UnitBar*>()->isVisible();
    };
    waitUntil("unit " + serial.toStdString() + " is shown", isShown);
}

// By hand at first; the person who has signed in is here again after that.
void Stage::signIn() {
    auto& presence = window().workplace().presence();
    if (m_signedIn) {
        presence.begin(*m_signedIn);
        return;
    }
    press(QStringLiteral("Sign in"));
    type(QStringLiteral("Short name or badge"), QStringLiteral("m.toller"));
    type(QStringLiteral("PIN"), QStringLiteral("414376"));
    key(Qt::Key_Return);
    waitUntil("somebody is signed in",
              [&] { return presence.session().has_value(); });
    m_signedIn = presence.session();
}

// Until what was asked of the logbook is answered and nothing happens in the window any more; where
// something goes on, as long as somebody would look at it.
void Stage::settle() {
    Happenings happenings(window());
    QElapsedTimer timer;
    timer.start();
    int answered = 0;
    const auto ask = [&] {
        window().workplace().read([](const auto&, const auto&) { return true; }, &happenings,
                                  [&](bool) { ++answered; },
                                  desktop::Background::Urgency::Later);
    };
    ask();
    waitUntil("what was asked is answered", [&] { return answered == 1; });
    ask();  // what came of that may have asked again
    waitUntil("what was asked is answered", [&] { return answered == 2; });
    while (!happenings.areOver() && !timer.hasExpired(mostMs)) QTest::qWait(10);
}

}  // namespace screens
