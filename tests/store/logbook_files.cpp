// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records and logbook files for the tests of the store.
#include "logbook_files.h"

#include "logbook/json.h"
#include "logbook/record_reader.h"
#include "store/restore.h"

#include <SQLiteCpp/Statement.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <ostream>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace store::test {

namespace json = logbook::json;

TemporaryFolder::TemporaryFolder() {
    std::string pattern = std::filesystem::temp_directory_path() / "airmuster-store-XXXXXX";
    if (::mkdtemp(pattern.data()) == nullptr) {
        throw std::runtime_error("no temporary folder");
    }
    m_path = pattern;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::permissions(m_path, std::filesystem::perms::owner_all, ignored);
    std::filesystem::remove_all(m_path, ignored);
}

std::vector<std::string> TemporaryFolder::names() const {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(m_path)) {
        names.push_back(entry.path().filename());
    }
    std::sort(names.begin(), names.end());
    return names;
}

logbook::Instant minute(std::int64_t minutes) {
    return *logbook::parseInstant(startText) + logbook::Duration{minutes * 60'000};
}

logbook::Record recordOf(std::string_view line) {
    auto record = logbook::readRecord(line);
    INFO(line);
    if (!record) {
        FAIL(record.error().front().field << ": " << record.error().front().detail);
    }
    return *std::move(record);
}

logbook::Record noteAt(std::string_view station, std::int64_t seq, std::int64_t atMinute,
                       std::string_view text) {
    const std::string instant = logbook::toText(minute(atMinute));
    return recordOf(json::canonical(json::Object{{"station", station},
                                                 {"seq", static_cast<double>(seq)},
                                                 {"at", instant},
                                                 {"entered", instant},
                                                 {"by", "mt"},
                                                 {"device", "KB-0001"},
                                                 {"kind", "note"},
                                                 {"body", json::Object{{"text", text}}}}));
}

logbook::Record note(std::string_view station, std::int64_t seq, std::string_view text) {
    return noteAt(station, seq, seq, text);
}

std::vector<logbook::Record> notes(std::string_view station, std::int64_t last) {
    std::vector<logbook::Record> records;
    for (std::int64_t seq = 1; seq <= last; ++seq) {
        records.push_back(note(station, seq));
    }
    return records;
}

std::vector<LentRecord> lent(const std::vector<logbook::Record>& records) {
    std::vector<LentRecord> lent;
    for (const auto& record : records) {
        lent.push_back(lend(record));
    }
    return lent;
}

logbook::Record founding(std::string_view kind, std::string_view station, std::int64_t seq,
                         std::int64_t atMinute) {
    const std::string instant = logbook::toText(minute(atMinute));
    const json::Object body =
        kind == "adopt"
            ? json::Object{{"edition", "1"}, {"text", "edition = \"1\""}}
            : json::Object{{"person", "mt"}, {"name", "Rowan"}, {"roles", json::Array{"chief"}}};
    return recordOf(json::canonical(json::Object{{"station", station},
                                                 {"seq", static_cast<double>(seq)},
                                                 {"at", instant},
                                                 {"entered", instant},
                                                 {"by", "mt"},
                                                 {"device", ""},
                                                 {"kind", kind},
                                                 {"body", body}}));
}

Writing writing(std::int64_t atMinute, std::string person) {
    return {std::move(person), minute(atMinute)};
}

Logbook create(const std::filesystem::path& path) {
    return open(path, OpenOptions::Access::Create);
}

Logbook open(const std::filesystem::path& path, OpenOptions::Access access) {
    auto logbook = Logbook::open(path, {access});
    if (!logbook) {
        FAIL(name(logbook.error().code) << " " << logbook.error().text);
    }
    return *std::move(logbook);
}

AppendResult append(Logbook& logbook, const std::vector<logbook::Record>& records) {
    auto result = logbook.append(records, writing());
    if (!result) {
        FAIL(name(result.error().code) << " " << result.error().text);
    }
    return *std::move(result);
}

std::vector<std::string> contents(const Logbook& logbook) {
    std::vector<std::string> contents;
    const auto read = logbook.forEachRow({}, [&](const Row& row) {
        contents.push_back(row.content);
        return true;
    });
    REQUIRE(read);
    return contents;
}

Heads headsOf(const Logbook& logbook) {
    const auto heads = logbook.heads();
    REQUIRE(heads);
    return store::headsOf(*heads);
}

void checkRestores(const std::filesystem::path& backup, const Logbook& logbook) {
    const TemporaryFolder folder;
    const auto result = restore(backup, {folder / "log", "icu-9"}, writing());
    REQUIRE(result);
    CHECK(folder.names() == std::vector<std::string>{"log"});
    Logbook restored = open(folder / "log");
    CHECK(contents(restored) == contents(logbook));
    CHECK(headsOf(restored) == headsOf(logbook));
    CHECK(result->heads == headsOf(logbook));
    CHECK(restored.settings().value().empty());
    CHECK(restored.station().value() == std::optional<std::string>("icu-9"));
    append(restored, {note("icu-9", 1)});
    CHECK(restored.verify()->ok());
}

void dropGuards(SQLite::Database& database) {
    database.exec("DROP TRIGGER records_are_never_updated;"
                  "DROP TRIGGER records_are_never_deleted;"
                  "DROP TRIGGER records_are_only_appended");
}

std::unique_ptr<SQLite::Database> behindTheBack(const std::filesystem::path& path,
                                                bool unguarded) {
    auto database =
        std::make_unique<SQLite::Database>(path.native(), SQLite::OPEN_READWRITE, 1000);
    database->exec("PRAGMA synchronous = OFF");
    if (unguarded) {
        dropGuards(*database);
    }
    return database;
}

void tamper(const std::filesystem::path& path, const std::string& sql) {
    const auto database = behindTheBack(path);
    std::string guards;
    {
        SQLite::Statement triggers(*database,
                                   "SELECT sql FROM sqlite_schema WHERE type = 'trigger'");
        while (triggers.executeStep()) {
            guards += triggers.getColumn(0).getString() + ";";
        }
    }
    database->exec("BEGIN IMMEDIATE");
    dropGuards(*database);
    database->exec(sql);
    database->exec(guards + "COMMIT");
}

std::string bytesOf(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    return std::move(bytes).str();
}

void writeBytes(const std::filesystem::path& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

}  // namespace store::test

namespace store {

std::ostream& operator<<(std::ostream& out, Trouble::Code code) {
    return out << name(code);
}

std::ostream& operator<<(std::ostream& out, const Break& found) {
    return out << found.record << " " << name(found.reason) << " " << found.detail;
}

}  // namespace store

namespace logbook {

std::ostream& operator<<(std::ostream& out, const RecordName& name) {
    return out << toText(name);
}

}  // namespace logbook
