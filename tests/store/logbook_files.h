// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records and logbook files for the tests of the store. Knows nothing of how the store works but
// the schema of the file, which it also gets at behind the store's back.
#pragma once

#include "logbook/record.h"
#include "store/logbook.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <filesystem>
#include <iosfwd>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace store::test {

// A folder of its own under the system's, removed with all in it.
class TemporaryFolder {
public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] std::filesystem::path operator/(std::string_view name) const {
        return m_path / name;
    }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    // Names of what lies in it, sorted.
    [[nodiscard]] std::vector<std::string> names() const;

private:
    std::filesystem::path m_path;
};

inline constexpr std::string_view startText = "2026-03-02T14:00:00Z";
[[nodiscard]] logbook::Instant minute(std::int64_t minutes);  // after startText

// Fails the test if the line is no record.
[[nodiscard]] logbook::Record recordOf(std::string_view line);

// A note on KB-0001, made and entered at that minute.
[[nodiscard]] logbook::Record noteAt(std::string_view station, std::int64_t seq,
                                     std::int64_t atMinute, std::string_view text = "seen");
// The same at minute `seq`.
[[nodiscard]] logbook::Record note(std::string_view station, std::int64_t seq,
                                   std::string_view text = "seen");
// Notes 1 to `last` of the station.
[[nodiscard]] std::vector<logbook::Record> notes(std::string_view station, std::int64_t last);
// As they are brought in. The records must outlive them.
[[nodiscard]] std::vector<LentRecord> lent(const std::vector<logbook::Record>& records);
// A department-wide record: kind "adopt" or "person".
[[nodiscard]] logbook::Record founding(std::string_view kind, std::string_view station,
                                       std::int64_t seq, std::int64_t atMinute);

[[nodiscard]] Writing writing(std::int64_t atMinute = 1000, std::string person = "mt");

// Each fails the test if the store refuses.
[[nodiscard]] Logbook create(const std::filesystem::path& path);
[[nodiscard]] Logbook open(const std::filesystem::path& path,
                           OpenOptions::Access access = OpenOptions::Access::Write);
AppendResult append(Logbook& logbook, const std::vector<logbook::Record>& records);
[[nodiscard]] std::vector<std::string> contents(const Logbook& logbook);
[[nodiscard]] Heads headsOf(const Logbook& logbook);
// Where nothing stood the backup holds the same records as the logbook, whose people and settings
// it lacks. Neither has a record of icu-9.
void checkRestores(const std::filesystem::path& backup, const Logbook& logbook);

// The file itself, past the store: no triggers if `unguarded`.
[[nodiscard]] std::unique_ptr<SQLite::Database> behindTheBack(const std::filesystem::path& path,
                                                              bool unguarded = false);
// The same with the triggers out of the way, which are put back, so that the records alone tell.
void tamper(const std::filesystem::path& path, const std::string& sql);
void dropGuards(SQLite::Database& database);
[[nodiscard]] std::string bytesOf(const std::filesystem::path& path);
void writeBytes(const std::filesystem::path& path, std::string_view bytes);

}  // namespace store::test

namespace store {
// For messages of failed tests.
std::ostream& operator<<(std::ostream& out, Trouble::Code code);
std::ostream& operator<<(std::ostream& out, const Break& found);
}  // namespace store

namespace logbook {
std::ostream& operator<<(std::ostream& out, const RecordName& name);
}  // namespace logbook
