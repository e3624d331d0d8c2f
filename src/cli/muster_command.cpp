// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// muster: so many units ready for a group, by so many people.
#include "cli/answer_options.h"
#include "cli/commands.h"

#include <charconv>

namespace cli {

namespace {

// A whole number from 1 on, of figures alone.
station::Result<std::size_t> countOf(const Call& call, std::string_view option,
                                     const words::Words& words) {
    const auto& text = call.wanted(option);
    const auto* last = text.data() + text.size();
    std::size_t count = 0;
    const auto read = std::from_chars(text.data(), last, count);
    const bool whole = read.ec == std::errc{} && read.ptr == last;
    if (!whole || count < 1 || count > station::mostMustered) {
        const auto wanted = words.say("muster.count",
                                      {{"most", std::to_string(station::mostMustered)}});
        return tl::unexpected(station::problemOf(
            words, "call.bad_value",
            {{"option", std::string(option)}, {"text", text}, {"wanted", wanted}}));
    }
    return count;
}

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
        const auto units = countOf(call, "--units", surroundings.words);
        if (!units) {
            return tl::unexpected(units.error());
        }
        const auto people = countOf(call, "--people", surroundings.words);
        if (!people) {
            return tl::unexpected(people.error());
        }
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto standing = station::standing(surroundings, logbookOf(call), *asked);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto muster = station::muster(surroundings, *standing, {*units, *people});
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
