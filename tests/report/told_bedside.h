// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Bedside desk's model of a unit of a scene, and its rows, for tests of them.
#pragma once

#include "report/bedside.h"
#include "report/pause_parts.h"
#include "report/small_log.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace sample {

using report::RowPart;

inline const words::Words& english() {
    return *words::Words::builtIn();
}

inline report::Bedside bedsideOf(const sample::Scene& scene,
                                 const std::string& device = "KB-0142",
                                 report::Provenance provenance = {}) {
    report::BedsideQuestion question{{device, scene.asked, scene.group}};
    question.takenOut =
        report::takenOutUnused(scene.log, scene.state, {scene.asked, rules::unlimited}, device);
    question.takenOut.merge(report::takenOutInPause(
        scene.log, scene.state, {scene.asked, rules::unlimited}, device));
    auto made = report::makeBedside(scene.state, scene.lookup(), question, std::move(provenance),
                                    english());
    REQUIRE(made);
    return std::move(*made);
}

inline std::vector<std::string> keysOf(const report::Bedside& bedside, RowPart part) {
    std::vector<std::string> keys;
    for (const auto& row : bedside.rows)
        if (row.part == part) keys.push_back(row.key);
    return keys;
}

inline const report::BedsideRow& rowOf(const report::Bedside& bedside, const std::string& key) {
    const auto found = std::find_if(bedside.rows.begin(), bedside.rows.end(),
                                    [&](const auto& row) { return row.key == key; });
    INFO("row " << key);
    REQUIRE(found != bedside.rows.end());
    return *found;
}

using Keys = std::vector<std::string>;

}  // namespace sample
