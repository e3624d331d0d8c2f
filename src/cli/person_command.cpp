// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// person: who may do what.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/entry.h"

#include <utility>

namespace cli {

namespace {

class PersonCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "person",
            "Say who a person is and which roles they hold.",
            {shared::logbook, {"KEY", "What records call the person."}},
            {shared::as, shared::pinFd,
             {"--name", "NAME", "The person's name.", true},
             {"--role", "ROLE", "A role they hold, by its key in the rulebook.", false, true},
             {"--until", "DATE", "The last day on which this holds, as in 2026-12-31."},
             shared::trustLocks},
            "It replaces what was known of the person: name all roles each time. Without a role "
            "the person is known but may do nothing that needs one. The first person of a log is "
            "entered with init --manager. To sign in, a person needs a PIN: pin set.",
            "airmuster-cli person ward.logbook rs --name \"Robin Sorrel\" --role biomed --as mt",
            true};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::Entry entry{signing->writer(call), "person"};
        logbook::json::Array roles;
        for (const auto& role : call.values("--role")) {
            roles.emplace_back(role);
        }
        entry.body = {{"person", call.wanted("KEY")},
                      {"name", call.wanted("--name")},
                      {"roles", std::move(roles)}};
        if (const auto until = call.value("--until")) {
            entry.body.emplace_back("until", *until);
        }
        const auto written = station::writeEntry(surroundings, logbookOf(call), entry);
        if (!written) {
            return tl::unexpected(written.error());
        }
        return answerOf(call, *written, surroundings.words);
    }
};

}  // namespace

std::unique_ptr<const Command> makePersonCommand() {
    return std::make_unique<PersonCommand>();
}

}  // namespace cli
