// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook with a strange trigger in its schema, or without one of its own: what can wait is not
// written into it, and what must not wait is written without any trigger, so that it stands there
// as it is and nothing else does.
#include "store/foreign_schema.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Code = Trouble::Code;

namespace {

const std::vector<std::string>& changes() {
    static const std::vector<std::string> all = {
        "CREATE TRIGGER a BEFORE UPDATE ON local_heads BEGIN SELECT raise(IGNORE); END",
        "CREATE TRIGGER a BEFORE INSERT ON records BEGIN SELECT raise(IGNORE); END",
        "DROP TRIGGER records_are_never_updated; CREATE TRIGGER a AFTER INSERT ON records BEGIN"
        " UPDATE records SET content = replace(content, 'seen', 'Seen') WHERE seq = 2; END",
        "DROP TRIGGER records_are_never_deleted",
        "DROP TRIGGER records_are_only_appended; CREATE TRIGGER records_are_only_appended"
        " AFTER INSERT ON records BEGIN DELETE FROM local_heads; END"};
    return all;
}

void checkWaits(const tl::expected<void, Trouble>& written) {
    REQUIRE_FALSE(written);
    CHECK(written.error().code == Code::Damaged);
    CHECK(written.error().text.find("in its schema is not as it was made") != std::string::npos);
}

// Also where it was opened before.
void checkGuarded(Logbook& logbook, const std::filesystem::path& path) {
    const auto last = headsOf(logbook).at("icu-1").seq;
    const auto before = contents(logbook);
    append(logbook, {note("icu-1", last + 1)});
    auto after = contents(logbook);
    REQUIRE(after.size() == before.size() + 1);
    CHECK(after.back() == note("icu-1", last + 1).content);
    after.pop_back();
    CHECK(after == before);
    CHECK(headsOf(logbook).at("icu-1").seq == last + 1);
    CHECK(logbook.verify()->breaks.empty());
    checkWaits(logbook.setSetting("place", "Bay 4", writing()));
    checkWaits(logbook.importRecords({}, "er-2.jsonl", writing()).map([](const auto&) {}));
    const auto foreign = foreignSchemaAt(path);
    REQUIRE(foreign);
    checkWaits(tl::unexpected<Trouble>(*foreign));
}

}  // namespace

TEST_CASE("No strange trigger runs, and what can wait is refused", "[unit]") {
    for (const auto& sql : changes()) {
        INFO(sql);
        const TemporaryFolder folder;
        Logbook earlier = create(folder / "log");
        REQUIRE(earlier.setStation("icu-1", writing()));
        append(earlier, notes("icu-1", 3));
        CHECK_FALSE(foreignSchemaAt(folder / "log"));
        behindTheBack(folder / "log")->exec(sql);
        checkGuarded(earlier, folder / "log");
        Logbook later = open(folder / "log");
        checkGuarded(later, folder / "log");
    }
}

TEST_CASE("A schema that is put right is written into as before", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    const auto strange = behindTheBack(folder / "log");
    strange->exec("CREATE TRIGGER a BEFORE UPDATE ON local_heads BEGIN SELECT raise(IGNORE); END");
    checkWaits(logbook.setSetting("place", "Bay 4", writing()));
    strange->exec("DROP TRIGGER a");
    CHECK(logbook.setSetting("place", "Bay 4", writing()));
    append(logbook, {note("icu-1", 4)});
    CHECK(headsOf(logbook).at("icu-1").seq == 4);
    CHECK(logbook.verify()->ok());
}
