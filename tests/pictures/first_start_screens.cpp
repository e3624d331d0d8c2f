// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start, step by step.
#include "pictures/screens.h"

namespace pictures {

namespace {

void showDepartment(desktop::Window& window) {
    press(window, "Set up this department");
    type(window, "Hospital", "Kestrel Bay Hospital");
    type(window, "Department", "Respiratory Care");
}

void showManager(desktop::Window& window) {
    showDepartment(window);
    press(window, "Go on");
    type(window, "Name", "Runa Halvorsen");
    type(window, "PIN", "246813");
    type(window, "The same PIN", "246813");
}

void showRules(desktop::Window& window) {
    showManager(window);
    press(window, "Go on");
    press(window, "Example: adult intensive care");
    waitUntil("its warnings are told", [&] { return isSaid(window, "To think about"); });
}

void showUnits(desktop::Window& window) {
    showRules(window);
    press(window, "Begin the logbook");
    press(window, "I have written it down");
    type(window, "Serial number", "KB-0500");
    type(window, "Model", "Larch 4");
    press(window, "Adult");
}

}  // namespace

std::vector<Screen> firstStartScreens() {
    return {{"first-start", false, [](desktop::Window&) {}},
            {"first-start-department", false, &showDepartment},
            {"first-start-manager", false, &showManager},
            {"first-start-rules", false, &showRules},
            {"first-start-units", false, &showUnits}};
}

}  // namespace pictures
