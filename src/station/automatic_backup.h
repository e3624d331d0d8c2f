// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Backups that nobody has to think of: when, where and how many, and what is told of each. Made
// when the person is done, so that no entry waits for one or fails by one. Knows no screen.
#pragma once

#include "station/open.h"
#include "store/migration.h"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace station {

enum class Occasion {
    CommandDone,   // due once an entry has been in no backup for a day
    WindowCloses,  // due if anything came in since the last one
};

struct AutomaticBackup {
    std::vector<std::filesystem::path> made;  // whole and verified: the first place, the second
    bool failed = false;                      // somewhere it could not be made
    std::vector<std::string> told;            // a sentence each; none where no backup was due
};

// The folder beside the logbook in which they are kept: "ward.logbook.backups".
[[nodiscard]] std::filesystem::path backupFolder(const LogbookFile& file);

// Makes one if it is due and any are to be kept: in the folder beside the logbook, and in the
// second place if one is set for this file, each copied from the logbook and verified by itself.
// Then, of those that it made of this logbook, the oldest go from each place, until as many are
// left as are kept; see BackupPlace::keepOnly. Never refuses: why one could not be made is told,
// and noted for the next start. Before one that takes a while `begins` is given a sentence that
// says so.
AutomaticBackup backUpAutomatically(const Surroundings& surroundings, const LogbookFile& file,
                                    Occasion occasion,
                                    const std::function<void(const std::string&)>& begins = {});

// The same when the window closes that was opened then. Of a file of which there is none beside it,
// a copy perhaps that was only looked at, none is made unless something came in since.
AutomaticBackup backUpAtClose(const Surroundings& surroundings, const LogbookFile& file,
                              logbook::Instant opened);

// Brings the logbook to this program's form, after a backup in the folder beside it, which stays
// whatever the number kept. Nothing if it has that form. No problem is a lack of anything to do.
[[nodiscard]] Result<std::optional<store::Migrated>> bringUpToDate(
    const Surroundings& surroundings, const LogbookFile& file);

// What whoever opens the logbook is told: that the last one failed and why, or that the second
// place is not there; else when it was made; nothing if none was tried.
[[nodiscard]] std::optional<std::string> lastBackupTold(const Surroundings& surroundings,
                                                        const LogbookFile& file);

}  // namespace station
