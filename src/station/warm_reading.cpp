// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The warm path; see warm_reading.h.
#include "station/warm_reading.h"

#include <algorithm>
#include <utility>

namespace station {

using logbook::Instant;

Result<LogbookFacts> WarmLog::catchUp() {
    for (;;) {
        auto facts = readFacts(m_surroundings, *m_logbook);
        if (!facts) {
            return facts;
        }
        if (auto current = m_log.catchUp(); !current) {
            return tl::unexpected(std::move(current.error()));
        }
        if (facts->arrival == m_log.arrival()) {
            return facts;
        }
    }
}

// Where something is wrong with the log, or nothing can be judged, the whole of it must be looked
// at to say what.
Result<bool> WarmLog::isEnough(const LogbookFacts& facts, Instant at, Otherwise otherwise) {
    const bool isSound = !facts.verification || facts.verification->ok;
    if (!isSound || !facts.gone.empty() || facts.isDamaged) {
        return false;
    }
    if (!m_log.groundwork().firstEdition() ||
        !requireEdition(m_surroundings, m_log.groundwork(), at, rules::unlimited)) {
        return false;
    }
    const auto begins = m_log.hasBeginning(at);
    if (!begins) {
        return tl::unexpected(begins.error());
    }
    return m_log.unread().empty() && (*begins || otherwise == Otherwise::Fold);
}

rules::State WarmLog::stateOf(const Folded& folded) {
    if (m_device) {
        return folded.state->excerpt({*m_device});
    }
    return m_answers == Answers::One ? m_log.take(folded) : *folded.state;
}

Result<words::RecordLookup> WarmLog::lookup(const LogbookFile& file) {
    if (!m_lookedUp) {
        auto beside = openLogbook(m_surroundings, file, Access::Read);
        if (!beside) {
            return tl::unexpected(std::move(beside.error()));
        }
        m_lookedUp = std::make_shared<LookedUpLog>(
            std::make_shared<const store::Logbook>(std::move(*beside)));
    }
    return lookupIn(m_lookedUp);
}

Result<std::optional<Standing>> WarmLog::standing(const LogbookFile& file, const Asked& asked,
                                                  Otherwise otherwise) {
    if (asked.knownAt) {
        return std::optional<Standing>();
    }
    auto facts = catchUp();
    if (!facts) {
        return tl::unexpected(std::move(facts.error()));
    }
    Standing standing;
    standing.facts = std::move(*facts);
    standing.knownAt = rules::unlimited;
    standing.group = asked.group;
    const auto now = asked.at ? Result<Instant>(*asked.at)
                              : nowFor(m_surroundings, *m_logbook, standing.facts,
                                       standing.knownAt);
    if (!now) {
        return tl::unexpected(now.error());
    }
    standing.at = *now;
    for (const auto& [station, head] : standing.facts.heads) {
        standing.heard.push_back({station, head.entered});
        // One of the clocks is wrong: which entries are later is to be told.
        if (!asked.at && head.entered > standing.at) {
            return std::optional<Standing>();
        }
    }
    const auto enough = isEnough(standing.facts, standing.at, otherwise);
    if (!enough || !*enough) {
        return enough ? Result<std::optional<Standing>>(std::nullopt)
                      : tl::unexpected(enough.error());
    }
    auto folded = m_log.stateAt(standing.at);
    if (!folded) {
        return tl::unexpected(std::move(folded.error()));
    }
    if (!folded->unread.empty() || m_logbook->metDamage()) {
        return std::optional<Standing>();
    }
    standing.state = stateOf(*folded);
    standing.folded = folded->folded;
    auto lookedUp = lookup(file);
    if (!lookedUp) {
        return tl::unexpected(std::move(lookedUp.error()));
    }
    standing.lookup = *std::move(lookedUp);
    return standing;
}

}  // namespace station
