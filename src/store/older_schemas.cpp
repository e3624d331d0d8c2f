// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The schemas that were released before this one; see schema.h. With the first change of the file
// its 001.sql stands here, with the statements that bring it to 002.sql.
#include "store/schema.h"

namespace store {

std::span<const OlderSchema> olderSchemas() {
    return {};
}

}  // namespace store
