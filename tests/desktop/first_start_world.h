// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A computer on which nobody has set anything up yet, and somebody who does.
#pragma once

#include "way_world.h"

namespace support {

// A person's own folders, for as long as the test runs.
struct Home {
    Home() {
        qputenv("HOME", QByteArray::fromStdString(folder.path().string()));
        qputenv("XDG_DATA_HOME", QByteArray::fromStdString(folder.file("data").string()));
    }
    ~Home() {
        qputenv("HOME", m_before);
        qunsetenv("XDG_DATA_HOME");
    }
    Home(const Home&) = delete;
    Home& operator=(const Home&) = delete;
    Folder folder;

private:
    QByteArray m_before = qgetenv("HOME");
};

struct FirstStartWorld : BedsideWorld {
    Home home;

    // Pressed into sight, then typed into the line of that name.
    void fill(const QString& name, const QString& text) const {
        waitUntil("there is " + name.toStdString(), [&] { return field(name) != nullptr; });
        pressSeen(field(name));
        type(text);
    }
    [[nodiscard]] QWidget* field(const QString& name) const {
        for (auto* each : window->findChildren<QWidget*>()) {
            const bool isField = qobject_cast<QLineEdit*>(each) != nullptr ||
                                 each->inherits("desktop::PinField");
            if (isField && each->isVisible() && each->accessibleName().startsWith(name))
                return each;
        }
        return nullptr;
    }

    void toDepartment() const { pressButton("Set up this department"); }
    void toManager() const {
        toDepartment();
        fill("Hospital", "Kestrel Bay Hospital");
        fill("Department", "Respiratory Care");
        pressButton("Go on");
        waitUntil("the next page is there", [this] { return isSaid("2 of 5"); });
    }
    void toRules() const {
        toManager();
        fill("Name", "Runa Halvorsen");
        fill("PIN", "402816");
        fill("The same PIN", "402816");
        pressButton("Go on");
    }
    void chooseOwn(const QString& name) const {
        pressButton("Our own rulebook");
        pressButton(name);
    }
    // With the policy of nine checks as the department's own.
    void toCode() const {
        home.folder.write("policy.toml", policyOf());
        toRules();
        chooseOwn("policy.toml");
        waitUntil("the rulebook is read", [this] { return !buttons("Ward").empty(); });
        pressButton("Begin the logbook");
    }
    void toUnits() const {
        toCode();
        pressButton("I have written it down");
        waitUntil("the edition is read", [this] { return !buttons("Adult").empty(); });
    }
};

}  // namespace support
