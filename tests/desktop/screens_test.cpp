// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every screen of the window, looked at where room is scarcest: the longer language, the largest
// text, the smallest window.
#include "desktop/looked_at.h"
#include "screens/screens.h"

#include <QApplication>
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

void lookAtAll(const screens::Look& look) {
    screens::Stage stage(look);
    for (const auto& screen : screens::all()) {
        INFO(screen.name << ", " << look.language << ", " << look.appearance.textPercent << " %");
        screens::show(screen, stage);
        CHECK(support::cutOff(stage.window()) == std::vector<std::string>());
        CHECK(support::tooSmall(stage.window()) == std::vector<std::string>());
        CHECK(support::unnamed(stage.window()) == std::vector<std::string>());
        CHECK(lettersTwice(stage.window()) == std::vector<std::string>());
    }
    desktop::apply(*qApp, {});
}

}  // namespace

TEST_CASE("no screen cuts anything off in the longer language and large text", "[exhaustive]") {
    lookAtAll({{desktop::Theme::Light, 200}, {1024, 700}, "es"});
}

TEST_CASE("no screen cuts anything off as it is opened at first", "[exhaustive]") {
    lookAtAll({});
}
