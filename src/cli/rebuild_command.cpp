// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// rebuild: what is derived from the entries, thrown away and made again.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/snapshots.h"

namespace cli {

namespace {

namespace json = logbook::json;

class RebuildCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "rebuild",
            "Throw away what is kept so that answers come fast, and make it again.",
            {shared::logbook},
            {shared::json, shared::trustLocks},
            "Kept states of the units, two hours, a day, a week, a month and a quarter before the "
            "last entry, spare an answer from reading all entries. They hold nothing that the "
            "entries do not: no answer changes by this, and no entry is touched.",
            "airmuster-cli rebuild ward.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto made = station::rebuild(surroundings, logbookOf(call));
        if (!made) {
            return tl::unexpected(made.error());
        }
        Answer said{ExitStatus::Done, ""};
        if (call.has("--json")) {
            said.out = json::pretty(json::Object{{"kept", static_cast<double>(made->kept)},
                                                 {"folded", static_cast<double>(made->folded)}}) +
                       "\n";
            return said;
        }
        said.out = (made->kept > 0
                        ? words.say("snapshots.rebuilt",
                                    {{"count", std::to_string(made->kept)},
                                     {"entries", std::to_string(made->folded)}})
                        : words.say("snapshots.nothing_kept")) +
                   "\n";
        return said;
    }
};

}  // namespace

std::unique_ptr<const Command> makeRebuildCommand() {
    return std::make_unique<RebuildCommand>();
}

}  // namespace cli
