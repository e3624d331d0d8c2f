// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why automatic backups could not be made: as it is kept in the settings, and as it is told. For
// automatic_backup.h only.
#pragma once

#include "station/settings.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace station {

struct BackupFailure {
    static constexpr const char* setting = "backup.failed";
    // Besides those of reasonOf: the place was not set for this file; what stands there is no
    // folder.
    static constexpr const char* elsewhere = "elsewhere";
    static constexpr const char* inWay = "in_way";

    std::string why;  // a word that is looked up when it is told
    std::string folder;
    logbook::Instant at{};
};

// The word for it.
[[nodiscard]] std::string_view reasonOf(const store::Trouble& trouble);

// Of each place the last one, if none went through since.
[[nodiscard]] std::vector<BackupFailure> failuresIn(
    const std::map<std::string, std::string>& settings);
[[nodiscard]] std::string textOf(const std::vector<BackupFailure>& failures);

// Leaves those of places where backups still go: the logbook may bear another name since, or
// another second place be set.
void forgetOthers(std::vector<BackupFailure>& failures, const LogbookFile& file,
                  const StationSettings& settings);

[[nodiscard]] std::string sentenceOf(const words::Words& words, const BackupFailure& failure);

}  // namespace station
