// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of a fleet list: which of its units can be enrolled, and why the others cannot.
#pragma once

#include "logbook/json.h"
#include "station/fleet_list.h"

#include <optional>
#include <string>
#include <string_view>

namespace cli {

// Everything that was found in the list; `heading` is the key of the sentence above its good units,
// with the gap `count`.
[[nodiscard]] std::string toText(const station::FleetPreview& preview, std::string_view logbook,
                                 std::string_view heading, const words::Words& words);

// `taken` is none where nothing was written.
[[nodiscard]] logbook::json::Value toJson(const station::FleetPreview& preview,
                                          const std::optional<station::FleetTaken>& taken);

}  // namespace cli
