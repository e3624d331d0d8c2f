// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrolling units: many from a fleet list, which is looked at before anything is written, or one
// that a person states. Units that a list or a person gets wrong are refused one by one, each with
// every reason.
#pragma once

#include "exchange/fleet_list.h"
#include "station/entry.h"

#include <filesystem>
#include <string>
#include <vector>

namespace station {

// Why a unit cannot be enrolled as it is stated.
struct FleetReason {
    std::string code;    // "number_twice": for programs, and to point at the field
    std::string column;  // of the list, "return_by"; "" the whole row
    words::Sentence sentence;
};

struct GoodUnit {
    exchange::FleetRow row;
    std::vector<std::string> remarks;  // sentences
};

struct RefusedUnit {
    std::size_t line = 0;  // of the list, from 1
    std::string serial;    // as far as it could be read
    std::vector<FleetReason> reasons;
};

struct FleetPreview {
    std::filesystem::path list;
    std::vector<GoodUnit> good;        // in the order of the list
    std::vector<RefusedUnit> refused;  // likewise
    std::vector<std::string> ignoredColumns;
};

struct FleetAsked {
    std::filesystem::path list;
    bool namesNoPatient = false;  // as in Entry, of all its labels and places
};

// What would come of the list; writes nothing and asks for no PIN. Refused units: what
// exchange::FleetFault names; one that is enrolled already and not retired; a serial or asset
// number that belongs to another such unit; a group or feature that the edition does not name; a
// commissioning after today; a label or place that looks as if it named a patient. A problem: a
// file that cannot be read, or is no fleet list; no edition.
[[nodiscard]] Result<FleetPreview> previewFleet(const Surroundings& surroundings,
                                                const LogbookFile& file, const FleetAsked& asked);

struct FleetTaking {
    Writer by;             // signs in
    FleetPreview preview;  // what the person looked at and said yes to
};

struct FleetTaken {
    std::string by;                            // the name of the person
    std::vector<logbook::RecordName> records;  // of the good units, in their order
    std::vector<std::string> warnings;
};

// Enrols the good units of the preview as one batch, all or none. Refused besides: a preview with
// none; one of whose good units is no longer good; a person who may not enrol.
[[nodiscard]] Result<FleetTaken> takeFleet(const Surroundings& surroundings,
                                           const LogbookFile& file, const FleetTaking& taking);

struct NewUnit {
    std::string serial;
    logbook::body::Enrol unit;
    bool namesNoPatient = false;
};

// What speaks against enrolling it, by the rules of a list; empty: nothing. Writes nothing.
[[nodiscard]] Result<std::vector<FleetReason>> lookOver(const Surroundings& surroundings,
                                                        const LogbookFile& file,
                                                        const NewUnit& unit);

// Refused: what lookOver finds, told in the details; a person who may not enrol.
[[nodiscard]] Result<Written> enrolUnit(const Surroundings& surroundings, const LogbookFile& file,
                                        const Writer& by, const NewUnit& unit);

// The body of an `enrol` record that states the unit.
[[nodiscard]] logbook::json::Object enrolBody(const logbook::body::Enrol& unit);

}  // namespace station
