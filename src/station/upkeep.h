// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping a logbook: verifying it and backing it up.
#pragma once

#include "station/open.h"

#include <filesystem>
#include <string>
#include <vector>

namespace station {

struct VerifyAnswer {
    store::VerifyReport report;
    bool noted = false;  // in the logbook, for boards to come; not where it cannot be written
};

[[nodiscard]] Result<VerifyAnswer> verify(const Surroundings& surroundings,
                                          const LogbookFile& file);

// What was found, a sentence each; empty if all is well.
[[nodiscard]] std::vector<std::string> findingsOf(const words::Words& words,
                                                  const store::VerifyReport& report);

// A verified copy. `target` must not be there.
[[nodiscard]] Result<store::BackupResult> backUp(const Surroundings& surroundings,
                                                 const LogbookFile& file,
                                                 const std::filesystem::path& target);

}  // namespace station
