// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading what was not folded; see held_log.h.
#include "station/held_log.h"

#include "station/read_ahead.h"
#include "station/upkeep.h"

#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace station {

namespace {

constexpr std::size_t recordsAtOnce = 1000;

// Told as verify tells it.
Problem brokenChain(const Surroundings& surroundings, const store::Logbook& logbook,
                    const std::vector<store::Break>& breaks) {
    store::Trouble trouble;
    trouble.code = store::Trouble::Code::ChainBroken;
    trouble.path = logbook.path();
    trouble.records = {breaks.front().record};
    auto problem = problemOf(surroundings.words, trouble);
    store::VerifyReport found;
    found.breaks = breaks;
    problem.details = findingsOf(surroundings.words, found);
    return problem;
}

// Holds those before that place; false once it is reached.
Result<bool> hold(const Surroundings& surroundings, std::span<const store::ReadRecord> rows,
                  const std::optional<store::Place>& before, store::HeldChain& chain) {
    for (const auto& each : rows) {
        if (before && !(each.place < *before)) {
            return false;
        }
        if (!each.whole) {
            return tl::unexpected(unreadable(surroundings, each.place.name));
        }
        chain.hold(each);
    }
    return true;
}

// Where there are many, another thread reads ahead.
Result<void> holdAll(const Surroundings& surroundings, const store::Logbook& logbook,
                     store::Selection selection, const std::optional<store::Place>& before,
                     store::HeldChain& chain) {
    const auto ended = [](const Result<bool>& held) {
        return held ? Result<void>() : tl::unexpected(held.error());
    };
    std::vector<store::ReadRecord> portion(recordsAtOnce);
    const auto count = logbook.readRecords(selection, portion);
    if (!count) {
        return tl::unexpected(problemOf(surroundings.words, count.error()));
    }
    auto held = hold(surroundings, std::span(portion).first(*count), before, chain);
    if (!held || !*held || *count < portion.size()) {
        return ended(held);
    }
    selection.after = portion.back().place;
    ReadAhead ahead(logbook, selection, recordsAtOnce);
    while (held && *held) {
        const auto rows = ahead.next();
        if (!rows) {
            return tl::unexpected(problemOf(surroundings.words, rows.error()));
        }
        if (rows->empty()) {
            break;
        }
        held = hold(surroundings, *rows, before, chain);
    }
    return ended(held);
}

}  // namespace

Result<void> holdTheRest(const Surroundings& surroundings, const store::Logbook& logbook,
                         const FoldedLog& log, store::HeldChain& chain) {
    const auto folded = chain.first();
    store::Selection selection{.arrivedUpTo = log.arrival(), .withHash = true};
    auto held = holdAll(surroundings, logbook, selection, folded, chain);
    if (held && folded) {
        selection.after = log.placeFolded();
        held = holdAll(surroundings, logbook, selection, {}, chain);
    }
    if (!held) {
        return held;
    }
    const auto breaks = chain.breaksUpTo(headsOf(log.heads()));
    return breaks.empty() ? Result<void>()
                          : tl::unexpected(brokenChain(surroundings, logbook, breaks));
}

}  // namespace station
