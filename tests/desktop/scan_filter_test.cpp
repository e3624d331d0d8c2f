// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A scanner and a person at the same keyboard.
#include "scan_form.h"
#include "support/seed.h"

#include <QThread>
#include <QTimer>
#include <array>
#include <random>

using namespace desktop;
using Form = support::ScanForm;
using support::Stamped;

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
    CHECK(QTest::qWaitFor([&] { return form.presses > 0; }));
    QTest::qWait(80);
    CHECK(form.presses == 1);
    CHECK_FALSE(form.button->isDown());
    CHECK(form.scans.count() == 0);
}

TEST_CASE("the first key of all may be somebody's Enter", "[unit]") {
    Form form;
    form.field->setFocus();
    QTest::keyClick(form.field, Qt::Key_Return);
    CHECK(form.entered == 1);
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

TEST_CASE("a letter amid what is typed is there at once", "[unit]") {
    Form form;
    form.field->setFocus();
    Form::keys(form.field, QStringLiteral("K"), 400);
    REQUIRE(QTest::qWaitFor([&] { return form.field->text() == QStringLiteral("K"); }));
    Form::keys(form.field, QStringLiteral("B"), 100);
    CHECK(form.field->text() == QStringLiteral("KB"));
    SECTION("as is whatever is scanned there, whose end presses nothing") {
        const support::KeyStamps::Scanner scanner(form.stamps, 100);
        Form::keys(form.field, QStringLiteral("-0142"), 1);
        CHECK(form.field->text() == QStringLiteral("KB-0142"));
        QTest::keyClick(form.field, Qt::Key_Return, Qt::NoModifier, 1);
        CHECK(form.entered == 0);
        CHECK(form.scans.isEmpty());
    }
    SECTION("and a press of Enter counts") {
        QTest::keyClick(form.field, Qt::Key_Return, Qt::NoModifier, 100);
        CHECK(form.entered == 1);
    }
    SECTION("but not on a button, which a scan must not press") {
        form.button->setFocus();
        QTest::keyClick(form.button, Qt::Key_Space);
        CHECK(form.presses == 0);
        CHECK(QTest::qWaitFor([&] { return form.presses == 1; }));
    }
}

TEST_CASE("a shortcut is no part of a scan", "[unit]") {
    Form form;
    form.field->setText(QStringLiteral("KB"));
    form.field->setFocus();
    QTest::keyClick(form.field, Qt::Key_A, Qt::ControlModifier);
    CHECK(form.field->selectedText() == QStringLiteral("KB"));
}

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

// As a system stamps them that is busy itself: late, and then all at once.
TEST_CASE("what somebody typed and the system stamped unevenly arrives whole", "[unit]") {
    Form form;
    form.field->setFocus();
    Stamped keys(form.field);
    const auto arrived = [&](const char* text) {
        return QTest::qWaitFor([&] { return form.field->text() == QLatin1String(text); });
    };
    SECTION("amid what is typed, with their Enter") {
        keys.pressAfter(500, "f");
        keys.pressAfter(120, "a");
        keys.pressAfter(120, "n noise");
        keys.endAfter(90);
        CHECK(arrived("fan noise"));
        CHECK(form.entered == 1);
    }
    SECTION("at first, and then as it was typed") {
        keys.pressAfter(500, "fan n");
        for (const auto* letter : {"o", "i", "s", "e"}) keys.pressAfter(90, letter);
        keys.endAfter(90);
        CHECK(arrived("fan noise"));
        CHECK(form.entered == 1);
    }
    SECTION("and a letter that comes late is the last") {
        keys.pressAfter(500, "fan noi");
        keys.pressAfter(200, "s");
        CHECK(arrived("fan nois"));
    }
    SECTION("and nobody takes it for a code") {
        QObject::connect(&form.filter, &ScanFilter::scanned, &form.window,
                         [&] { CHECK(form.filter.handBack()); });
        keys.pressAfter(500, "fan noise");
        CHECK(arrived("fan noise"));
        return;
    }
    CHECK(form.scans.isEmpty());
}

TEST_CASE("no letter is lost or comes out of its turn, however it was stamped", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("AIRMUSTER_SEED=" << seed);
    std::mt19937_64 random(seed);
    Form form;
    form.field->setFocus();
    QObject::connect(&form.filter, &ScanFilter::scanned, &form.window,
                     [&] { form.filter.handBack(); });
    const std::array gaps{1, 1, 1, 5, 19, 21, 30, 60, 99, 101, 180, 249, 251, 400};
    for (int round = 0; round < 200; ++round) {
        form.field->clear();
        Stamped keys(form.field);
        QString typed;
        for (int i = 0; i < 20; ++i) {
            typed += QChar('a' + static_cast<int>(random() % 26));
            keys.pressAfter(gaps[random() % gaps.size()], typed.right(1));
        }
        QTest::mouseClick(form.button, Qt::LeftButton);  // nothing is held any longer
        INFO("round " << round);
        REQUIRE(form.field->text() == typed);
    }
}

TEST_CASE("a code that was cut in two is one", "[unit]") {
    Form form;
    auto* target = GENERATE(0, 1) == 0 ? static_cast<QWidget*>(form.field) : form.button;
    target->setFocus();
    Stamped keys(target);
    keys.pressAfter(500, "KB-01");
    keys.pressAfter(80, "42");
    keys.end();
    REQUIRE(form.scans.count() == 1);
    CHECK(form.scans[0][0].toString() == "KB-0142");
    CHECK(form.field->text().isEmpty());
    CHECK(form.entered + form.presses == 0);
}

TEST_CASE("a code that was cut after its first letters is never taken for another", "[unit]") {
    Form form;
    SECTION("where somebody could type it stands as if typed, and its end presses nothing") {
        form.field->setFocus();
        Stamped keys(form.field);
        keys.pressAfter(500, "KB");
        keys.pressAfter(80, "-0142");
        keys.end();
        CHECK(form.field->text() == "KB-0142");
        CHECK(form.scans.isEmpty());
    }
    SECTION("elsewhere it is joined") {
        form.button->setFocus();
        Stamped keys(form.button);
        keys.pressAfter(500, "KB");
        keys.pressAfter(80, "-0142");
        keys.end();
        REQUIRE(form.scans.count() == 1);
        CHECK(form.scans[0][0].toString() == "KB-0142");
    }
    CHECK(form.entered + form.presses == 0);
}
