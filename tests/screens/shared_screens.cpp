// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies over any desk.
#include "desktop/shell/waiting_hint.h"
#include "desktop/shell/workplace.h"
#include "screens/screens.h"

namespace screens {

namespace {

// An emergency start under a name, and whose name it is signs in.
void showWaiting(Stage& stage) {
    stage.press("Emergency start");
    stage.press("Mara Toller");
    stage.waitUntil("it is kept", [&] { return stage.isSaid("demo-desk/"); });
    stage.signIn();
    stage.waitUntil("it waits", [&] {
        return stage.window().findChild<desktop::WaitingHint*>()->isVisible();
    });
    stage.key(Qt::Key_I, Qt::ControlModifier);
    stage.waitUntil("what waits is shown", [&] { return stage.offers("It was me"); });
}

}  // namespace

std::vector<Screen> sharedScreens() {
    return {{"sign-in", true, [](Stage& stage) { stage.press("Sign in"); }},
            {"what-waits", true, &showWaiting},
            {"sign-in-refused", true,
             [](Stage& stage) {
                 stage.press("Sign in");
                 stage.type("Short name or badge", "m.toller");
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
