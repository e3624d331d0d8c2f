// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences about kept states, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
snapshots: rebuilt(count entries) nothing_kept agree(count) wrong(record) wrong_stays(record)
snapshots.damaged: says(path) safe do(path)
snapshots.no_folder: says safe do
snapshots.no_key: says(path) safe do(path)
)";

std::string_view snapshotKeys() {
    return table;
}

}  // namespace words
