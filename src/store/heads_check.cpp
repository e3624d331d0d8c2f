// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Earlier heads against what is here; see heads_check.h.
#include "store/heads_check.h"

namespace store {

namespace {

// The number after which nothing of the station is here.
tl::expected<std::int64_t, Trouble> lastOf(const Logbook& logbook, const std::string& station,
                                           std::int64_t below) {
    std::int64_t here = 0;
    for (std::int64_t gone = below; gone - here > 1;) {
        const std::int64_t middle = here + (gone - here) / 2;
        const auto row = logbook.findRecord({station, middle});
        if (!row && row.error().code != Trouble::Code::NoRecord) {
            return tl::unexpected<Trouble>(row.error());
        }
        (row ? here : gone) = middle;
    }
    return here;
}

}  // namespace

tl::expected<std::vector<Break>, Trouble> breaksAgainst(const Logbook& logbook,
                                                        const Heads& earlier) {
    std::vector<Break> breaks;
    const auto held = logbook.holds(earlier);
    if (!held || *held) {
        return held ? tl::expected<std::vector<Break>, Trouble>(breaks)
                    : tl::unexpected<Trouble>(held.error());
    }
    for (const auto& [station, head] : earlier) {
        const auto row = logbook.findRecord({station, head.seq});
        if (row && row->content.empty()) {
            breaks.push_back({{station, head.seq}, Break::Reason::Unreadable});
        } else if (row && row->hash != head.hash) {
            breaks.push_back({{station, head.seq}, Break::Reason::NotAsNoted});
        } else if (!row) {
            if (row.error().code != Trouble::Code::NoRecord) {
                return tl::unexpected<Trouble>(row.error());
            }
            const auto last = lastOf(logbook, station, head.seq);
            if (!last) {
                return tl::unexpected<Trouble>(last.error());
            }
            breaks.push_back({{station, *last + 1}, Break::Reason::TailLost});
        }
    }
    return breaks;
}

}  // namespace store
