// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The letter that stands in its line before it is known who sent it.
#include "desktop/scan/tried_letter.h"

#include "scan_form.h"

#include <utility>

using Form = support::ScanForm;
using support::Stamped;

TEST_CASE("the first letter stands in its line at once, and is told of once typed", "[unit]") {
    Form form;
    form.field->setFocus();
    const QSignalSpy changes(form.field, &QLineEdit::textChanged);
    const QSignalSpy edits(form.field, &QLineEdit::textEdited);
    Form::keys(form.field, QStringLiteral("K"), -1);
    CHECK(form.field->text() == QStringLiteral("K"));
    CHECK(changes.isEmpty());
    const auto isTold = [&] {
        return changes.count() == 1 && edits.count() == 1 &&
               changes[0][0].toString() == QStringLiteral("K") &&
               edits[0][0].toString() == QStringLiteral("K");
    };
    SECTION("by its time") { CHECK(QTest::qWaitFor(isTold)); }
    SECTION("by a press") {
        QTest::mouseClick(form.button, Qt::LeftButton);
        CHECK(isTold());
    }
    QTest::qWait(80);
    CHECK(isTold());
    CHECK(form.field->text() == QStringLiteral("K"));
}

TEST_CASE("a scan leaves a line as it was, and the line tells of nothing", "[unit]") {
    Form form;
    form.field->setText(QStringLiteral("ICU 4"));
    form.field->setFocus();
    QString selected;
    SECTION("with the cursor in its midst") { form.field->setCursorPosition(2); }
    SECTION("with a part of it selected") {
        form.field->setSelection(1, 3);
        selected = QStringLiteral("CU ");
    }
    SECTION("with a part of it selected backwards") {
        form.field->setSelection(3, -2);
        selected = QStringLiteral("CU");
    }
    SECTION("with nothing in it") { form.field->clear(); }
    form.field->setModified(false);
    const auto text = form.field->text();
    const int cursor = form.field->cursorPosition();
    const QSignalSpy changes(form.field, &QLineEdit::textChanged);
    const QSignalSpy edits(form.field, &QLineEdit::textEdited);
    form.scan(form.field, QStringLiteral("KB-0142"));
    REQUIRE(form.scans.count() == 1);
    CHECK(form.scans[0][0].toString() == QStringLiteral("KB-0142"));
    CHECK(form.field->text() == text);
    CHECK(form.field->cursorPosition() == cursor);
    CHECK(form.field->selectedText() == selected);
    CHECK_FALSE(form.field->isModified());
    CHECK(changes.isEmpty());
    CHECK(edits.isEmpty());
}

TEST_CASE("what else has changed a line amid a scan stays", "[unit]") {
    Form form;
    form.field->setFocus();
    Stamped keys(form.field);
    keys.press(QStringLiteral("KB"));
    form.field->setText(QStringLiteral("proposed"));
    keys.press(QStringLiteral("-0142"));
    keys.end();
    REQUIRE(form.scans.count() == 1);
    CHECK(form.field->text() == QStringLiteral("proposed"));
}

TEST_CASE("a line may go amid a scan", "[unit]") {
    Form form;
    form.field->setFocus();
    Stamped keys(form.field);
    keys.press(QStringLiteral("KB"));
    delete std::exchange(form.field, nullptr);
    keys.goTo(form.button);
    keys.press(QStringLiteral("-0142"));
    keys.end();
    REQUIRE(form.scans.count() == 1);
    CHECK(form.scans[0][0].toString() == QStringLiteral("KB-0142"));
    CHECK(form.presses == 0);
}
