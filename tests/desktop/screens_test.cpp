// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every screen of the window, looked at where room is scarcest: the longer language, the largest
// text, the smallest window.
#include "desktop/bedside/unit_bar.h"
#include "desktop/bedside/way_row.h"
#include "desktop/looked_at.h"
#include "desktop/shell/code_field.h"
#include "desktop/shell/sheet.h"
#include "screens/screens.h"

#include <QAbstractScrollArea>
#include <QApplication>
#include <QPushButton>
#include <QtTest/QTest>
#include <catch2/catch.hpp>
#include <map>

namespace {

// Letters that Alt presses, of what is enabled and can be seen, that stand for two things.
std::vector<std::string> lettersTwice(const QWidget& window) {
    std::map<QString, int> letters;
    const auto take = [&](const QWidget& widget, const QString& text) {
        const auto keys = QKeySequence::mnemonic(text);
        if (!keys.isEmpty() && widget.isVisible() && widget.isEnabled()) ++letters[keys.toString()];
    };
    for (const auto* button : window.findChildren<QAbstractButton*>())
        take(*button, button->text());
    for (const auto* label : window.findChildren<QLabel*>())
        if (label->buddy() != nullptr) take(*label, label->text());
    std::vector<std::string> twice;
    for (const auto& [letter, times] : letters)
        if (times > 1) twice.push_back(letter.toStdString());
    return twice;
}

// Presses of the uppermost sheet, or of the window where there is none, that do not scroll into
// sight and are not seen whole.
std::vector<std::string> partlySeen(const QWidget& window) {
    const QWidget* within = window.findChild<desktop::SheetStack*>()->top();
    if (within == nullptr) within = &window;
    std::vector<std::string> found;
    for (const auto* button : within->findChildren<QAbstractButton*>()) {
        const QWidget* around = button->parentWidget();
        while (around != within && qobject_cast<const QAbstractScrollArea*>(around) == nullptr)
            around = around->parentWidget();
        const bool isField = qobject_cast<const QLineEdit*>(button->parentWidget()) != nullptr;
        if (around != within || isField || !button->isVisible()) continue;
        if (button->visibleRegion().boundingRect() != button->rect())
            found.push_back(support::toldOf(*button));
    }
    return found;
}

void lookAtAll(const screens::Look& look) {
    screens::Stage stage(look);
    for (const auto& screen : screens::all()) {
        INFO(screen.name << ", " << look.language << ", " << look.appearance.textPercent << " %");
        screens::show(screen, stage);
        CHECK(support::cutOff(stage.window()) == std::vector<std::string>());
        CHECK(partlySeen(stage.window()) == std::vector<std::string>());
        CHECK(support::tooSmall(stage.window()) == std::vector<std::string>());
        CHECK(support::unnamed(stage.window()) == std::vector<std::string>());
        CHECK(lettersTwice(stage.window()) == std::vector<std::string>());
    }
    desktop::apply(*qApp, {});
}

bool isWholeInSight(const QWidget& widget) {
    return widget.visibleRegion().boundingRect() == widget.rect();
}

// The unit bar, the next step and its button at once; a serial fits into the field for codes.
void lookAtNext(const screens::Stage& stage) {
    QTest::qWait(200);
    INFO(stage.look().language);
    const auto& window = stage.window();
    CHECK(window.size() == stage.look().size);
    const auto* card = window.findChildren<desktop::StepCard*>().back();
    const auto* field = window.findChild<desktop::CodeField*>();
    CHECK(isWholeInSight(*window.findChild<desktop::UnitBar*>()));
    CHECK(isWholeInSight(*card->findChildren<QLabel*>().front()));
    CHECK(isWholeInSight(*card->button(desktop::StepLogging::Press::Done)));
    CHECK(field->width() >= desktop::codeFieldWidth());
    CHECK(support::cutOff(window) == std::vector<std::string>());
}

}  // namespace

TEST_CASE("of a typed unit the bar, the next step and its button are in sight", "[unit]") {
    for (const auto* language : {"es", "en"}) {
        screens::Stage stage({{desktop::Theme::Light, 200}, {1024, 700}, language});
        stage.openDemo();
        stage.signIn();
        stage.typeUnit("KB-0142");
        lookAtNext(stage);
        // What was told of the entry, and its undoing, take no room from the next one.
        stage.key(Qt::Key_F2);
        stage.waitUntil("it is kept", [&] { return stage.isSaid("demo-desk/"); });
        const auto isAsked = [&] {
            const auto cards = stage.window().findChildren<desktop::StepCard*>();
            return !cards.isEmpty() && cards.back()->isEnabled();
        };
        stage.waitUntil("the next step is there", isAsked);
        lookAtNext(stage);
        stage.key(Qt::Key_F8);
        CHECK(partlySeen(stage.window()) == std::vector<std::string>());
        stage.key(Qt::Key_F5);
        // Nor does the time that was chosen.
        stage.press("When? Now");
        stage.type("Time", "07:50");
        stage.key(Qt::Key_Return);
        lookAtNext(stage);
        // A code that is longer than its field is read whole all the same.
        const QString code = "04012345678901 FS-2211";
        stage.type("Scan, or type a serial or asset number", code);
        const auto* field = stage.window().findChild<desktop::CodeField*>();
        CHECK(field->fontMetrics().horizontalAdvance(code) < field->width() - 40);
    }
    desktop::apply(*qApp, {});
}

TEST_CASE("no screen cuts anything off in the longer language and large text", "[exhaustive]") {
    lookAtAll({{desktop::Theme::Light, 200}, {1024, 700}, "es"});
}

TEST_CASE("no screen cuts anything off as it is opened at first", "[exhaustive]") {
    lookAtAll({});
}
