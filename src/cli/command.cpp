// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the commands share in reading their calls; see command.h.
#include "cli/command.h"

#include "logbook/tidy.h"

namespace cli {

station::LogbookFile logbookOf(const Call& call) {
    return {call.wanted(shared::logbook.name), call.has(shared::trustLocks.name)};
}

station::Result<std::optional<logbook::Instant>> instantOf(
    const Call& call, std::string_view option, const station::Surroundings& surroundings,
    station::Tense tense) {
    const auto text = call.value(option);
    if (!text) {
        return std::nullopt;
    }
    const auto given = station::parseGivenTime(
        logbook::tidyName(*text).value_or(*text), surroundings.words);
    if (!given) {
        return tl::unexpected(
            station::problemOf(surroundings.words, "time_given.bad", {{"text", *text}}));
    }
    if (const auto* instant = std::get_if<logbook::Instant>(&*given)) {
        return *instant;
    }
    const auto zone = station::zoneInForce(surroundings, logbookOf(call));
    if (!zone) {
        return tl::unexpected(zone.error());
    }
    const auto instant =
        station::instantAt(surroundings.words, **zone, std::get<station::WallTime>(*given),
                           surroundings.clock.now(), tense);
    if (!instant) {
        return tl::unexpected(instant.error());
    }
    return *instant;
}

station::Result<std::optional<logbook::Instant>> utcInstantOf(const Call& call,
                                                              std::string_view option,
                                                              const words::Words& words) {
    const auto text = call.value(option);
    if (!text) {
        return std::nullopt;
    }
    const auto instant = logbook::parseInstant(*text);
    if (!instant) {
        return tl::unexpected(station::problemOf(words, "trouble.bad_instant", {{"text", *text}}));
    }
    return instant;
}

}  // namespace cli
