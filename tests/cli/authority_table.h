// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table of who may write what, as data, and a ward in which each of its cells can be tried: an
// edition that names a role for every kind for which it may, and a person for each role.
#pragma once

#include "station/ward.h"

#include <map>
#include <string>
#include <vector>

namespace support {

inline const std::vector<std::string> tableRoles{"lead",  "biomed",  "technician",
                                                 "therapist", "charge", "visitor"};

// Kinds that the edition keeps for roles; every other one is for all.
inline const std::map<std::string, std::vector<std::string>> tableAuthority{
    {"adopt", {"lead"}},
    {"person", {"lead"}},
    {"notice", {"biomed", "lead"}},
    {"enrol", {"biomed"}},
    {"retire", {"biomed"}},
    {"reprocess", {"technician", "therapist"}},
    {"check", {"charge", "therapist"}},
    {"clear", {"biomed"}},
    {"release", {"biomed", "charge"}},
    {"waive", {"charge"}},
    {"notice_done", {"biomed", "technician"}},
    {"service", {"biomed"}},
    {"strike", {"charge", "lead"}},
    {"review", {"charge", "lead", "therapist"}},
    {"sign", {"charge", "lead"}},
};

struct TableKind {
    std::string kind;
    std::string device;  // "" for the department-wide kinds
    logbook::json::Object body;
    bool waits = true;   // for a PIN, on a unit that is not in use
};

// One record of each kind. `rulebook` is another edition, for `adopt`.
[[nodiscard]] std::vector<TableKind> tableKinds(const std::string& rulebook);

// The edition, with that name.
[[nodiscard]] std::string tablePolicy(const std::string& edition);

// icu-1 with that edition, mt as the manager, a person of each role's name with the PIN testPin,
// and KB-0001 with a fault, a hold and a note.
void foundTable(Ward& ward);

// Whether a person of that role may write that kind.
[[nodiscard]] bool tableAllows(const std::string& kind, const std::string& role);

}  // namespace support
