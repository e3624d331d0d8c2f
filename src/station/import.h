// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Taking in the records of other stations, all or nothing and by somebody who is named, and handing
// out one's own.
#pragma once

#include "exchange/redaction.h"
#include "station/open.h"
#include "station/sign_in.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace station {

struct ImportAnswer {
    std::int64_t added = 0;
    std::int64_t skipped = 0;  // were here already
    bool made = false;         // the logbook was not there before
    std::vector<std::string> remarks{};  // what it changes of the people; a clock in doubt
    std::vector<logbook::RecordName> last{};  // in the files, of each station
};

// Who brings files in; nobody: whoever has logged in to the computer.
struct Bringer {
    Bringer() = default;
    Bringer(Writer writer) : by(std::move(writer)) {}                 // NOLINT: is one
    Bringer(std::optional<Writer> writer) : by(std::move(writer)) {}  // NOLINT: likewise

    std::optional<Writer> by{};
    bool managersChange = false;  // they know that it changes who may enter persons
};

// Takes in all records of all files together, or none: what one of them lacks may stand in
// another. Makes the logbook if there is none; a refused import leaves none behind. The same
// records again change nothing. Refused: a line that is no record, a record that is here with
// another content, a gap, an edition with faults or under another name than its own, records that
// would change which edition or person came first, and records under this station's own name that
// it has not written. Once somebody has a PIN at this station, who brings them must sign in, and
// settlePeople is asked; before that the name is taken, or that of the login. It is kept with the
// names of the files, and never leaves this logbook. Where others write before all is taken in, all
// is judged anew by what they wrote, and nobody types a PIN twice.
[[nodiscard]] Result<ImportAnswer> importFiles(const Surroundings& surroundings,
                                               const LogbookFile& file,
                                               const std::vector<std::filesystem::path>& paths,
                                               const Bringer& bringer = {});

struct ExportSelection {
    std::vector<std::string> stations;      // none: all
    std::optional<logbook::Instant> since;  // of each station, from its first record entered then
                                            // or later, and all that follow
    exchange::Redaction redaction{};        // any: for readers outside, and no record file
};

struct ExportAnswer {
    std::string bytes;  // a record file, in reading order
    std::size_t count = 0;
    std::vector<logbook::RecordName> last{};  // in it, of each station
    // What does not fit its seal, of the stations asked for; it is left out with what came after.
    std::vector<store::Break> breaks{};
    bool isDamaged = false;  // something was read round, so that what was noted may be lacking too
    bool isRefused = false;  // since the disk did not give it
};

// Each record is held against its seal before it is handed out.
[[nodiscard]] Result<ExportAnswer> exportRecords(const Surroundings& surroundings,
                                                 const LogbookFile& file,
                                                 const ExportSelection& selection);

}  // namespace station
