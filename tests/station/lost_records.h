// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records that are gone, or to which an index does not lead, as after damage, while the schema says
// nothing of it.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <filesystem>
#include <string>

namespace support {

// `lost`: a condition on the records to which it leads no more.
inline void loseFromIndex(const std::filesystem::path& logbook, const std::string& index,
                          const std::string& lost) {
    SQLite::Database file(logbook.string(), SQLite::OPEN_READWRITE);
    const std::string text =
        file.execAndGet("SELECT sql FROM sqlite_schema WHERE name = '" + index + "'").getString();
    const bool isPartial = text.find(" WHERE ") != std::string::npos;
    file.exec("DROP INDEX " + index + ";" + text + (isPartial ? " AND NOT (" : " WHERE NOT (") +
              lost + "); PRAGMA writable_schema = ON");
    SQLite::Statement asBefore(file, "UPDATE sqlite_schema SET sql = ? WHERE name = ?");
    asBefore.bind(1, text);
    asBefore.bind(2, index);
    asBefore.exec();
}

// `taken`: a condition on the records that go.
inline void takeOut(const std::filesystem::path& logbook, const std::string& taken) {
    SQLite::Database file(logbook.string(), SQLite::OPEN_READWRITE);
    const auto trigger = file.execAndGet("SELECT sql FROM sqlite_schema"
                                         " WHERE name = 'records_are_never_deleted'")
                             .getString();
    file.exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records WHERE " + taken);
    file.exec(trigger);
}

}  // namespace support
