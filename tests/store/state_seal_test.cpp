// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The key by which a user's kept states are told from what somebody else put into a file.
#include "store/state_seal.h"

#include "logbook_files.h"
#include "store/lacking_seal.h"
#include "store/snapshot.h"
#include "support/environment.h"

#include <SQLiteCpp/Database.h>
#include <array>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <set>
#include <sys/stat.h>
#include <thread>
#include <vector>

using namespace store;
using namespace store::test;

namespace {

constexpr int engine = 7;

// One logbook, and the folders of those who use it.
struct Shared {
    TemporaryFolder folder;
    support::Environment environment{"XDG_STATE_HOME", "HOME"};
    Logbook logbook{create(folder / "log")};

    Shared() { append(logbook, notes("icu-1", 20)); }

    void logIn(const std::string& user) const {
        environment.set("XDG_STATE_HOME", (folder / user).string());
    }
    [[nodiscard]] Snapshot at(std::int64_t seq, std::string bytes = "bytes") const {
        Snapshot snapshot;
        snapshot.place = {minute(seq), minute(seq), {"icu-1", seq}};
        snapshot.arrival = *logbook.lastArrival();
        snapshot.heads = store::headsOf(*logbook.heads());
        snapshot.engine = engine;
        snapshot.bytes = std::move(bytes);
        return snapshot;
    }
    void keep(std::int64_t seq) {
        const std::vector<Snapshot> one{at(seq)};
        REQUIRE(logbook.keepSnapshots(one, std::vector{one.front().place}, writing()));
    }
    // Of the place of the one found; 0 for none.
    [[nodiscard]] std::int64_t seqFound() const {
        const auto found = logbook.snapshotFor({minute(10'000), engine});
        REQUIRE(found);
        return *found ? (*found)->place.name.seq : 0;
    }
    [[nodiscard]] std::size_t kept() const { return logbook.snapshotsKept()->size(); }
    void tamper(const std::string& sql) const { behindTheBack(folder / "log")->exec(sql); }
};

std::string textOf(const std::filesystem::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

TEST_CASE("A user's key is made once, and for nobody else to read", "[unit]") {
    const TemporaryFolder folder;
    const auto made = StateSeal::in(folder / "own");
    REQUIRE(made);
    CHECK(StateSeal::in(folder / "own")->id() == made->id());
    CHECK(StateSeal::in(folder / "own")->over("state") == made->over("state"));
    const auto file = folder / "own" / "kept-states.key";
    struct stat status {};
    REQUIRE(::stat(file.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    // Nothing unfinished lies beside it.
    CHECK(std::distance(std::filesystem::directory_iterator(folder / "own"), {}) == 1);
    const auto other = StateSeal::in(folder / "other");
    REQUIRE(other);
    CHECK(other->id() != made->id());
    CHECK(other->over("state") != made->over("state"));
    CHECK(made->over("state") != made->over("stats"));
    CHECK(made->over("state") != sha256("state"));
}

TEST_CASE("Of programs that make a key at once all have the same", "[unit]") {
    const TemporaryFolder folder;
    std::array<std::optional<Hash>, 4> found;
    std::vector<std::thread> threads;
    for (auto& each : found) {
        threads.emplace_back([&] {
            // Another's, which has not come to its end, may be in the way for a moment.
            for (int tries = 0; !each && tries < 1000; ++tries) {
                if (const auto seal = StateSeal::in(folder / "own")) each = seal->id();
            }
        });
    }
    for (auto& thread : threads) thread.join();
    CHECK(found.front());
    CHECK(std::set(found.begin(), found.end()).size() == 1);
}

TEST_CASE("A key that cannot be had is none, and nothing is written over", "[unit]") {
    const TemporaryFolder folder;
    const auto own = folder / "own";
    std::filesystem::create_directory(own);
    const auto file = own / "kept-states.key";
    SECTION("where no folder can be made") {
        std::ofstream(folder / "file") << "text";
        CHECK_FALSE(StateSeal::in(folder / "file" / "own"));
    }
    SECTION("where the file is damaged") {
        std::ofstream(file) << "half a key";
        CHECK_FALSE(StateSeal::in(own));
        CHECK(textOf(file) == "half a key");
    }
    SECTION("where a link leads elsewhere") {
        std::filesystem::create_symlink(folder / "elsewhere", file);
        CHECK_FALSE(StateSeal::in(own));
        CHECK_FALSE(std::filesystem::exists(folder / "elsewhere"));
    }
}

TEST_CASE("What another user kept is not found, and is theirs to find again", "[unit]") {
    Shared shared;
    shared.logIn("day");
    shared.keep(10);
    CHECK(shared.seqFound() == 10);
    shared.logIn("night");
    CHECK(shared.seqFound() == 0);
    CHECK(shared.kept() == 0);
    CHECK_FALSE(*shared.logbook.snapshotAt(shared.at(10).place));
    shared.keep(5);
    CHECK(shared.seqFound() == 5);
    shared.logIn("day");
    CHECK(shared.seqFound() == 10);
    CHECK(shared.kept() == 1);
    CHECK(shared.logbook.verify()->ok());
}

TEST_CASE("Nobody without the key can put in a state that is found", "[unit]") {
    Shared shared;
    shared.logIn("stranger");
    auto forged = shared.at(12, "all are ready");
    REQUIRE(shared.logbook.keepSnapshots(std::vector{forged}, {}, writing()));
    shared.logIn("day");
    REQUIRE(StateSeal::own());
    const auto named = "made_by = x'" + toHex(StateSeal::own()->id()) + "'";
    SECTION("under their own name") {
        CHECK(shared.kept() == 0);
    }
    SECTION("under the user's name") {
        shared.tamper("UPDATE derived_snapshots SET " + named);
        CHECK(shared.kept() == 1);
    }
    SECTION("with the hash that anybody can tell") {
        shared.tamper("UPDATE derived_snapshots SET " + named + ", hash = x'" +
                      toHex(hashOf(forged)) + "'");
        CHECK(shared.kept() == 1);
    }
    CHECK(shared.seqFound() == 0);
    CHECK_FALSE(*shared.logbook.snapshotAt(forged.place));
    // Keeping another one throws it away where it bears the user's name.
    shared.keep(5);
    CHECK(shared.seqFound() == 5);
    CHECK(shared.kept() == 1);
}

TEST_CASE("Of what others kept only the newest stay", "[unit]") {
    Shared shared;
    shared.logIn("gone");
    std::vector<Snapshot> many;
    for (std::int64_t seq = 1; seq <= 13; ++seq) many.push_back(shared.at(seq));
    REQUIRE(shared.logbook.keepSnapshots(many, {}, writing()));
    REQUIRE(shared.kept() == 13);
    shared.logIn("day");
    shared.keep(5);
    CHECK(shared.kept() == 1);
    shared.logIn("gone");
    CHECK(shared.kept() == 10);
    CHECK(shared.seqFound() == 13);
}

TEST_CASE("A user without a folder keeps no state, and is told so", "[unit]") {
    Shared shared;
    shared.logIn("day");
    shared.keep(10);
    std::filesystem::path told;
    SECTION("none is named") {
        const support::Environment none{"XDG_STATE_HOME", "HOME"};
        CHECK_FALSE(StateSeal::own());
        CHECK(shared.seqFound() == 0);
        const auto kept = shared.logbook.keepSnapshots(std::vector{shared.at(5)}, {}, writing());
        REQUIRE_FALSE(kept);
        CHECK(kept.error().code == Trouble::Code::Io);
        CHECK(kept.error().text == lackingSeal);
        CHECK(kept.error().path.empty());
    }
    SECTION("it takes no key") {
        std::ofstream(shared.folder / "file") << "text";
        shared.logIn("file");
        CHECK(shared.seqFound() == 0);
        const auto kept = shared.logbook.keepSnapshots(std::vector{shared.at(5)}, {}, writing());
        REQUIRE_FALSE(kept);
        CHECK(kept.error().text == lackingSeal);
        CHECK(kept.error().path == shared.folder / "file" / "airmuster");
    }
    shared.logIn("day");
    CHECK(shared.seqFound() == 10);
}

TEST_CASE("Where nothing else is said the key lies in the user's home", "[unit]") {
    const TemporaryFolder folder;
    const support::Environment environment{"XDG_STATE_HOME", "HOME"};
    environment.set("HOME", folder.path().string());
    CHECK(folderOfOwnSeal() == folder / ".local" / "state" / "airmuster");
    environment.set("XDG_STATE_HOME", "relative");
    CHECK(folderOfOwnSeal() == folder / ".local" / "state" / "airmuster");
    environment.set("XDG_STATE_HOME", (folder / "state").string());
    CHECK(folderOfOwnSeal() == folder / "state" / "airmuster");
}
