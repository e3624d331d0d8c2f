// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet desk and its sheets.
#include "desktop/fleet/soonest_ready.h"
#include "desktop/shell/sheet.h"
#include "screens/screens.h"

#include <QTextBrowser>

namespace screens {

namespace {

void showFleet(Stage& stage) {
    stage.press("Fleet");
    const auto* soonest = stage.window().findChild<desktop::SoonestReady*>();
    stage.waitUntil("the soonest units are known",
                    [&] { return !soonest->soonest(1).empty() && soonest->waiting() == 0; });
}

void showForecast(Stage& stage, const QString& button) {
    showFleet(stage);
    stage.press(button);
    const auto* sheet = stage.window().findChild<desktop::SheetStack*>()->top();
    const auto* page = sheet->findChild<QTextBrowser*>();
    stage.waitUntil("it is worked out", [&] { return page->toPlainText().count('\n') > 5; });
}

}  // namespace

std::vector<Screen> fleetScreens() {
    return {{"fleet", true, &showFleet},
            {"muster", true, [](Stage& stage) { showForecast(stage, "Muster …"); }},
            {"look-ahead", true, [](Stage& stage) { showForecast(stage, "Look ahead …"); }},
            {"enrol", true,
             [](Stage& stage) {
                 showFleet(stage);
                 stage.press("Enrol units …");
                 stage.type("Serial number", "KB-0500");
                 stage.type("Model", "Larch 4");
             }},
            {"fleet-not-ready", true, [](Stage& stage) {
                 showFleet(stage);
                 stage.press(stage.look().language == "es" ? "No listo" : "Not ready");
             }}};
}

}  // namespace screens
