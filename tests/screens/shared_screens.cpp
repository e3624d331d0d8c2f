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

// A note that is typed and not kept.
void beginNote(Stage& stage) {
    stage.signIn();
    stage.openUnit("KB-0142");
    stage.key(Qt::Key_F7);
    stage.press("Note");
    stage.type("What is to be noted?", "Fan is loud");
}

void showClosing(Stage& stage) {
    beginNote(stage);
    stage.window().close();
    stage.waitUntil("it is asked", [&] { return stage.offers("Keep writing"); });
}

// It was left for a while, and whoever typed it is back.
void showWhenDone(Stage& stage) {
    beginNote(stage);
    stage.key(Qt::Key_L, Qt::ControlModifier);
    stage.letPass(logbook::Duration{16 * 60'000});
    stage.signIn();
    stage.waitUntil("it is asked", [&] { return stage.offers("Another time"); });
}

}  // namespace

std::vector<Screen> sharedScreens() {
    return {{"sign-in", true, [](Stage& stage) { stage.press("Sign in"); }},
            {"what-waits", true, &showWaiting},
            {"closing", true, &showClosing},
            {"when-done", true, &showWhenDone},
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
