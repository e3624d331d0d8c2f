// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What verify says where all entries are whole and the file around them is not: not that entries
// were changed.
#include "cli/calling.h"

#include "station/lost_pages.h"

#include <filesystem>

using namespace support;
using Catch::Contains;

namespace {

// Its root page is zeroed.
void zeroIndex(const std::filesystem::path& file, const std::string& index) {
    constexpr std::size_t bytesOfPage = 4096;
    std::size_t page = 0;
    {
        SQLite::Database database(file.string());
        SQLite::Statement root(database, "SELECT rootpage FROM sqlite_schema WHERE name = ?");
        root.bind(1, index);
        REQUIRE(root.executeStep());
        page = static_cast<std::size_t>(root.getColumn(0).getInt64());
    }
    auto bytes = bytesOf(file);
    bytes.replace((page - 1) * bytesOfPage, bytesOfPage, bytesOfPage, '\0');
    std::ofstream(file, std::ios::binary) << bytes;
}

// A ward, and its heads in a file.
struct Noted {
    Ward ward;
    std::filesystem::path file = ward.logbook.path;
    std::filesystem::path heads;

    Noted() {
        ward.found();
        ward.enrol("KB-0001");
        const auto whole = call(ward, {"verify", file.string()});
        REQUIRE(whole.status == 0);
        heads = ward.folder.write("heads.txt", whole.out);
    }

    Called verify(const std::vector<std::string>& more = {}) {
        std::vector<std::string> words{"verify", file.string(), "--heads", heads.string()};
        words.insert(words.end(), more.begin(), more.end());
        return call(ward, words);
    }
};

}  // namespace

TEST_CASE("Damage around the entries is not told as a change of them", "[fault]") {
    Noted noted;
    SECTION("a trigger is gone") {
        SQLite::Database(noted.file.string(), SQLite::OPEN_READWRITE)
            .exec("DROP TRIGGER records_are_never_deleted");
    }
    SECTION("a page of an index is damaged") { zeroIndex(noted.file, "records_by_device"); }
    const auto found = noted.verify();
    CHECK(found.status == 1);
    CHECK_THAT(found.out, Contains("Entries verified: 3. All are as they were written."));
    CHECK_THAT(found.out, Contains("The file around them"));
    CHECK_THAT(found.out, Contains("It has the heads in"));
    CHECK_THAT(found.out, !Contains("do not all fit"));
    const auto json = noted.verify({"--json"});
    CHECK(json.status == 1);
    CHECK_THAT(json.out, Contains("\"ok\": false") && Contains("\"breaks\": []"));
    CHECK_THAT(call(noted.ward, {"board", noted.file.string()}).out, !Contains("up to none"));
}

TEST_CASE("Where what is noted of the entries cannot be read, none is said to be changed",
          "[fault]") {
    Noted noted;
    zeroTable(noted.file, "local_heads");
    const auto found = noted.verify();
    CHECK(found.status == 1);
    CHECK_THAT(found.out, !Contains("Not all are as they were written"));
    CHECK_THAT(found.out, !Contains("All are as they were written"));
    CHECK_THAT(found.out, !Contains("do not all fit"));
    CHECK_THAT(found.out, Contains("None of these was found changed."));
    CHECK_THAT(found.out, Contains("The seals noted in") && Contains("cannot be told: see above"));
}

TEST_CASE("That the file has a second name is told beside what verify found", "[unit]") {
    Noted noted;
    std::filesystem::create_hard_link(noted.file, noted.ward.folder.file("desk.logbook"));
    const auto found = noted.verify();
    CHECK(found.status == 0);
    CHECK_THAT(found.out, Contains("All are as they were written"));
    CHECK_THAT(found.error, Contains("has a second name") && Contains("is not noted in it"));
    const auto forms = call(noted.ward, {"forms", noted.file.string(), "--count", "1"});
    CHECK(forms.status == 3);
    CHECK_THAT(forms.error, Contains("has a second name") && Contains("-samefile"));
}
