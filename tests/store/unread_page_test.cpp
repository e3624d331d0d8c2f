// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages that the disk does not give, each in turn: what it gives is read, what it does not is
// named, and that it is the disk is told; an error that passes costs nothing.
#include "bad_sectors.h"
#include "logbook_files.h"
#include "store/restore.h"
#include "store/salvage.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cerrno>
#include <functional>
#include <string>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

constexpr std::size_t pageSize = 4096;
constexpr int ofOne = 60;
constexpr int ofOther = 20;

struct Kept {
    std::string bytes, backup;
    std::vector<logbook::Record> records;
};

// One is larger than a page.
const Kept& kept() {
    static const Kept made = [] {
        Kept kept;
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            REQUIRE(logbook.setStation("icu-1", writing()));
            auto records = notes("icu-1", ofOne);
            records[29] = note("icu-1", 30, std::string(9000, 'x'));
            append(logbook, records);
            append(logbook, notes("icu-2", ofOther));
            append(logbook, {founding("adopt", "er-1", 1, 200)});
            REQUIRE(logbook.backup(folder / "copy"));
        }
        kept.bytes = bytesOf(folder / "log");
        kept.backup = bytesOf(folder / "copy");
        kept.records = open(folder / "log", Access::Read).records()->records;
        return kept;
    }();
    return made;
}

std::size_t all() {
    return kept().records.size();
}

bool isAsWritten(const logbook::Record& record) {
    const auto& records = kept().records;
    const auto before = std::ranges::find(records, record.name, &logbook::Record::name);
    return before != records.end() && before->content == record.content;
}

// What the system says of the place.
struct Told {
    int error = 0;
    std::string words;
};

// The database takes one of these for a damaged page, and tells the other.
std::vector<Told> errors() {
    return {{EIO, "Input/output error"}, {EREMOTEIO, "Remote I/O error"}};
}

// Calls it with each page, and with each of the errors, of a file that is whole but for that.
void forEachPage(const std::function<void(const std::filesystem::path&, const BadPlace&)>& run) {
    for (const auto& told : errors()) {
        for (std::size_t page = 0; page < kept().bytes.size() / pageSize; ++page) {
            INFO("page " << page + 1 << ": " << told.words);
            const TemporaryFolder folder;
            writeBytes(folder / "log", kept().bytes);
            writeBytes(folder / "copy", kept().backup);
            run(folder / "log", {page * pageSize, pageSize, told.error});
        }
    }
}

bool isUnread(const Trouble& trouble) {
    return trouble.code == Code::Damaged && trouble.isUnread &&
           std::ranges::any_of(errors(), [&](const Told& told) {
               return trouble.text == told.words;
           });
}

// Everything confirmed is there and whole, once the disk gives it again.
void checkNothingLost(const std::filesystem::path& path, std::size_t count) {
    const auto logbook = open(path, Access::Read);
    CHECK(logbook.verify()->ok());
    CHECK(logbook.count() == static_cast<std::int64_t>(count));
}

// Also where it is restored.
void checkIsBackup(const std::filesystem::path& backup) {
    checkNothingLost(backup, all());
    const TemporaryFolder other;
    REQUIRE(restore(backup, {other / "log", "icu-9"}, writing(0)));
    checkNothingLost(other / "log", all());
}

void checkVerified(const Logbook& logbook, const Records& read) {
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK_FALSE(report->ok());
    CHECK(report->diskFailed);
    for (const auto& lost : read.inDoubt) {
        CHECK(std::ranges::any_of(report->breaks, [&](const Break& found) {
            return found.record.station == lost.station && found.record.seq <= lost.seq &&
                   found.reason == Break::Reason::Unreadable;
        }));
    }
}

}  // namespace

TEST_CASE("A page that the disk does not give costs what stands on it, and no other", "[fault]") {
    int refused = 0;
    int costly = 0;
    forEachPage([&](const std::filesystem::path& path, const BadPlace& place) {
        const BadSectors bad(path, place);
        const auto opened = Logbook::open(path, {Access::Read});
        if (!opened) {
            // Without its first page or its schema no file opens.
            CHECK(isUnread(opened.error()));
            ++refused;
            return;
        }
        const auto& logbook = *opened;
        const auto read = logbook.records();
        REQUIRE(read);
        CHECK(std::ranges::all_of(read->records, isAsWritten));
        CHECK(read->records.size() + read->inDoubt.size() == all());
        CHECK(logbook.lastArrival() == static_cast<std::int64_t>(all()));
        CHECK(logbook.heads());
        CHECK(logbook.settings());
        CHECK(logbook.station());
        CHECK(logbook.lastVerification());
        for (const auto& record : kept().records) {
            const auto row = logbook.findRecord(record.name);
            REQUIRE(row);
            CHECK((row->content == record.content || row->content.empty()));
        }
        checkVerified(logbook, *read);
        CHECK(logbook.metRefusal() == logbook.metDamage());
        if (!read->inDoubt.empty()) {
            ++costly;
            CHECK(logbook.metRefusal());
        }
    });
    CHECK(refused == 2 * 2);
    CHECK(costly > 2 * 3);
}

TEST_CASE("What stands on the other pages is got out, backed up or told", "[fault]") {
    int made = 0;
    int unread = 0;
    forEachPage([&](const std::filesystem::path& path, const BadPlace& place) {
        const BadSectors bad(path, place);
        const auto folder = path.parent_path();
        const auto salvaged = salvage(path, folder / "new", minute(2000));
        REQUIRE(salvaged);
        REQUIRE(salvaged->records > 0);
        CHECK(salvaged->unreadPages == (place.from == 0 ? 0 : 1));
        const auto read = open(folder / "new", Access::Read).records();
        REQUIRE(read);
        CHECK(std::ranges::all_of(read->records, isAsWritten));
        CHECK((read->records.size() == all() || !salvaged->unproven.empty()));
        const auto logbook = Logbook::open(path, {Access::Read});
        if (!logbook) {
            return;
        }
        const auto backup = logbook->backup(folder / "second");
        if (backup) {
            ++made;
            checkIsBackup(folder / "second");
        } else {
            ++unread;
            CHECK(isUnread(backup.error()));
            CHECK(backup.error().path == path);
        }
    });
    CHECK(made > 0);
    CHECK(unread > 2 * 3);
}

TEST_CASE("An entry is written beside pages that are given, and nothing is lost", "[fault]") {
    int written = 0;
    int refused = 0;
    forEachPage([&](const std::filesystem::path& path, const BadPlace& place) {
        bool isWritten = false;
        {
            const BadSectors bad(path, place);
            auto logbook = Logbook::open(path, {Access::Write});
            const auto added =
                logbook ? logbook->append(std::vector{note("icu-1", ofOne + 1)}, writing())
                        : tl::unexpected(logbook.error());
            isWritten = added.has_value();
            CHECK((added || isUnread(added.error())));
        }
        ++(isWritten ? written : refused);
        checkNothingLost(path, all() + (isWritten ? 1 : 0));
    });
    CHECK(written > 2 * 3);
    CHECK(refused > 2 * 3);
}

TEST_CASE("A backup is restored over a file that the disk does not give whole", "[fault]") {
    forEachPage([&](const std::filesystem::path& path, const BadPlace& place) {
        std::optional<std::filesystem::path> aside;
        {
            const BadSectors bad(path, place);
            const auto restored = restore(path.parent_path() / "copy", {path, "icu-9"},
                                          writing(0));
            INFO((restored ? "" : restored.error().text));
            REQUIRE(restored);
            aside = restored->aside;
        }
        checkNothingLost(path, all());
        REQUIRE(aside);
        CHECK(bytesOf(*aside) == kept().bytes);
    });
}

TEST_CASE("A backup is restored over a file of which the disk gives nothing", "[fault]") {
    for (const auto& told : errors()) {
        INFO(told.words);
        const TemporaryFolder folder;
        writeBytes(folder / "log", kept().bytes);
        writeBytes(folder / "copy", kept().backup);
        const auto restored = [&] {
            const BadSectors bad(folder / "log", {.error = told.error});
            return restore(folder / "copy", {folder / "log", "icu-9"}, writing(0));
        }();
        INFO((restored ? "" : restored.error().text));
        REQUIRE(restored);
        CHECK_FALSE(restored->later);
        CHECK(restored->isAtLeast);
        checkNothingLost(folder / "log", all());
        REQUIRE(restored->aside);
        CHECK(bytesOf(*restored->aside) == kept().bytes);
        CHECK(open(folder / "log", Access::Read).station() == "icu-9");
    }
}

TEST_CASE("What another program has locked is not put aside, though it is not given", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", kept().bytes);
    writeBytes(folder / "copy", kept().backup);
    const auto other = behindTheBack(folder / "log");
    other->exec("BEGIN IMMEDIATE");
    const BadSectors bad(folder / "log", {.error = EIO});
    const auto restored = restore(folder / "copy", {folder / "log", "icu-9"}, writing(0));
    REQUIRE_FALSE(restored);
    CHECK(restored.error().code == Code::Busy);
    CHECK(folder.names() == std::vector<std::string>{"copy", "log"});
}

TEST_CASE("An error of the disk that passes costs nothing", "[fault]") {
    forEachPage([&](const std::filesystem::path& path, BadPlace place) {
        place.times = 1;
        const auto folder = path.parent_path();
        const auto next = note("icu-1", ofOne + 1);
        {
            const BadSectors bad(path, place);
            const auto logbook = open(path, Access::Read);
            CHECK(contents(logbook).size() == all());
            CHECK_FALSE(logbook.metDamage());
        }
        {
            const BadSectors bad(path, place);
            CHECK(open(path, Access::Read).verify()->ok());
        }
        {
            const BadSectors bad(path, place);
            CHECK(open(path, Access::Read).backup(folder / "second"));
            checkIsBackup(folder / "second");
        }
        {
            const BadSectors bad(path, place);
            const auto salvaged = salvage(path, folder / "new", minute(2000));
            REQUIRE(salvaged);
            CHECK(salvaged->records == static_cast<std::int64_t>(all()));
            CHECK(salvaged->unreadPages == 0);
        }
        {
            const BadSectors bad(path, place);
            auto logbook = open(path);
            append(logbook, {next});
        }
        checkNothingLost(path, all() + 1);
    });
}

TEST_CASE("Damage is told as such after an error of the disk that passed", "[fault]") {
    for (const auto& told : errors()) {
        INFO(told.words);
        const TemporaryFolder folder;
        auto bytes = kept().bytes;
        const auto found = bytes.rfind(R"("kind":"note")");
        REQUIRE(found != std::string::npos);
        const auto damaged = found / pageSize * pageSize;
        bytes.replace(damaged, pageSize, pageSize, '\0');
        writeBytes(folder / "log", bytes);
        const auto logbook = open(folder / "log", Access::Read);
        {
            const auto earlier = bytes.find(R"("kind":"note")") / pageSize * pageSize;
            REQUIRE(earlier != damaged);
            const BadSectors bad(folder / "log", {earlier, pageSize, told.error, 1});
            CHECK(logbook.records());
            REQUIRE(bad.met() == 1);
        }
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK_FALSE(report->diskFailed);
    }
}

TEST_CASE("A disk that gives nothing any more is told as that, and not as damage", "[fault]") {
    for (const auto& told : errors()) {
        INFO(told.words);
        const TemporaryFolder folder;
        writeBytes(folder / "log", kept().bytes);
        {
            const auto logbook = open(folder / "log", Access::Read);
            const BadSectors bad(folder / "log", {.error = told.error});
            const auto read = logbook.records();
            REQUIRE_FALSE(read);
            CHECK(read.error().code == Code::Io);
            CHECK(read.error().isUnread);
            CHECK(read.error().text == told.words);
            CHECK(logbook.backup(folder / "copy").error().code == Code::Io);
            CHECK(logbook.verify().error().code == Code::Io);
            CHECK(logbook.verify().error().isUnread);
            CHECK(bad.met() > 0);
        }
        {
            const BadSectors bad(folder / "log", {.error = told.error});
            const auto opened = Logbook::open(folder / "log", {Access::Read});
            CHECK(opened.error().code == Code::Io);
            CHECK(opened.error().isUnread);
        }
        {
            Logbook logbook = open(folder / "log");
            const BadSectors bad(folder / "log", {.error = told.error});
            const auto added = logbook.append(std::vector{note("icu-1", ofOne + 1)}, writing());
            CHECK(added.error().code == Code::Io);
            CHECK(added.error().isUnread);
        }
        checkNothingLost(folder / "log", all());
    }
}

TEST_CASE("A file that shrinks while it is open gives what is left of it", "[fault]") {
    for (std::size_t pages = 1; pages < kept().bytes.size() / pageSize; ++pages) {
        INFO("pages " << pages);
        const TemporaryFolder folder;
        writeBytes(folder / "log", kept().bytes);
        const auto logbook = open(folder / "log", Access::Read);
        std::filesystem::resize_file(folder / "log", pages * pageSize);
        const auto read = logbook.records();
        if (!read) {
            CHECK(read.error().code == Code::Damaged);
            CHECK_FALSE(read.error().isUnread);
            continue;
        }
        CHECK(std::ranges::all_of(read->records, isAsWritten));
        CHECK(read->records.size() + read->inDoubt.size() == all());
        CHECK_FALSE(logbook.verify()->ok());
    }
}
