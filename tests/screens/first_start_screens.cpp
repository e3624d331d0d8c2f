// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start, step by step.
#include "desktop/shell/press_row.h"
#include "screens/screens.h"

#include <QAbstractButton>

namespace screens {

namespace {

// Whatever it is called in the language that is spoken.
template <class Fits>
void pressFirst(Stage& stage, const Fits& fits) {
    const auto find = [&]() -> QAbstractButton* {
        for (auto* each : stage.window().findChildren<QAbstractButton*>())
            if (each->isVisible() && fits(*each)) return each;
        return nullptr;
    };
    stage.waitUntil("there is something to choose", [&] { return find() != nullptr; });
    find()->click();
}

void showDepartment(Stage& stage) {
    stage.press("Set up this department");
    stage.type("Hospital", "Kestrel Bay Hospital");
    stage.type("Department", "Respiratory Care");
}

void showManager(Stage& stage) {
    showDepartment(stage);
    stage.press("Go on");
    stage.waitUntil("its page is there", [&] { return stage.isSaid("The first manager"); });
    stage.type("Name", "Runa Halvorsen");
    stage.type("PIN", "246813");
    stage.type("The same PIN again", "246813");
}

void showRules(Stage& stage) {
    showManager(stage);
    stage.press("Go on");
    pressFirst(stage, [](const QAbstractButton& button) {
        return qobject_cast<const desktop::PressRow*>(&button) != nullptr;
    });
    stage.waitUntil("its warnings are told", [&] {
        return stage.isSaid("To think about; it can be used as it is:\n");
    });
}

void showCode(Stage& stage) {
    showRules(stage);
    stage.press("Begin the logbook");
    stage.waitUntil("the code is told",
                    [&] { return stage.isSaid("The recovery code"); });
}

void showUnits(Stage& stage) {
    showRules(stage);
    stage.press("Begin the logbook");
    stage.press("I have written it down");
    stage.type("Serial number", "KB-0500");
    stage.type("Model", "Larch 4");
    pressFirst(stage, [](const QAbstractButton& button) { return button.isCheckable(); });
}

}  // namespace

std::vector<Screen> firstStartScreens() {
    return {{"first-start", false, [](Stage&) {}},
            {"first-start-department", false, &showDepartment},
            {"first-start-manager", false, &showManager},
            {"first-start-rules", false, &showRules},
            {"first-start-code", false, &showCode},
            {"first-start-units", false, &showUnits}};
}

}  // namespace screens
