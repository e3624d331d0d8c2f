// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// muster: so many units ready for a group, by so many people.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

constexpr int most = static_cast<int>(station::mostMustered);
constexpr WholeNumber unitsWanted{"--units", most, "muster.count"};
constexpr WholeNumber peopleThere{"--people", most, "muster.count"};

class MusterCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "muster",
            "Show how so many units are ready for a group soonest: who does what in which order.",
            {shared::logbook},
            {{"--group", "GROUP", "The patient group that they are to be ready for.", true},
             {"--units", "NUMBER", "How many units are to be ready.", true},
             {"--people", "NUMBER", "How many people do the work.", true},
             shared::at, shared::knownAt, shared::json, shared::trustLocks},
            "The units are chosen, and it says what one more person would gain. A forecast: ask "
            "again as things change. Without --at it is asked for now, by the clock of this "
            "computer. Ends with status 1 if so many cannot be made ready.",
            "airmuster-cli muster ward.logbook --group adult --units 6 --people 2"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto units = wholeNumberOf(call, unitsWanted, surroundings.words);
        if (!units) {
            return tl::unexpected(units.error());
        }
        const auto people = wholeNumberOf(call, peopleThere, surroundings.words);
        if (!people) {
            return tl::unexpected(people.error());
        }
        const auto standing = standingOf(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const station::MusterAsked wanted{static_cast<std::size_t>(*units),
                                          static_cast<std::size_t>(*people)};
        const auto muster = station::muster(surroundings, *standing, wanted);
        return Answer{muster.answer.isEnough() ? ExitStatus::Done : ExitStatus::AnswerIsNo,
                      call.has("--json") ? jsonText(toJson(muster))
                                         : toText(muster, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeMusterCommand() {
    return std::make_unique<MusterCommand>();
}

}  // namespace cli
