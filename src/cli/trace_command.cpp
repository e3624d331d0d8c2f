// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// trace: where parts were and are, for a recall.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "station/serial_log.h"

#include <array>

namespace cli {

namespace {

using rules::TraceBy;

constexpr std::array<std::pair<std::string_view, TraceBy>, 4> ways{
    {{"--lot", TraceBy::Lot},
     {"--serial", TraceBy::Serial},
     {"--load", TraceBy::Load},
     {"--notice", TraceBy::Notice}}};

// Exactly one of the four.
station::Result<station::TraceAsked> wayOf(const Call& call, const words::Words& words) {
    std::optional<station::TraceAsked> asked;
    for (const auto& [option, by] : ways) {
        const auto key = call.value(option);
        if (!key) {
            continue;
        }
        if (key->find_first_not_of(' ') == std::string::npos) {
            return tl::unexpected(station::problemOf(words, "call.trace_empty",
                                                     {{"option", std::string(option)}}));
        }
        if (asked) {
            return tl::unexpected(station::problemOf(words, "call.trace_twice"));
        }
        asked = station::TraceAsked{by, *key};
    }
    if (!asked) {
        return tl::unexpected(station::problemOf(words, "call.trace_what"));
    }
    return *asked;
}

class TraceCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "trace",
            "Show every unit, place and period that parts were in: by lot, serial, reprocess load "
            "or field notice.",
            {shared::logbook},
            {{"--lot", "LOT", "All parts of that lot."},
             {"--serial", "SERIAL",
              "The part with that serial; what follows the number of the article is enough."},
             {"--load", "LOAD", "All parts that went through that reprocess load."},
             {"--notice", "KEY", "All parts, or units, that the field notice is about."},
             shared::at, shared::knownAt, shared::json, shared::trustLocks},
            "One of --lot, --serial, --load and --notice says what is traced. Without --at it is "
            "asked for now, by the clock of this computer. Ends with status 1 if nothing is found.",
            "airmuster-cli trace ward.logbook --lot 4471"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto way = wayOf(call, surroundings.words);
        if (!way) {
            return tl::unexpected(way.error());
        }
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto file = logbookOf(call);
        const auto standing =
            way->by == TraceBy::Serial
                ? station::standingForSerial(surroundings, file, *asked, way->key)
                : station::wholeStanding(surroundings, file, *asked);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto trace = station::trace(surroundings, *standing, *way);
        if (!trace) {
            return tl::unexpected(trace.error());
        }
        return Answer{trace->found.isEmpty() ? ExitStatus::AnswerIsNo : ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(*trace))
                                         : toText(*trace, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeTraceCommand() {
    return std::make_unique<TraceCommand>();
}

}  // namespace cli
