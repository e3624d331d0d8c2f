// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Notes of emergency starts that are not in the log yet, each a small file in a folder of whoever
// uses this computer, away from the logbook: that may be what cannot be written. A note is whole or
// not there, and says for which logbook it is. Keeps no start itself.
#pragma once

#include "station/emergency_start.h"

#include <filesystem>
#include <string>
#include <vector>

namespace station {

// Writes a note into the folder, which is made if need be, and waits until it is on the disk: where
// it is. Problems: of the folder and its disk.
[[nodiscard]] Result<std::filesystem::path> noteStart(const words::Words& words,
                                                      const std::filesystem::path& folder,
                                                      const LogbookFile& file,
                                                      const PressedStart& start);

struct NotedStart {
    std::filesystem::path note;
    PressedStart start;     // by the name of who pressed it; no session outlives the program
    std::string logbook;    // where that lay, safe to show
    bool isOfThis = false;  // whether that is the place of the logbook asked for
};

struct StartNotes {
    std::vector<NotedStart> starts{};  // by the time of their press
    std::vector<Problem> damaged{};    // of each file that is no note: it was put aside, and where
};

// All notes of the folder. What is no note gets another name and is never looked at again.
[[nodiscard]] StartNotes readStartNotes(const words::Words& words,
                                        const std::filesystem::path& folder,
                                        const LogbookFile& file);

// The start is in the log: whether its note is gone, also once the power has failed.
[[nodiscard]] bool forgetStart(const std::filesystem::path& note);

// Somebody said that the start is not to be recorded: whether its note is put aside under another
// name. Other windows that hold it see that.
[[nodiscard]] bool dropStart(const std::filesystem::path& note);
[[nodiscard]] bool isDropped(const std::filesystem::path& note);

}  // namespace station
