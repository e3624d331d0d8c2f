// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A disk that takes its time to say that it does not give a page: it is not asked for that page
// again for each row on it, and others who write do not wait for all of that.
#include "bad_sectors.h"
#include "logbook_files.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <string>
#include <thread>

using namespace store;
using namespace store::test;
using namespace std::chrono_literals;
using Access = OpenOptions::Access;

TEST_CASE("A page that the disk did not give once is not asked for for each row", "[fault]") {
    constexpr std::size_t pageSize = 4096;
    constexpr int all = 1500;
    for (const int error : {EIO, EREMOTEIO}) {
        INFO("error " << error);
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", all));
        }
        const auto bytes = bytesOf(folder / "log");
        const auto page = bytes.find(R"("seq":700,)") / pageSize;
        REQUIRE(bytes.at(page * pageSize) == '\x0D');
        const auto logbook = open(folder / "log", Access::Read);
        const BadSectors bad(folder / "log", {page * pageSize, pageSize, error,
                                              std::numeric_limits<int>::max(), 100ms});
        bool isWritten = false;
        std::thread writer([&] {
            for (int look = 0; look < 3'000 && bad.met() < 4; ++look) {
                std::this_thread::sleep_for(10ms);
            }
            auto other = Logbook::open(folder / "log", {Access::Write, false, 500});
            isWritten = other && other->append(std::vector{note("icu-1", all + 1)}, writing());
        });
        const auto read = logbook.records();
        writer.join();
        CHECK(isWritten);
        CHECK(bad.met() < 10);
        REQUIRE(read);
        CHECK(read->inDoubt.size() > 5);
        CHECK(read->inDoubt.size() < 40);
        CHECK(read->records.size() + read->inDoubt.size() >= all);
        CHECK(logbook.metRefusal());
    }
}
