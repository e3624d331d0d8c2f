// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// adopt: a rulebook comes into force.
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/entry.h"

#include <utility>

namespace cli {

namespace {

class AdoptCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "adopt",
            "Bring a rulebook into force as the department's policy edition.",
            {shared::logbook, {"FILE", "The rulebook, a TOML file."}},
            {shared::as, shared::pinFd,
             {"--approved-by", "NAME", "Who approved it."},
             {"--department", "NAME", "The department it is for."},
             {"--facility", "NAME", "The hospital it is for."},
             shared::trustLocks},
            "The whole text is kept in the log. A rulebook with faults is refused, and all of "
            "them are listed; warnings are listed too, but do not stand in the way. The "
            "first one of a log is better brought in by init, with the manager: nobody can sign "
            "in before it.",
            "airmuster-cli adopt ward.logbook policy.toml --as mt --facility \"Kestrel Bay\"",
            true};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto adopted = station::adopt(
            surroundings, logbookOf(call),
            {signing->writer(call), call.wanted("FILE"), call.value("--approved-by"),
             call.value("--department"), call.value("--facility")});
        if (!adopted) {
            return tl::unexpected(adopted.error());
        }
        return Answer{ExitStatus::Done,
                      surroundings.words.say("done.adopted",
                                             {{"edition", adopted->edition},
                                              {"record", toText(adopted->written.record)}}) +
                          "\n",
                      adopted->warnings, true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeAdoptCommand() {
    return std::make_unique<AdoptCommand>();
}

}  // namespace cli
