// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// horizon: what stops being ready in the hours to come, and the least work that prevents it.
#include "cli/answer_options.h"
#include "cli/commands.h"

#include <charconv>

namespace cli {

namespace {

constexpr int usualHours = 12;
constexpr int mostHours = 744;  // 31 days

station::Result<int> hoursOf(const Call& call, const words::Words& words) {
    const auto text = call.value("--hours");
    if (!text) {
        return usualHours;
    }
    int hours = 0;
    const auto* last = text->data() + text->size();
    const auto read = std::from_chars(text->data(), last, hours);
    if (read.ec != std::errc{} || read.ptr != last || hours < 1 || hours > mostHours) {
        return tl::unexpected(station::problemOf(
            words, "call.bad_value",
            {{"option", "--hours"},
             {"text", *text},
             {"wanted", words.say("call.whole_hours", {{"most", std::to_string(mostHours)}})}}));
    }
    return hours;
}

class HorizonCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "horizon",
            "Look ahead: which units stop being ready when and why, which groups fall below par, "
            "and the least work that prevents it.",
            {shared::logbook},
            {{"--hours", "HOURS", "How far to look: whole hours, 1 to 744; 12 unless given."},
             shared::at, shared::knownAt, shared::json, shared::trustLocks},
            "As if nothing further were recorded. Without --at it is asked for now, by the clock "
            "of this computer.",
            "airmuster-cli horizon ward.logbook --hours 12"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto hours = hoursOf(call, surroundings.words);
        if (!hours) {
            return tl::unexpected(hours.error());
        }
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto standing = station::standing(surroundings, logbookOf(call), *asked);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto horizon = station::horizon(surroundings, *standing, {*hours * 3'600'000LL});
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(horizon))
                                         : toText(horizon, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeHorizonCommand() {
    return std::make_unique<HorizonCommand>();
}

}  // namespace cli
