// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Corrections: entries struck through together, and entries made on the wrong unit moved to the
// right one. All of it in one act, or none.
#pragma once

#include "station/entry.h"
#include "station/standing.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

struct Correction {
    Writer by;
    logbook::RecordName record;  // an entry
    bool withBatch = false;      // and all that share its batch and its station
    std::string reason;
    bool namesNoPatient = false;  // as in Entry
    // Of a batch what the person has seen of it: refused, where others belong to it too.
    std::optional<std::vector<logbook::RecordName>> shown{};
};

// What a correction would line through, as a line for a person: "icu-1/24  2 Mar 08:30, unit
// KB-0142: Use started".
struct CorrectionLine {
    logbook::RecordName record;
    std::string says;
};

// By the file as it is now, in reading order; the words are those of the standing. `moves`: of a
// batch only those on the unit of the entry. Empty where the entry is not there or struck through
// already.
[[nodiscard]] Result<std::vector<CorrectionLine>> linesToCorrect(const Surroundings& surroundings,
                                                                 const LogbookFile& file,
                                                                 const Standing& standing,
                                                                 const Correction& correction,
                                                                 bool moves);

struct Corrected {
    std::vector<logbook::RecordName> struck;     // the entries lined through, in order
    std::vector<logbook::RecordName> reentered;  // those that take their place, likewise
    std::string device;                          // the unit on which those are; "" for none
    std::vector<std::string> warnings;           // as in Written
    std::vector<std::string> meaning;            // how the units concerned stand now
};

// Refused whole, with nothing written: an entry that is not there, is struck through already or
// cannot be; a strike that the person may not write. Of a batch, those that are struck through
// already are left out.
[[nodiscard]] Result<Corrected> strikeTogether(const Surroundings& surroundings,
                                               const LogbookFile& file,
                                               const Correction& correction);

// Lines through entries on one unit and enters them anew on `device`: with the same content and
// `at`, by whom they were done, and from which they were moved. What cannot be backdated is for
// now. Of a batch only the entries on the same unit. Refused besides: the same unit, an entry about
// the whole department, and whatever the person may not write or the unit cannot take.
[[nodiscard]] Result<Corrected> moveToUnit(const Surroundings& surroundings,
                                           const LogbookFile& file, const Correction& correction,
                                           const std::string& device);

// A move before it is kept.
struct MoveOutlook {
    std::vector<Entry> entries;     // as they would stand on the unit they are moved to
    std::vector<std::string> told;  // what of them would not count there or change nothing, what
                                    // stands against a part, and which units stand worse then
};

// By the file as it is now. Refused as the move itself; who may write it is not asked.
[[nodiscard]] Result<MoveOutlook> moveOutlook(const Surroundings& surroundings,
                                              const LogbookFile& file, const Standing& standing,
                                              const Correction& correction,
                                              const std::string& device);

}  // namespace station
