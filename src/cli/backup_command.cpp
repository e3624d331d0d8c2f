// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// backup: a verified copy.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/upkeep.h"

namespace cli {

namespace {

class BackupCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "backup",
            "Copy the logbook to a new file and verify the copy.",
            {shared::logbook, {"TO", "The copy; no file of that name may be there."}},
            {shared::trustLocks},
            "It can be done while others write. The copy has no station of its own: what is "
            "restored from it goes on under a new name. Its chain heads are printed; keep them "
            "with it.",
            "airmuster-cli backup ward.logbook /media/backup/ward-2026-03-02.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto copy =
            station::backUp(surroundings, logbookOf(call), call.wanted("TO"));
        if (!copy) {
            return tl::unexpected(copy.error());
        }
        return Answer{ExitStatus::Done,
                      surroundings.words.say("done.backed_up",
                                             {{"path", copy->path.string()},
                                              {"bytes", std::to_string(copy->bytes)}}) +
                          "\n" + logbook::json::canonical(toJson(copy->heads)) + "\n",
                      {},
                      true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeBackupCommand() {
    return std::make_unique<BackupCommand>();
}

}  // namespace cli
