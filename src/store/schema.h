// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The schema of the logbook file, as the build takes it from data/schema. For this folder only.
#pragma once

#include <span>

namespace store {

// The bytes "Airm": tells a logbook from other SQLite files.
inline constexpr int applicationId = 0x4169726D;

// Statements that make an empty database a logbook of schemaVersion.
extern const char* const schemaText;

// A schema that was released before: how a file of it is made, and what brings one to the next.
struct OlderSchema {
    int version;
    const char* text;
    const char* step;
};
// The oldest first, each one below the next; none has been released before schemaVersion yet.
[[nodiscard]] std::span<const OlderSchema> olderSchemas();
// As schemaText for that version, which is schemaVersion or an older one.
[[nodiscard]] const char* schemaTextOf(int version);

// Raise it with every change of data/schema/derived.sql.
inline constexpr int derivedRevision = 2;

// Statements that make the derived tables, which belong to no schema.
extern const char* const derivedText;

}  // namespace store
