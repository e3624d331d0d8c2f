// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sections of a rulebook's text other than [checks] and [labels]. Knows the fields of each, and
// nothing that a department writes into them.
#pragma once

#include "rules/condition_reader.h"
#include "rules/rulebook.h"

#include <map>
#include <string>
#include <vector>

namespace rules {

// Each by key. What could not be read keeps its default.
[[nodiscard]] std::vector<Group> readGroupSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<Position> readPositionSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<Choice> readChoiceSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<Conflict> readConflictSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<Service> readServiceSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<Hold> readHoldSection(const Field& section, Reading& reading);
[[nodiscard]] std::vector<FaultRule> readFaultSection(const Field& section, Reading& reading);

// A kind that is named, even wrongly, has an entry. BadAuthority.
[[nodiscard]] std::map<logbook::Kind, std::vector<std::string>> readAuthority(const Field& section,
                                                                              Reading& reading);

}  // namespace rules
