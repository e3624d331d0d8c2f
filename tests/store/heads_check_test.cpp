// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Against earlier heads: a tail cut off and a chain written anew, with everything in the file that
// could tell of it put right by whoever did it.
#include "store/heads_check.h"

#include "logbook_files.h"

#include <SQLiteCpp/Statement.h>
#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Reason = Break::Reason;

namespace {

constexpr std::int64_t lastSeq = 8;

std::string bytesOfWard() {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", lastSeq));
    }
    return bytesOf(folder / "log");
}

// As if the records from `seq` on had never been.
void cutTail(const std::filesystem::path& path, std::int64_t seq) {
    const std::string number = std::to_string(seq);
    tamper(path, "DELETE FROM records WHERE seq >= " + number +
                     "; DELETE FROM local_heads;"
                     "INSERT INTO local_heads SELECT station, max(seq), hash, max(entered_ms),"
                     " arrived_ms FROM records GROUP BY station");
}

// As if the record had always been another.
void forge(const std::filesystem::path& path, std::int64_t forged) {
    std::string sql;
    Hash hash{};
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        const std::string content = note("icu-1", seq, seq == forged ? "forged" : "seen").content;
        hash = chainHash(hash, content);
        sql += "UPDATE records SET content = '" + content + "', hash = x'" + toHex(hash) +
               "' WHERE seq = " + std::to_string(seq) + ";";
    }
    tamper(path, sql + "UPDATE local_heads SET hash = x'" + toHex(hash) + "'");
}

}  // namespace

TEST_CASE("A tail that was cut off without a trace is missed by earlier heads", "[exhaustive]") {
    const std::string before = bytesOfWard();
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        INFO(seq);
        const TemporaryFolder folder;
        writeBytes(folder / "log", before);
        const Heads earlier = headsOf(open(folder / "log"));
        cutTail(folder / "log", seq);
        const Logbook logbook = open(folder / "log");
        CHECK(logbook.verify()->ok());  // which is why the heads are needed
        CHECK(*breaksAgainst(logbook, earlier) ==
              std::vector<Break>{{{"icu-1", seq}, Reason::TailLost}});
    }
}

TEST_CASE("A file that was chained anew does not have the earlier heads", "[exhaustive]") {
    const std::string before = bytesOfWard();
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        INFO(seq);
        const TemporaryFolder folder;
        writeBytes(folder / "log", before);
        const Heads earlier = headsOf(open(folder / "log"));
        forge(folder / "log", seq);
        const Logbook logbook = open(folder / "log");
        CHECK(logbook.verify()->ok());
        CHECK(*breaksAgainst(logbook, earlier) ==
              std::vector<Break>{{{"icu-1", lastSeq}, Reason::NotAsNoted}});
    }
}

TEST_CASE("A logbook that went on has its earlier heads", "[unit]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", bytesOfWard());
    Logbook logbook = open(folder / "log");
    const Heads earlier = headsOf(logbook);
    append(logbook, notes("icu-1", lastSeq + 3));
    append(logbook, notes("icu-2", 2));
    CHECK(breaksAgainst(logbook, earlier)->empty());
    CHECK(breaksAgainst(logbook, {})->empty());
    CHECK(*breaksAgainst(logbook, {{"icu-9", {4, {}}}}) ==
          std::vector<Break>{{{"icu-9", 1}, Reason::TailLost}});
}

TEST_CASE("A head that cannot be read is not told as another", "[fault]") {
    const TemporaryFolder folder;
    Heads earlier;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-2", 3));
        append(logbook, {note("icu-1", 1, std::string(9000, 'x'))});
        earlier = headsOf(logbook);
    }
    // The pages on which it goes on, of which the first leads to the other: none does now.
    auto bytes = bytesOf(folder / "log");
    constexpr std::size_t pageSize = 4096;
    int gone = 0;
    for (std::size_t page = 0; page < bytes.size(); page += pageSize) {
        if (bytes.compare(page + 4, 2000, std::string(2000, 'x')) == 0) {
            bytes.replace(page, 4, 4, '\0');
            ++gone;
        }
    }
    REQUIRE(gone == 2);
    writeBytes(folder / "log", bytes);
    const Logbook logbook = open(folder / "log", OpenOptions::Access::Read);
    CHECK(*breaksAgainst(logbook, earlier) ==
          std::vector<Break>{{{"icu-1", 1}, Reason::Unreadable}});
}

TEST_CASE("A tail is missed by the last verify where the noted heads are damaged", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 5));
        REQUIRE(logbook.noteVerified(*logbook.verify(), writing()));
    }
    tamper(folder / "log", "DELETE FROM records WHERE seq > 3");
    const auto page = behindTheBack(folder / "log")
                          ->execAndGet("SELECT rootpage FROM sqlite_schema"
                                       " WHERE name = 'local_heads'")
                          .getInt();
    auto bytes = bytesOf(folder / "log");
    bytes.replace(static_cast<std::size_t>(page - 1) * 4096, 4096, 4096, '\0');
    writeBytes(folder / "log", bytes);
    const auto report = open(folder / "log", OpenOptions::Access::Read).verify();
    REQUIRE(report);
    CHECK_FALSE(report->integrity.empty());
    CHECK(report->breaks == std::vector<Break>{{{"icu-1", 4}, Reason::TailLost}});
}
