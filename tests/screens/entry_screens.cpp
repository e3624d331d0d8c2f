// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheets of the bedside desk.
#include "desktop/bedside/hold_banner.h"
#include "screens/screens.h"

#include <QListView>
#include <QPushButton>

namespace screens {

namespace {

constexpr const char* notReady = "KB-0142";
constexpr const char* held = "KB-0106";

// A panel of a unit, then what is pressed there.
std::function<void(Stage&)> pressed(const char* serial, Qt::Key panel,
                                    std::vector<QString> presses) {
    return [=](Stage& stage) {
        stage.signIn();
        stage.openUnit(serial);
        stage.key(panel);
        for (const auto& each : presses) stage.press(each);
    };
}

// A chip of when and who; where they have no room, what stands in its place.
std::function<void(Stage&)> chosen(const QString& chip, std::vector<QString> instead) {
    return [=](Stage& stage) {
        pressed(notReady, Qt::Key_F5, {})(stage);
        stage.waitUntil("when and who are asked",
                        [&] { return stage.offers(chip) || stage.offers(instead.front()); });
        if (stage.offers(chip)) {
            stage.press(chip);
        } else {
            for (const auto& each : instead) stage.press(each);
        }
    };
}

// The latest entry, and what is pressed on it.
std::function<void(Stage&)> entry(std::vector<QString> presses) {
    return [=](Stage& stage) {
        stage.signIn();
        stage.openUnit(notReady);
        stage.key(Qt::Key_F8);
        const auto* list = stage.window().findChild<QListView*>();
        stage.waitUntil("the entries are read", [&] { return list->model()->rowCount() > 0; });
        Q_EMIT const_cast<QListView*>(list)->activated(list->model()->index(0, 0));
        for (const auto& each : presses) stage.press(each);
    };
}

void lookBack(Stage& stage) {
    stage.openUnit(notReady);
    stage.key(Qt::Key_F8);
    stage.press("Look back …");
    stage.type("Time to look back to", "2026-11-20 02:14");
    stage.key(Qt::Key_Return);
    stage.waitUntil("the past is shown", [&] { return stage.isSaid("20 Nov 2026") ||
                                                      stage.isSaid("20 nov 2026"); });
}

void showHoldSheet(Stage& stage) {
    stage.openUnit(held);
    stage.window().findChild<desktop::HoldBanner*>()->findChild<QPushButton*>()->click();
}

}  // namespace

std::vector<Screen> entryScreens() {
    return {{"hold-sheet", true, &showHoldSheet},
            {"fit", true, pressed(notReady, Qt::Key_F6, {"Swap"})},
            {"take-out", true, pressed(notReady, Qt::Key_F6, {"Take out"})},
            {"start-of-use", true, pressed(notReady, Qt::Key_F7, {"Start of use"})},
            {"fault", true, pressed(notReady, Qt::Key_F7, {"Fault"})},
            {"out-of-service", true, pressed(notReady, Qt::Key_F7, {"Out of service"})},
            {"note", true, pressed(notReady, Qt::Key_F7, {"Note"})},
            {"when", true, chosen("When: a time", {"When? Now"})},
            {"who", true, chosen("Who: another", {"Who? %1"})},
            {"second-person", true,
             chosen("Who: with a second person",
                    {"Who? %1", "A second person verifies it"})},
            {"entry", true, entry({})},
            {"strike", true, entry({"Strike it through …"})},
            {"pin-again", true,
             [](Stage& stage) {
                 entry({"Strike it through …", "Typing error", "Strike it through"})(stage);
                 stage.waitUntil("the PIN is asked for",
                                 [&] { return stage.isSaid("Your PIN once more"); });
             }},
            {"move-entry", true, entry({"It was another unit: move it …"})},
            {"look-back", true, &lookBack},
            {"who-writes", true,
             [](Stage& stage) {
                 stage.press("Emergency start");
                 stage.waitUntil("a name is asked for", [&] {
                     return stage.isSaid("Or, if there is time, sign in now:");
                 });
             }},
            {"question", true, [](Stage& stage) {
                 stage.signIn();
                 stage.press("Emergency start");
             }}};
}

}  // namespace screens
