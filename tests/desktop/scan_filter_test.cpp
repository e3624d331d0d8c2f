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
    }

    static void keys(QWidget* target, const QString& text, int delayMs) {
        for (const auto letter : text)
            QTest::keyClick(target, letter.toLatin1(), Qt::NoModifier, delayMs);
    }
    void scan(QWidget* target, const QString& text) {
        target->setFocus();
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

TEST_CASE("two or three keys at once are typed, not scanned", "[unit]") {
    Form form;
    form.field->setFocus();
    Form::keys(form.field, QStringLiteral("abc"), 1);
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

// The keys as the system stamped them, all seen at once by a program that was busy.
TEST_CASE("what somebody typed while the program was busy is no scan", "[unit]") {
    Form form;
    form.field->setFocus();
    quint64 stamp = 1'000;
    for (const auto letter : QStringLiteral("KB-0142")) {
        QKeyEvent key(QEvent::KeyPress, 0, Qt::NoModifier, QString(letter));
        key.setTimestamp(stamp += 60);
        QApplication::sendEvent(form.field, &key);
    }
    CHECK(QTest::qWaitFor([&] { return form.field->text() == QStringLiteral("KB-0142"); }));
    CHECK(form.scans.count() == 0);
}

TEST_CASE("a scan is whole though the program was busy in the middle of it", "[unit]") {
    Form form;
    form.field->setFocus();
    // The second half waits in the queue while the pause after the first runs out.
    QTimer::singleShot(0, [&] {
        Form::keys(form.field, QStringLiteral("KB-0"), 0);
        QThread::msleep(40);
        for (const auto letter : QStringLiteral("142"))
            QCoreApplication::postEvent(
                form.field, new QKeyEvent(QEvent::KeyPress, 0, Qt::NoModifier, QString(letter)));
    });
    REQUIRE(QTest::qWaitFor([&] { return form.scans.count() == 1; }));
    CHECK(form.scans[0][0].toString() == QStringLiteral("KB-0142"));
    CHECK(form.field->text().isEmpty());
}
