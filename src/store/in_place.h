// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands where a backup is to go: of which stations, and how many of its entries the backup
// does not have, as far as can be told of a file that may be damaged or of another version. For
// this folder only.
#pragma once

#include "store/heads.h"
#include "store/trouble.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <tl/expected.hpp>

namespace store {

// A file that is no logbook of this version. A newer or an older program may write into it.
[[nodiscard]] bool isUnknown(Trouble::Code code);
// That, or one that the disk does not give.
[[nodiscard]] bool isUnknown(const Trouble& trouble);

struct InPlace {
    Heads heads{};         // where it is not whole of each station the last number known
    bool isWhole = false;  // all of it can be read, and the last verify has found nothing
    bool isOther = false;  // it is of another log than the backup
    // How many entries it has, or had, that the backup does not have, those included that go by the
    // same name there; nothing where nothing is known.
    std::optional<std::int64_t> later{};

    // Takes in what has come in since it was looked at, by its heads as they are now.
    void goOnTo(const Heads& now);
};

// A copy of it, and its heads.
struct Proved {
    std::filesystem::path path;
    const Heads& heads;
};

// Trouble where it is a logbook of this version, and yet cannot be read.
[[nodiscard]] tl::expected<InPlace, Trouble> lookAt(const std::filesystem::path& path,
                                                    bool trustLocks, const Proved& backup);

}  // namespace store
