// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bedside desk: a unit in each state, and each of its panels.
#include "desktop/bedside/measure_sheet.h"
#include "desktop/bedside/way_row.h"
#include "screens/screens.h"

#include <QListView>
#include <QPushButton>
#include <algorithm>
#include <stdexcept>

namespace screens {

namespace {

// Of the demo's README.
constexpr const char* notReady = "KB-0142";
constexpr const char* held = "KB-0106";
constexpr const char* retired = "KB-0199";

// The first one by serial.
QString unitThatIs(const Stage& stage, rules::Verdict verdict) {
    for (const auto& row : stage.window().workplace().fleet()->board.rows)
        if (row.assessment.verdict == verdict)
            return QString::fromStdString(row.assessment.device);
    throw std::runtime_error("no such unit");
}

std::function<void(Stage&)> unit(const char* serial, Qt::Key panel = Qt::Key_F5) {
    return [=](Stage& stage) {
        stage.openUnit(serial);
        stage.key(panel);
    };
}

std::function<void(Stage&)> unitThatIs(rules::Verdict verdict) {
    return [=](Stage& stage) { stage.openUnit(unitThatIs(stage, verdict)); };
}

// Of the first part in a unit that states one.
QString lotInUse(const Stage& stage) {
    for (const auto& [serial, device] :
         stage.window().workplace().fleet()->standing->state.devices)
        for (const auto& [position, part] : device->fitted)
            if (const auto lot = part.attributes.text("lot"); !lot.empty())
                return QString::fromUtf8(lot.data(), static_cast<qsizetype>(lot.size()));
    throw std::runtime_error("no such part");
}

// Brings a check that wants a value to the top, and begins it.
void beginMeasured(Stage& stage) {
    stage.signIn();
    stage.openUnit(notReady);
    const auto wantsValue = [](const report::BedsideRow& row) {
        const auto* check = std::get_if<report::CheckToLog>(&row.act);
        return check != nullptr && !check->groupFirst &&
               std::ranges::any_of(check->measures, &report::AskedMeasure::required);
    };
    auto* card = stage.window().findChild<desktop::StepCard*>();
    if (!wantsValue(card->row())) {
        for (auto* row : stage.window().findChildren<desktop::WayRow*>())
            if (wantsValue(row->row())) {
                row->findChild<QPushButton*>()->click();
                break;
            }
        stage.waitUntil("a check with a value is next", [&] {
            const auto cards = stage.window().findChildren<desktop::StepCard*>();
            return !cards.isEmpty() && wantsValue(cards.back()->row());
        });
    }
    stage.key(Qt::Key_F2);
    const auto sheet = [&] { return stage.window().findChild<desktop::SheetStack*>()->top(); };
    const auto isAsked = [&] { return qobject_cast<desktop::MeasureSheet*>(sheet()) != nullptr; };
    stage.waitUntil("it is asked for", [&] { return sheet() != nullptr; });
    // Where it would not count as things stand: kept all the same.
    if (!isAsked()) sheet()->findChildren<QPushButton*>().back()->click();
    stage.waitUntil("the value is asked for", isAsked);
}

// The first of those checks, brought to the top.
void beginCheck(Stage& stage, const std::function<bool(const report::CheckToLog&)>& fits) {
    stage.signIn();
    stage.openUnit(notReady);
    for (auto* row : stage.window().findChildren<desktop::WayRow*>())
        if (const auto* check = std::get_if<report::CheckToLog>(&row->row().act);
            check != nullptr && fits(*check)) {
            row->findChild<QPushButton*>()->click();
            break;
        }
    stage.waitUntil("a check is next", [&] {
        const auto cards = stage.window().findChildren<desktop::StepCard*>();
        return !cards.isEmpty() &&
               std::holds_alternative<report::CheckToLog>(cards.back()->row().act);
    });
}

void showNotSo(Stage& stage) {
    beginCheck(stage, [](const auto& check) { return !check.conditions.empty(); });
    stage.key(Qt::Key_F3);
}

// The heat and moisture exchanger is still in line.
void showUncounted(Stage& stage) {
    beginCheck(stage, [](const auto& check) { return check.check == "flow_sensor_cal"; });
    stage.key(Qt::Key_F2);
    stage.waitUntil("it is asked", [&] { return stage.offers("Keep it all the same"); });
}

}  // namespace

std::vector<Screen> bedsideScreens() {
    using rules::Verdict;
    return {{"bedside", true, [](Stage&) {}},
            {"unknown-code", true,
             [](Stage& stage) {
                 stage.type("Scan, or type a serial or asset number", "KB-0500");
                 stage.key(Qt::Key_Return);
                 stage.waitUntil("it is asked about",
                                 [&] { return stage.isSaid("No such unit in this logbook"); });
             }},
            {"known-part", true,
             [](Stage& stage) {
                 stage.type("Scan, or type a serial or asset number", lotInUse(stage));
                 stage.key(Qt::Key_Return);
                 stage.waitUntil("it is told",
                                 [&] { return stage.isSaid("By the log fitted now in:"); });
             }},
            {"bedside-way", true, unit(notReady)},
            {"bedside-typed", true,
             [](Stage& stage) {
                 stage.signIn();
                 stage.typeUnit(notReady);
             }},
            {"bedside-ready", true, unitThatIs(Verdict::Ready)},
            {"bedside-in-use", true, unitThatIs(Verdict::InUse)},
            {"bedside-hold", true, unit(held)},
            {"bedside-retired", true, unit(retired)},
            {"bedside-set-up", true, unit(notReady, Qt::Key_F6)},
            {"bedside-entries", true, unit(notReady, Qt::Key_F7)},
            {"bedside-history", true,
             [](Stage& stage) {
                 unit(notReady, Qt::Key_F8)(stage);
                 const auto* list = stage.window().findChild<QListView*>();
                 stage.waitUntil("the entries are read",
                                 [&] { return list->model()->rowCount() > 0; });
             }},
            {"bedside-value", true, &beginMeasured},
            {"bedside-value-outside", true,
             [](Stage& stage) {
                 beginMeasured(stage);
                 for (const auto digit : {Qt::Key_9, Qt::Key_9, Qt::Key_9}) stage.key(digit);
                 stage.key(Qt::Key_Return);
                 stage.key(Qt::Key_Space);
                 stage.waitUntil("it is asked about",
                                 [&] { return stage.offers("Type it again"); });
             }},
            {"bedside-not-so", true, &showNotSo},
            {"would-not-count", true, &showUncounted}};
}

}  // namespace screens
