// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether somebody may write what they are about to, asked before they are asked for a PIN. Writes
// nothing; it is asked again when the entries are kept.
#pragma once

#include "station/entry.h"
#include "station/standing.h"

#include <optional>
#include <string>
#include <vector>

namespace station {

// Why not, by the persons and the edition of the standing, as it would be refused; none if they
// may. Of a strike it depends on its target: it is not asked here.
[[nodiscard]] std::optional<Problem> lackOfPermission(const Surroundings& surroundings,
                                                      const Standing& standing,
                                                      const std::vector<Entry>& entries,
                                                      const std::string& person);

}  // namespace station
