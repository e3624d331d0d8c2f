// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// migrate: a logbook of an older version, brought up to date.
#include "cli/commands.h"

#include "station/automatic_backup.h"

namespace cli {

namespace {

class MigrateCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "migrate",
            "Bring a logbook that an older version wrote up to date.",
            {shared::logbook},
            {shared::trustLocks},
            "A backup is made first, beside it in LOGBOOK.backups, and stays there. Older versions "
            "refuse the logbook afterwards, so bring all computers that share it up to date. No "
            "entry is touched.",
            "airmuster-cli migrate ward.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto file = logbookOf(call);
        const auto done = station::bringUpToDate(surroundings, file);
        if (!done) {
            return tl::unexpected(done.error());
        }
        const auto& words = surroundings.words;
        const auto path = file.path.string();
        const auto line = *done ? words.say("backups.migrated",
                                            {{"path", path},
                                             {"backup", (*done)->backup.path.string()}})
                                : words.say("backups.up_to_date", {{"path", path}});
        return Answer{ExitStatus::Done, line + "\n", {}, done->has_value()};
    }
};

}  // namespace

std::unique_ptr<const Command> makeMigrateCommand() {
    return std::make_unique<MigrateCommand>();
}

}  // namespace cli
