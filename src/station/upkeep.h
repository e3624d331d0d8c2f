// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping a logbook: verifying it, backing it up, and forms for when it cannot be had.
#pragma once

#include "station/open.h"
#include "station/snapshots.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace station {

struct VerifyAnswer {
    store::VerifyReport report;
    bool noted = false;  // in the logbook, for boards to come; not where it cannot be written
    bool wasBusy = false;  // it was not noted because others held the file all the while
    bool wasFull = false;  // or because the disk was full
    // That the file has a second name: where nothing was found that is not noted then.
    std::optional<store::Trouble> twoNames{};
    // Of the kept states, which are looked at where all entries are whole; those that are not what
    // the entries say are thrown away, unless it cannot be written.
    SnapshotCheck snapshots{};
    bool thrownAway = true;

    [[nodiscard]] bool ok() const { return report.ok() && snapshots.wrong.empty(); }
    // Whether something was found that no board will show. What the disk did not give need not be
    // damage, and boards meet with it themselves.
    [[nodiscard]] bool isOnNoBoard() const {
        return !noted && !report.ok() && !report.diskFailed;
    }
};

[[nodiscard]] Result<VerifyAnswer> verify(const Surroundings& surroundings,
                                          const LogbookFile& file);

// What was found, a sentence each; empty if all is well.
[[nodiscard]] std::vector<std::string> findingsOf(const words::Words& words,
                                                  const store::VerifyReport& report);
// Why nothing that can wait is written into a file that has a second name, and what to do.
[[nodiscard]] std::optional<std::string> twoNamesTold(const words::Words& words,
                                                      const VerifyAnswer& answer);
// Where it is told decides what can be done about it.
enum class ToldBy { Command, Window };
[[nodiscard]] std::vector<std::string> findingsOf(const words::Words& words,
                                                  const VerifyAnswer& answer,
                                                  ToldBy toldBy = ToldBy::Command);

// A verified copy. `target` must not be there.
[[nodiscard]] Result<store::BackupResult> backUp(const Surroundings& surroundings,
                                                 const LogbookFile& file,
                                                 const std::filesystem::path& target);

struct FormsAnswer {
    std::string text;  // pages with a form feed between: the last board, then the forms
    std::string first, last;
};

inline constexpr std::int64_t mostForms = 500;

// Blank forms under the board of now, with numbers of this station that are never given again.
// Problems: no edition, no station of its own. Precondition: 1 <= count <= mostForms.
[[nodiscard]] Result<FormsAnswer> downtimeForms(const Surroundings& surroundings,
                                                const LogbookFile& file, std::int64_t count);

}  // namespace station
