// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The options by which the command line fills the body of an entry: for each kind, which option
// goes into which field, as data.
#pragma once

#include "cli/call.h"
#include "cli/description.h"
#include "logbook/json.h"
#include "station/problem.h"

#include <string_view>
#include <vector>

namespace cli {

[[nodiscard]] const std::vector<Option>& bodyOptions();

// The kinds that the command can write, "fit, remove, …".
[[nodiscard]] std::string loggableKinds();

// The body of an entry of that kind: what stands after --json, and over it what the options say.
[[nodiscard]] station::Result<logbook::json::Object> bodyOf(const Call& call,
                                                            std::string_view kind,
                                                            const words::Words& words);

}  // namespace cli
