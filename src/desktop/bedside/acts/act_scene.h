// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the forms of entries are made from, and what several of them ask for alike.
#pragma once

#include "desktop/bedside/acts/act_form.h"
#include "desktop/bedside/unit_panel.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace desktop {

// All must outlive the making of a form; the form keeps nothing of it.
struct ActScene {
    const UnitView& unit;
    const words::Words& words;
    logbook::Instant now;
    std::optional<std::string> stationPlace{};  // where this computer stands, if that is set
};

// The groups that the unit is for, as choices.
[[nodiscard]] ActField groupField(const ActScene& scene, const QString& label);
// A place, typed or scanned, with those that are known as proposals; at first where this computer
// stands, else where the log has the unit.
[[nodiscard]] ActField placeField(const ActScene& scene, const QString& label);
// Where a use begins: seldom where the unit stood. At first where this computer stands, else
// nothing; proposed are places where units are in use, the last first, and where this one stood.
[[nodiscard]] ActField startPlaceField(const ActScene& scene, const QString& label);
[[nodiscard]] ActField textField(const std::string& key, const QString& label,
                                 const QStringList& proposals = {});
// Where there is only one choice it is chosen.
[[nodiscard]] ActField choiceField(const std::string& key, const QString& label,
                                   std::vector<ActChoice> choices);

// What stands between the unit and a start of use by the log, a line each, the first few.
[[nodiscard]] QStringList whatIsLacking(const ActScene& scene);

// A unit that is ready by the log, for the same patient group, at the same place rather than
// another: "KB-0102, Equipment room". "" if there is none.
[[nodiscard]] QString readyInstead(const ActScene& scene);

// The label of the choice that was made in the field.
[[nodiscard]] QString labelOf(const ActField& field, const Answers& answers);

// A body of the answers to these fields, under the same names; those not answered are left out.
[[nodiscard]] logbook::json::Object bodyOf(const Answers& answers,
                                           const std::vector<std::string>& fields);

}  // namespace desktop
