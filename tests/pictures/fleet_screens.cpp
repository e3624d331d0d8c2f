// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet desk and its sheets.
#include "pictures/screens.h"

namespace pictures {

namespace {

void showFleet(desktop::Window& window) {
    press(window, "Fleet");
    waitUntil("the soonest units are known", [&] {
        return isSaid(window, "Soonest ready") && !isSaid(window, "Working it out");
    });
}

}  // namespace

std::vector<Screen> fleetScreens() {
    return {{"fleet", true, &showFleet},
            {"fleet-not-ready", true,
             [](desktop::Window& window) {
                 showFleet(window);
                 press(window, "Not ready");
             }},
            {"muster", true,
             [](desktop::Window& window) {
                 showFleet(window);
                 press(window, "Muster");
                 waitUntil("it is worked out", [&] { return isSaid(window, "Muster for"); });
             }},
            {"look-ahead", true, [](desktop::Window& window) {
                 showFleet(window);
                 press(window, "Look ahead");
                 waitUntil("it is worked out", [&] { return isSaid(window, "Looking ahead"); });
             }}};
}

}  // namespace pictures
