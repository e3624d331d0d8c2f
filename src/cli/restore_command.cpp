// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// restore: a backup in the place of a logbook.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/rescue.h"
#include "words/as_word.h"

namespace cli {

namespace {

class RestoreCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "restore",
            "Put a verified backup in the place of a logbook.",
            {{"BACKUP", "The backup; it is read and left as it is."},
             {"LOGBOOK", "The logbook to be; what stands there is put aside, not deleted."}},
            {{"--station", "NAME",
              "The name under which it goes on: one that no station has used.", true},
             shared::trustLocks},
            "Close the window and other programs that have the logbook open first. A backup has no "
            "PINs: a manager begins anew with init. What was entered after the backup is brought "
            "back from the file put aside, with salvage or export, and import.",
            "airmuster-cli restore ward-backup.logbook ward.logbook --station icu-1b"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto& station = call.wanted("--station");
        const auto restored =
            station::restore(surroundings, call.wanted("BACKUP"), logbookOf(call), station);
        if (!restored) {
            return tl::unexpected(restored.error());
        }
        std::string text;
        if (restored->aside) {
            text += words.say("rescue.put_aside", {{"path", restored->aside->string()}}) + "\n";
        }
        for (const auto& line : station::asideTold(words, *restored)) {
            text += line + "\n";
        }
        text += words.say("rescue.restored",
                          {{"path", restored->path.string()}, {"station", station}}) +
                "\n" + logbook::json::canonical(toJson(restored->heads)) + "\n" +
                words.say("rescue.not_carried",
                          {{"path", words::asWord(restored->path.string())}}) +
                "\n" +
                words.say("rescue.begin_anew", {{"path", words::asWord(restored->path.string())},
                                                {"station", station}}) +
                "\n";
        Answer answer{ExitStatus::Done, text, {}, true};
        answer.longer = logbookOf(call);
        return answer;
    }
};

}  // namespace

std::unique_ptr<const Command> makeRestoreCommand() {
    return std::make_unique<RestoreCommand>();
}

}  // namespace cli
