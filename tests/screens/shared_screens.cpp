// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies over any desk.
#include "desktop/fleet/fleet_overview.h"
#include "desktop/shell/waiting_hint.h"
#include "desktop/shell/workplace.h"
#include "screens/screens.h"

#include <QLabel>
#include <algorithm>
#include <filesystem>
#include <stdexcept>

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

// Who may call a lot back.
void signInVisitor(Stage& stage) {
    stage.press("Sign in");
    stage.type("Short name or badge", "v.guest");
    stage.type("PIN", "260302");
    stage.key(Qt::Key_Return);
    stage.waitUntil("the visitor is signed in", [&] {
        return stage.window().workplace().presence().session().has_value();
    });
}

// A lot is called back of which a circuit is on a patient. What was entered stays, so this is last.
QString callBack(Stage& stage) {
    auto& workplace = stage.window().workplace();
    const auto& devices = workplace.fleet()->standing->state.devices;
    const auto found = std::ranges::find_if(devices, [](const auto& each) {
        const auto circuit = each.second->fitted.find("circuit");
        return each.second->use && circuit != each.second->fitted.end() &&
               !circuit->second.attributes.text("lot").empty();
    });
    if (found == devices.end()) throw std::runtime_error("no such unit");
    const auto serial = QString::fromStdString(found->first);
    const std::string lot(found->second->fitted.at("circuit").attributes.text("lot"));
    signInVisitor(stage);
    station::Entry notice{station::Writer(""), "notice"};
    notice.body = {{"key", "fn_31"},
                   {"title", "Cracks at the elbow"},
                   {"action", "stop_use"},
                   {"match", logbook::json::Object{{"position", "circuit"},
                                                   {"lots", logbook::json::Array{lot}}}}};
    workplace.keep({notice}, &stage.window());
    stage.waitUntil("it is read", [&] {
        return workplace.fleet()->standing->state.notices.contains("fn_31");
    });
    return serial;
}

void showCalledBack(Stage& stage) {
    const auto serial = callBack(stage);
    stage.press("Fleet");
    const auto* doubts = stage.window().findChild<desktop::FleetOverview*>();
    stage.waitUntil("it is told", [&] {
        return std::ranges::any_of(doubts->findChildren<QLabel*>(), [&](const QLabel* label) {
            return label->property("banner").toBool() && label->text().contains(serial);
        });
    });
}

// The last one on the demo: its logbook lies elsewhere from then on.
void showUnrecorded(Stage& stage) {
    const auto& workplace = stage.window().workplace();
    const auto path = workplace.file().path;
    std::filesystem::rename(path, path.string() + ".away");
    stage.press("Emergency start of unit %1");
    stage.press("Keep it under the name of %1");
    stage.waitUntil("it is told", [&] { return !workplace.fleet()->unrecorded.empty(); });
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
            {"fleet-called-back", true, &showCalledBack},
            {"bedside-called-back", true,
             [](Stage& stage) { stage.openUnit(callBack(stage)); }},
            {"start-not-recorded", true, &showUnrecorded},
            {"file", false, [](Stage& stage) { stage.press("Open a logbook file …"); }}};
}

}  // namespace screens
