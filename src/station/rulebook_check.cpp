// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking a rulebook over; see rulebook_check.h.
#include "station/rulebook_check.h"

namespace station {

Result<rules::RulebookReading> checkRulebook(const Surroundings& surroundings,
                                             const std::filesystem::path& path) {
    const auto text = system::readFile(path);
    if (!text) {
        return tl::unexpected(problemOf(surroundings.words, text.error(), path));
    }
    return rules::readRulebook(*text, surroundings.zones);
}

}  // namespace station
