// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A unit with nine checks to be carried out, and the way to ready on the screen.
#pragma once

#include "bedside_world.h"
#include "desktop/bedside/measure_sheet.h"
#include "desktop/bedside/way_row.h"

#include <QLineEdit>

namespace support {

// Nine checks of an adult unit before it is used, two of which need a value.
inline std::string policyOf(std::string_view more = "") {
    std::string policy =
        "format = 1\ntitle = \"Ward\"\nedition = \"1\"\ntime_zone = \"America/Chicago\"\n"
        "[groups.adult]\nlabel = \"Adult\"\n"
        "[labels.conditions]\nmains_power = \"Mains power\"\ngas_supply = \"Gas supply\"\n";
    for (const auto* check : {"a_power_up", "b_leak", "c_flow_sensor", "d_oxygen", "e_alarms",
                              "f_battery", "g_gas", "h_filters", "i_surfaces"})
        policy += std::string("[checks.") + check + "]\ntakes = \"PT1M\"\n" +
                  "voided_by = [{ event = \"use_end\" }, { event = \"clear *\" }]\n";
    policy += more;
    return policy +
           "[checks.b_leak.measures.leak]\nlabel = \"Leak\"\nunit = \"mL/min\"\nrequired = true\n"
           "max = { adult = 200 }\n"
           "[checks.f_battery.measures.charge]\nlabel = \"Charge\"\nunit = \"%\"\n"
           "required = true\nmin = 80\n";
}

inline std::string checkLine(const BedsideWorld& world, int seq, const std::string& body) {
    const auto now = logbook::toText(world.clock.now());
    return R"({"at":")" + now + R"(","batch":"icu-1 )" + now + R"(","body":)" + body +
           R"(,"by":"m.toller","device":"KB-0142","entered":")" + now +
           R"(","kind":"check","seq":)" + std::to_string(seq) + R"(,"station":"icu-1"})";
}

inline std::string passed(const std::string& check) {
    return R"({"check":")" + check + R"(","outcome":"pass"})";
}

struct Way : BedsideWorld {
    explicit Way(std::string_view more = "", std::optional<logbook::Instant> now = {}) {
        if (now) clock.moveTo(*now - logbook::Duration{3 * 86'400'000});
        found(policyOf(more));
        enrol("KB-0142");
        clock.advance(logbook::Duration{3'600'000});  // so that something can be an hour ago
        if (now) clock.moveTo(*now);
    }

    [[nodiscard]] desktop::StepCard* card() const {
        const auto cards = window->findChildren<desktop::StepCard*>();
        return cards.isEmpty() ? nullptr : cards.back();
    }
    [[nodiscard]] bool isNext(const QString& title) const {
        if (card() == nullptr || !card()->isEnabled()) return false;
        const auto labels = card()->findChildren<QLabel*>();
        return !labels.isEmpty() && labels.front()->text().contains(title, Qt::CaseInsensitive);
    }
    void waitForNext(const QString& title) const {
        waitUntil("next is " + title.toStdString(), [&] { return isNext(title); });
    }
    [[nodiscard]] desktop::MeasureSheet* sheet() const {
        return window->findChild<desktop::MeasureSheet*>();
    }
    using BedsideWorld::key;
    [[nodiscard]] QPushButton* key(const QString& says) const {
        for (auto* each : sheet()->findChild<desktop::Keypad*>()->findChildren<QPushButton*>())
            if (each->text() == says) return each;
        FAIL("no key " << says.toStdString());
        return nullptr;
    }
    // The first check is next and has no value; what is asked is somebody to sign in.
    void openSignedIn(QSize size = {1280, 800}, const desktop::Appearance& looks = {}) {
        open(size, looks);
        window->workplace().presence().begin(*manager().session);
        openUnit("KB-0142");
        waitUntil("there is a next step", [&] { return card() != nullptr; });
        QTest::qWait(50);
    }
    void doFirst(const QString& title) const {
        for (auto* row : window->findChildren<desktop::WayRow*>()) {
            if (!shown(row->row().title).contains(title, Qt::CaseInsensitive)) continue;
            QTest::mouseClick(row->findChild<QPushButton*>(), Qt::LeftButton);
            waitForNext(title);
            return;
        }
        FAIL("no row " << title.toStdString());
    }
    static QString shown(const std::string& text) { return QString::fromStdString(text); }
    // The last record, once there are that many.
    [[nodiscard]] std::string lastOf(std::size_t count) const {
        waitUntil("it is kept", [&] { return records().size() == count; });
        return records().back();
    }
    [[nodiscard]] QPushButton* mainButton() const {
        for (auto* each : sheet()->findChildren<QPushButton*>())
            if (each->isVisible() && each->property("main").toBool()) return each;
        FAIL("no main button");
        return nullptr;
    }
    [[nodiscard]] QString typed() const {
        return sheet() == nullptr ? QString() : sheet()->findChild<QLineEdit*>()->text();
    }
};

}  // namespace support
