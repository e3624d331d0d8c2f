// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies over any desk.
#include "desktop/shell/workplace.h"
#include "screens/screens.h"

namespace screens {

std::vector<Screen> sharedScreens() {
    return {{"sign-in", true, [](Stage& stage) { stage.press("Sign in"); }},
            {"sign-in-refused", true,
             [](Stage& stage) {
                 stage.press("Sign in");
                 stage.type("Person key or badge", "m.toller");
                 stage.type("PIN", "111111");
                 stage.key(Qt::Key_Return);
                 stage.waitUntil("it is refused", [&] {
                     return !stage.window().workplace().presence().session();
                 });
             }},
            {"help", true, [](Stage& stage) { stage.key(Qt::Key_F1); }},
            {"file", false, [](Stage& stage) { stage.press("Open a logbook file …"); }}};
}

}  // namespace screens
