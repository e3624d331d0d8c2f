// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a panel looks up about the unit that it shows: the unit in the log, what was found wrong
// with it, and what its sentences draw on. Reads what was made before; folds and assesses nothing.
#pragma once

#include "desktop/bedside/unit_panel.h"

#include <QString>
#include <QStringList>
#include <string>
#include <vector>

namespace desktop {

// The view must outlive what is handed out.
[[nodiscard]] const rules::Device& deviceOf(const UnitView& unit);
[[nodiscard]] const rules::Rulebook& rulebookOf(const UnitView& unit);
[[nodiscard]] words::Context contextOf(const UnitView& unit, const words::Words& words);
[[nodiscard]] const std::vector<rules::Finding>& findingsOf(const UnitView& unit);

// "KB-0142 · ICU-07 · ICU": which unit an entry is about, wherever its bar is out of sight.
[[nodiscard]] QString unitLine(const report::BedsideIdentity& unit);

// "KB-0142 · A-0142 · Larch 3 · ICU": a unit of the fleet, whichever is open.
[[nodiscard]] QString describedUnit(const rules::State& state, const std::string& serial);

// "May be entered by: …"; "" where anyone may.
[[nodiscard]] QString whoMayEnter(const UnitView& unit, const words::Words& words,
                                  logbook::Kind kind);

// Whether that is the serial or asset number of a unit, as it was scanned.
[[nodiscard]] bool isUnitCode(const FleetView& fleet, const QString& text);

// The serial or asset number of a unit, or the serial of a part, in which a text ends, as it stands
// there: a scanner may have put it there. "" for none; the longest, and none of under four letters.
[[nodiscard]] QString codeAtEnd(const FleetView& fleet, const QString& text);

// The places where units of the department stand or stood last, those with most units first; no
// more than so many.
[[nodiscard]] std::vector<std::string> knownPlaces(const UnitView& unit, std::size_t most);

// The places where units are in use by the log, of the use begun last first; no more than so many.
[[nodiscard]] std::vector<std::string> placesInUse(const UnitView& unit, std::size_t most);

}  // namespace desktop
