// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster as a page to read aloud: by when so many units are ready, which, and each person's
// list; as a model, as text and as JSON.
#pragma once

#include "report/board.h"
#include "report/outline.h"
#include "rules/muster.h"

#include <string>

namespace report {

struct Muster {
    Board board;  // of all units, asked for the group
    rules::Muster answer;

    // For sentences about one unit. The muster must outlive it.
    [[nodiscard]] words::Context context(const words::Words& words,
                                         const std::string& device) const;
    [[nodiscard]] const BoardRow& row(const std::string& device) const;
};

struct MusterQuestion {
    Instant asked{};
    std::string group;
    std::size_t units = 1;
    std::size_t people = 1;
};

// Units that are in doubt are never counted.
[[nodiscard]] Muster makeMuster(rules::State state, words::RecordLookup lookup,
                                const MusterQuestion& question, Provenance provenance);

[[nodiscard]] Outline outlineOf(const Muster& muster, const words::Words& words);
[[nodiscard]] std::string toText(const Muster& muster, const words::Words& words,
                                 const TextOptions& options = {});

[[nodiscard]] logbook::json::Value toJson(const Muster& muster);

}  // namespace report
