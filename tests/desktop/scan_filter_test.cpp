// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A scanner and a person at the same keyboard.
#include "desktop/scan/scan_filter.h"

#include "window_world.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QSignalSpy>
#include <QThread>
#include <QTimer>
#include <QVBoxLayout>

using namespace desktop;

namespace {

struct Form {
    QWidget window;
    QLineEdit* field = new QLineEdit;
    QPushButton* button = new QPushButton(QStringLiteral("Keep"));
    int presses = 0;
    int entered = 0;
    ScanFilter filter;
    support::KeyStamps stamps;
    QSignalSpy scans{&filter, &ScanFilter::scanned};

    Form() {
        auto* layout = new QVBoxLayout(&window);
        layout->addWidget(field);
        layout->addWidget(button);
        button->setAutoDefault(true);  // the worst case
        QObject::connect(button, &QPushButton::clicked, [this] { ++presses; });
        QObject::connect(field, &QLineEdit::returnPressed, [this] { ++entered; });
        window.show();
        REQUIRE(QTest::qWaitForWindowExposed(&window));
        QApplication::setActiveWindow(&window);
        stamps.install();
    }

    static void keys(QWidget* target, const QString& text, int delayMs) {
        for (const auto letter : text)
            QTest::keyClick(target, letter.toLatin1(), Qt::NoModifier, delayMs);
    }
    void scan(QWidget* target, const QString& text) {
        target->setFocus();
        const support::KeyStamps::Scanner scanner(stamps);
        keys(target, text, 1);
        QTest::keyClick(target, Qt::Key_Return, Qt::NoModifier, 1);
        QTest::qWait(60);
    }
};

}  // namespace

TEST_CASE("a scan comes out whole, and reaches neither field nor button", "[unit]") {
    Form form;
    for (auto* target : std::initializer_list<QWidget*>{form.field, form.button}) {
        form.scans.clear();
        form.scan(target, QStringLiteral("KB-0142 x"));
        REQUIRE(form.scans.count() == 1);
        CHECK(form.scans[0][0].toString() == QStringLiteral("KB-0142 x"));
    }
    CHECK(form.field->text().isEmpty());
    CHECK(form.presses == 0);
    CHECK(form.entered == 0);
}

TEST_CASE("what somebody types arrives, and their Enter counts", "[unit]") {
    Form form;
    form.field->setFocus();
    Form::keys(form.field, QStringLiteral("KB-0142"), support::typingMs);
    CHECK(QTest::qWaitFor([&] { return form.field->text() == QStringLiteral("KB-0142"); }));
    QTest::keyClick(form.field, Qt::Key_Return);
    CHECK(form.entered == 1);
    CHECK(form.scans.count() == 0);
}

TEST_CASE("what comes right before a press was typed, however fast", "[unit]") {
    Form form;
    form.field->setFocus();
    const support::KeyStamps::Scanner fast(form.stamps);
    Form::keys(form.field, QStringLiteral("ICU room 44"), 1);
    QTest::mouseClick(form.button, Qt::LeftButton);
    CHECK(form.field->text() == QStringLiteral("ICU room 44"));
    CHECK(form.presses == 1);
    QTest::qWait(300);
    CHECK(form.scans.isEmpty());
}

TEST_CASE("two or three keys at once are typed, not scanned", "[unit]") {
    Form form;
    form.field->setFocus();
    {
        const support::KeyStamps::Scanner asFast(form.stamps);
        Form::keys(form.field, QStringLiteral("abc"), 1);
    }
    CHECK(QTest::qWaitFor([&] { return form.field->text() == QStringLiteral("abc"); }));
    CHECK(form.scans.count() == 0);
}

TEST_CASE("the shortest tap on the space bar presses a button once", "[unit]") {
    Form form;
    form.button->setFocus();
    QTest::keyClick(form.button, Qt::Key_Space);
    QTest::qWait(80);
    CHECK(form.presses == 1);
    CHECK_FALSE(form.button->isDown());
    CHECK(form.scans.count() == 0);
}

TEST_CASE("a second end after a scan presses nothing", "[unit]") {
    Form form;
    form.scan(form.button, QStringLiteral("KB-0142"));
    QTest::keyClick(form.button, Qt::Key_Return);
    CHECK(form.presses == 0);
}

TEST_CASE("what the scanner is set to send around a code is taken off", "[unit]") {
    Form form;
    form.filter.setFrame(QStringLiteral("]C1"), QStringLiteral("~"));
    form.scan(form.field, QStringLiteral("]C1KB-0142~"));
    REQUIRE(form.scans.count() == 1);
    CHECK(form.scans[0][0].toString() == QStringLiteral("KB-0142"));
}

TEST_CASE("a shortcut is no part of a scan", "[unit]") {
    Form form;
    form.field->setText(QStringLiteral("KB"));
    form.field->setFocus();
    QTest::keyClick(form.field, Qt::Key_A, Qt::ControlModifier);
    CHECK(form.field->selectedText() == QStringLiteral("KB"));
}

namespace {

// Keys as the system stamped them, that many ms apart, seen when a busy program gets round to it.
class Stamped {
public:
    explicit Stamped(QWidget* target, int gapMs = 1) : m_target(target), m_gapMs(gapMs) {}
    void press(const QString& text, bool isRepeated = false) {
        for (const auto letter : text) {
            QKeyEvent key(QEvent::KeyPress, 0, Qt::NoModifier, QString(letter), isRepeated);
            send(key);
        }
    }
    void end() {
        QKeyEvent key(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, QStringLiteral("\r"));
        send(key);
    }

private:
    void send(QKeyEvent& key) {
        key.setTimestamp(m_stamp += m_gapMs);
        QApplication::sendEvent(m_target, &key);
    }

    QWidget* m_target;
    int m_gapMs;
    quint64 m_stamp = 1'000;
};

}  // namespace

TEST_CASE("what somebody typed while the program was busy is no scan", "[unit]") {
    Form form;
    form.field->setFocus();
    const int gapMs = GENERATE(30, 60);
    Stamped(form.field, gapMs).press(QStringLiteral("KB-0142"));
    CHECK(QTest::qWaitFor([&] { return form.field->text() == QStringLiteral("KB-0142"); }));
    CHECK(form.scans.count() == 0);
}

// The rest is handed over when the waits after the first keys have run out, as by a system that was
// busy itself.
TEST_CASE("a scan is whole though the program was busy in the middle of it", "[unit]") {
    Form form;
    form.field->setFocus();
    const int first = GENERATE(2, 4);
    const auto code = QStringLiteral("KB-0142");
    Stamped keys(form.field);
    QTimer::singleShot(0, &form.window, [&] {
        keys.press(code.left(first));
        QThread::msleep(60);
        QTimer::singleShot(15, Qt::PreciseTimer, &form.window, [&] {
            keys.press(code.mid(first));
            keys.end();
        });
    });
    REQUIRE(QTest::qWaitFor([&] { return form.scans.count() == 1; }));
    CHECK(form.scans[0][0].toString() == code);
    CHECK(form.field->text().isEmpty());
    CHECK(form.entered == 0);
}

TEST_CASE("a code without an end comes out by itself", "[unit]") {
    Form form;
    form.field->setFocus();
    Stamped(form.field).press(QStringLiteral("KB-0142"));
    CHECK(QTest::qWaitFor([&] { return form.scans.count() == 1; }));
    CHECK(form.field->text().isEmpty());
}

TEST_CASE("a key that is kept pressed types, as fast as it repeats itself", "[unit]") {
    Form form;
    form.field->setFocus();
    Stamped(form.field, 15).press(QStringLiteral("xxxxxx"), true);
    CHECK(form.field->text() == QStringLiteral("xxxxxx"));
    QTest::qWait(400);
    CHECK(form.scans.count() == 0);
}
