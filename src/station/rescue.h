// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When something has gone wrong with a logbook: what can be got out of it, a backup in its place,
// and what it is held against.
#pragma once

#include "station/open.h"
#include "store/restore.h"
#include "store/salvage.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace station {

// What can be proven, in a new logbook that has no station. `target` must not be there. Where
// nothing can be, what is lacking stands in the details of the problem.
[[nodiscard]] Result<store::SalvageResult> salvage(const Surroundings& surroundings,
                                                   const LogbookFile& damaged,
                                                   const std::filesystem::path& target);

// What the new logbook lacks, a sentence for each station, and what may hold more and was not read;
// empty if nothing is known to be lacking.
[[nodiscard]] std::vector<std::string> lackingOf(const words::Words& words,
                                                 const store::SalvageResult& salvaged);

// That it may lack later entries of some stations, of which nothing would tell: the file's notes of
// how far they go are gone. Nothing where they are there.
[[nodiscard]] std::optional<std::string> unnotedOf(const words::Words& words,
                                                   const store::SalvageResult& salvaged);

// That entries of it would be gone from the damaged file once the journal beside that were played
// back; nothing where none would.
[[nodiscard]] std::optional<std::string> undoneOf(const words::Words& words,
                                                  const std::filesystem::path& damaged,
                                                  const store::SalvageResult& salvaged);

// The backup in the place of the logbook, which is put aside.
[[nodiscard]] Result<store::RestoreResult> restore(const Surroundings& surroundings,
                                                   const std::filesystem::path& backup,
                                                   const LogbookFile& file,
                                                   const std::string& station);

// What was put aside holds, beside the backup, a sentence each, and what belongs to it; empty if
// that is all in the backup, and nothing does.
[[nodiscard]] std::vector<std::string> asideTold(const words::Words& words,
                                                 const store::RestoreResult& restored);

struct EarlierHeads {
    std::vector<store::Heads> heads;    // several, where a text has more than one of a station
    std::vector<std::string> unread{};  // what is meant as one and cannot be read, a sentence each

    [[nodiscard]] std::size_t count() const;
    [[nodiscard]] std::set<std::string> stations() const;
};

// The heads in a file: of a logbook, so of a backup; else those that stand in a text, as a month's
// report, or what backup or verify printed (headsInText). Damaged, where a logbook's own notes are.
// Where none can be read at all, the details of the problem tell what stands there instead.
[[nodiscard]] Result<EarlierHeads> headsIn(const Surroundings& surroundings,
                                           const std::filesystem::path& path);

// Where the logbook does not reach one of those heads or has another, of each station the first
// record.
[[nodiscard]] Result<std::vector<store::Break>> breaksAgainst(
    const Surroundings& surroundings, const LogbookFile& file,
    const std::vector<store::Heads>& earlier);

}  // namespace station
