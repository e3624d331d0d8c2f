// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The automatic backups of one logbook in one folder: which there are, and which may go. A name
// makes none: what bears one counts only if it is a backup that looks whole, and all in it is in
// the logbook. What else lies there is left alone. Makes none.
#pragma once

#include "station/open.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace station {

// Names hold no more.
[[nodiscard]] logbook::Instant wholeSecond(logbook::Instant at);

// "20260302T140000Z", of a whole second.
[[nodiscard]] std::string stampOf(logbook::Instant at);

class BackupPlace {
public:
    // "ward-icu-1-": a second place may hold those of other logbooks and stations.
    BackupPlace(std::filesystem::path folder, const LogbookFile& file,
                const std::optional<std::string>& station);

    [[nodiscard]] const std::filesystem::path& folder() const { return m_folder; }
    [[nodiscard]] std::filesystem::path pathAt(logbook::Instant at) const;

    // The newest that counts and was made after the one and not after the other.
    [[nodiscard]] std::optional<logbook::Instant> newest(const store::Logbook& logbook,
                                                         logbook::Instant after,
                                                         logbook::Instant until) const;

    // Whether one of them has every record of the logbook, whatever the clock says.
    [[nodiscard]] bool hasAllOf(const store::Logbook& logbook) const;

    // Names as backups of this logbook have them, of what is none, or is of a time to come.
    [[nodiscard]] std::vector<std::string> notCounted(const store::Logbook& logbook,
                                                      logbook::Instant now) const;

    struct Kept {
        std::vector<std::string> gone;
        std::vector<std::string> notWhole;  // counted until they were read through
    };
    // Of those that count the oldest go, until so many are left with the one made last, which never
    // goes, whatever the clock says; before any of them those of a time to come. Read through are
    // the newest beside that one, each that is to go, and of the others those that are small: one
    // that does not verify is not counted, and stays. So does a backup that holds anything else, or
    // cannot be read: it may be the last that holds it.
    [[nodiscard]] Kept keepOnly(std::size_t count, logbook::Instant last,
                                const store::Logbook& logbook) const;

    // What a program that was killed left of one it was making, once a day has gone by.
    void tidy(logbook::Instant now) const;

private:
    // By their names alone, the newest first.
    [[nodiscard]] std::vector<logbook::Instant> times() const;
    // Of a name that begins as those of this logbook do.
    [[nodiscard]] std::optional<logbook::Instant> timeIn(const std::string& name) const;

    std::filesystem::path m_folder;
    std::string m_beginning;
};

}  // namespace station
