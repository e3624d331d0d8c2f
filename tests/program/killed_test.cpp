// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program is killed in the middle of its work, again and again: whatever it had told to be
// recorded is there, whatever it had not is there whole or not at all, and verify agrees.
// AIRMUSTER_KILLS says how often, AIRMUSTER_SEED repeats a run.
#include "running.h"

#include "store/logbook.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>
#include <map>
#include <random>
#include <thread>

using namespace program;
using namespace std::chrono_literals;
using std::chrono::microseconds;

namespace {

constexpr int killsInSuite = 25;
constexpr std::int64_t notesAtOnce = 40;

unsigned numberIn(const char* variable, unsigned otherwise) {
    const char* text = std::getenv(variable);
    return text == nullptr ? otherwise
                           : static_cast<unsigned>(std::strtoul(text, nullptr, 10));
}

// Records of another station, from its first on.
void writeNotes(const Ward& ward, std::int64_t last) {
    std::string lines;
    for (std::int64_t seq = 1; seq <= last; ++seq) {
        lines += R"({"station":"icu-2","seq":)" + std::to_string(seq) +
                 R"(,"at":"2026-03-02T14:00:00Z","entered":"2026-03-02T14:00:00Z","by":"mt",)"
                 R"("device":"KB-0001","kind":"note","body":{"text":"seen in room 4"}})"
                 "\n";
    }
    ward.folder.write("in.jsonl", lines);
}

using Contents = std::map<logbook::RecordName, std::string>;

// What the logbook holds; fails the test if it does not verify.
Contents wholeContents(const std::filesystem::path& path) {
    const auto logbook = store::Logbook::open(path, {store::OpenOptions::Access::Read});
    REQUIRE(logbook);
    const auto report = logbook->verify();
    REQUIRE(report);
    CHECK(report->ok());
    Contents contents;
    REQUIRE(logbook->forEachRow({}, [&](const store::Row& row) {
        contents[row.place.name] = row.content;
        return true;
    }));
    return contents;
}

enum class Act { Log, Import };

struct Count {
    unsigned killed = 0, confirmed = 0, journals = 0, untold = 0, holders = 0;
};

// One life of the program, and what is there after it.
class Trial {
public:
    Trial(const Ward& ward, std::mt19937& random) : m_ward(ward), m_random(random) {
        m_kept = wholeContents(ward.logbook());
        // How long each takes, so that the moment can be any of it.
        for (const auto act : {Act::Log, Act::Import}) {
            m_took[act] =
                Running(ward.folder.path(), wordsFor(act), ward.withPin()).said().took;
            m_kept = wholeContents(ward.logbook());
        }
    }

    void once(unsigned life, Count& count) {
        const Act act = m_random() % 3 == 0 ? Act::Import : Act::Log;
        Running running(m_ward.folder.path(), wordsFor(act), m_ward.withPin());
        waitForMoment(running, act, life % 3);
        running.kill();
        const auto said = running.said();
        INFO(said.out);
        const auto* told = act == Act::Log ? "Recorded as " : "Entries added: ";
        const bool confirmed = said.out.find(told) != std::string::npos;
        CHECK((said.status == -1 || said.status == 0));
        count.killed += said.status == -1 ? 1 : 0;
        count.journals += std::filesystem::exists(journal()) ? 1 : 0;
        count.holders += std::filesystem::exists(m_ward.folder.file("ward.logbook.holder")) ? 1 : 0;
        checkHolds(act, confirmed, count);
    }

private:
    // By turns any moment, one while it writes, and the one in which it has told.
    void waitForMoment(Running& running, Act act, unsigned turn) {
        if (turn == 0) {
            const auto most = static_cast<unsigned>(m_took[act].count());
            std::this_thread::sleep_for(microseconds(m_random() % (most + most / 8)));
            return;
        }
        if (turn == 1) {
            running.waitUntilTold();
            return;
        }
        while (!running.hasEnded() && !std::filesystem::exists(journal())) {
        }
        // How long it writes hangs on the disk.
        const auto most = m_random() % 2 == 0 ? 300us : 6'000us;
        const auto until = std::chrono::steady_clock::now() +
                           microseconds(m_random() % static_cast<unsigned>(most.count()));
        while (std::chrono::steady_clock::now() < until) {
        }
    }

    std::vector<std::string> wordsFor(Act act) {
        if (act == Act::Log) {
            return Ward::logFault();
        }
        m_brought = static_cast<std::int64_t>(std::ranges::count_if(
                        m_kept, [](const auto& each) { return each.first.station == "icu-2"; })) +
                    notesAtOnce;
        writeNotes(m_ward, m_brought);
        return {"import", "ward.logbook", "in.jsonl", "--as", "r.halvorsen", "--pin-fd",
                "3"};
    }

    void checkHolds(Act act, bool confirmed, Count& count) {
        auto now = wholeContents(m_ward.logbook());
        for (const auto& [name, content] : m_kept) {
            const auto found = now.find(name);
            CHECK((found != now.end() && found->second == content));
        }
        const auto more = static_cast<std::int64_t>(now.size() - m_kept.size());
        const auto whole = act == Act::Log ? 1 : notesAtOnce;
        CHECK((more == whole || (more == 0 && !confirmed)));
        count.confirmed += confirmed ? 1 : 0;
        count.untold += more == whole && !confirmed ? 1 : 0;
        m_kept = std::move(now);
    }

    [[nodiscard]] std::filesystem::path journal() const {
        return m_ward.folder.file("ward.logbook-journal");
    }

    const Ward& m_ward;
    std::mt19937& m_random;
    Contents m_kept;
    std::int64_t m_brought = 0;
    std::map<Act, microseconds> m_took;
};

}  // namespace

TEST_CASE("Killed at any moment, the program loses nothing that it told was recorded",
          "[fault]") {
    const auto seed = numberIn("AIRMUSTER_SEED", std::random_device{}());
    const auto kills = numberIn("AIRMUSTER_KILLS", killsInSuite);
    std::cout << "kills: seed " << seed << std::endl;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const Ward ward;
    Trial trial(ward, random);
    Count count;
    unsigned lives = 0;
    for (; count.killed < kills && lives < 4 * kills; ++lives) {
        trial.once(lives, count);
    }
    CHECK(count.killed == kills);
    CHECK(count.confirmed > 0);
    CHECK(ward.ran({"verify", "ward.logbook"}).status == 0);
    CHECK(ward.ran(Ward::logFault()).status == 0);
    CHECK_FALSE(std::filesystem::exists(ward.folder.file("ward.logbook-journal")));
    std::cout << "kills: " << count.killed << " in " << lives << " runs; " << count.journals
              << " left a write cut off, " << count.holders << " their name beside it, "
              << count.untold << " had written and not yet told; " << count.confirmed
              << " entries and imports were told, all are there\n";
}
