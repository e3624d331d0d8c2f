// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking a rulebook over before it is adopted.
#pragma once

#include "rules/rulebook_reader.h"
#include "station/problem.h"
#include "station/surroundings.h"

#include <filesystem>

namespace station {

[[nodiscard]] Result<rules::RulebookReading> checkRulebook(const Surroundings& surroundings,
                                                           const std::filesystem::path& path);

}  // namespace station
