// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet as the fleet desk shows it, in words that are made beside the thread that paints: a row
// a unit, and the facts that are seen first. Knows no widget.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QString>
#include <QStringList>
#include <QVariant>
#include <array>
#include <memory>
#include <optional>
#include <vector>

namespace desktop {

struct FleetRow {
    enum Column { Unit, Name, Model, Place, Group, Verdict, Missing, Until, ColumnCount };

    QString serial;                         // as recorded: names the unit
    rules::Verdict verdict{};
    QString group;                          // its key; "" none
    std::array<QString, ColumnCount> texts{};
    std::array<QVariant, ColumnCount> sortKeys{};  // numbers or texts that sort as a person expects
    QString folded;                         // everything that is typed to find it, in small letters
    bool isInUse = false;                   // whatever the verdict

    bool operator==(const FleetRow& other) const {
        return serial == other.serial && verdict == other.verdict &&
               isInUse == other.isInUse && group == other.group &&
               texts == other.texts && sortKeys == other.sortKeys && folded == other.folded;
    }
};

struct GroupFact {
    QString key, label;
    int ready = 0;
    std::optional<int> par;
};

struct LapseFact {
    QString serial, where;  // "KB-0101", "Equipment room, Adult"
    logbook::Instant at{};
};

// What may not be relied on, and what must not go unseen: a line each, the gravest first.
struct DoubtFact {
    QString text;
    bool isGrave = false;  // something may be missing from the whole view
};

struct FleetFacts {
    std::vector<GroupFact> groups;
    std::vector<LapseFact> lapses;  // of the ready units, the soonest first; at most three
    std::vector<DoubtFact> doubts;
    std::array<int, 5> counts{};    // by verdict; as in use all with a patient on them
    int notReady = 0;               // whose way to ready can be asked for
    QString atEachStart;            // what every start waits for, told once; may be empty
};

// By serial, as the state has them.
struct FleetTable {
    std::vector<FleetRow> rows;
    FleetFacts facts;
};

using SharedFleetTable = std::shared_ptr<const FleetTable>;

[[nodiscard]] SharedFleetTable makeFleetTable(const FleetView& view, const words::Words& words);

// Figures in it are compared as numbers: "Bay 9" is before "Bay 10".
[[nodiscard]] QString naturalKey(const QString& text);

// "Equipment room, Adult", as far as it is known.
[[nodiscard]] QString whereOf(const report::BoardLine& line);

}  // namespace desktop
