// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts that have to come into the log: kept once however often they are tried, noted
// away from the logbook, and found again after the program was killed at any moment.
#include "station/start_notes.h"

#include "station/ward.h"
#include "support/seed.h"

#include <csignal>
#include <fcntl.h>
#include <iostream>
#include <random>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

using support::Ward;

namespace {

struct StartWard : Ward {
    StartWard() {
        found();
        enrol("KB-0109");
    }

    [[nodiscard]] station::PressedStart start() const {
        station::Entry entry{station::Writer("mt"), "use_start", "KB-0109"};
        entry.body = {{"emergency", true}, {"location", "ICU 4"}};
        entry.at = clock.now();
        return {{entry}, clock.now(), station::logMark(surroundings, logbook)};
    }
    [[nodiscard]] station::Result<station::StartKept> keep(
        const station::PressedStart& start) const {
        return station::keepStart(surroundings, logbook, start);
    }
    [[nodiscard]] std::vector<logbook::Record> starts() const {
        auto file = station::openLogbook(surroundings, logbook, station::Access::Read);
        REQUIRE(file);
        auto records = file->records()->records;
        std::erase_if(records, [](const auto& record) {
            return record.kind() != logbook::Kind::UseStart;
        });
        return records;
    }
    [[nodiscard]] std::filesystem::path notes() const { return folder.file("home/share/starts"); }
    [[nodiscard]] std::filesystem::path note(const station::PressedStart& start) const {
        const auto noted = station::noteStart(surroundings.words, notes(), logbook, start);
        REQUIRE(noted);
        return *noted;
    }
    [[nodiscard]] station::StartNotes read() const {
        return station::readStartNotes(surroundings.words, notes(), logbook);
    }
};

}  // namespace

TEST_CASE("A start that is tried again after it has taken effect is kept once", "[unit]") {
    StartWard ward;
    const auto start = ward.start();
    const auto first = ward.keep(start);
    REQUIRE(first);
    CHECK(first->there.empty());
    CHECK(first->written.size() == 1);
    CHECK_FALSE(first->written.front().confirmed);
    ward.clock.advance(logbook::Duration{60'000});
    SECTION("as it stands") {
        const auto again = ward.keep(start);
        REQUIRE(again);
        CHECK(again->written.empty());
        CHECK(again->there == std::vector{first->written.front().record});
        CHECK(ward.starts().size() == 1);
    }
    SECTION("and after somebody has judged it") {
        station::Entry strike{ward.as("mt"), "strike", "KB-0109"};
        strike.body = {{"target", toText(first->written.front().record)}, {"reason", "Wrong unit"}};
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, strike));
        const auto again = ward.keep(start);
        REQUIRE(again);
        CHECK(again->written.empty());
    }
    SECTION("but not for another that says the same of the same time, pressed later") {
        auto later = start;
        later.pressed = ward.clock.now();
        REQUIRE(ward.keep(later));
        CHECK(ward.starts().size() == 2);
    }
    SECTION("nor for that of another person") {
        ward.person("rt", "lead");
        auto other = start;
        other.entries.front().by = station::Writer("rt");
        REQUIRE(ward.keep(other));
        CHECK(ward.starts().size() == 2);
    }
    CHECK(ward.starts().front().at == start.entries.front().at);
}

TEST_CASE("A start is written into no other log than the one it was pressed for", "[unit]") {
    StartWard ward;
    const auto start = ward.start();
    Ward other;
    other.clock.advance(logbook::Duration{1000});
    other.found();
    const auto kept = station::keepStart(other.surroundings, other.logbook, start);
    REQUIRE_FALSE(kept);
    CHECK(kept.error().code == "start.other_log");
    CHECK_FALSE(station::logMark(ward.surroundings, ward.logbook).empty());
    CHECK(ward.keep(start));
}

TEST_CASE("A note brings back the start as it was pressed", "[unit]") {
    StartWard ward;
    auto start = ward.start();
    auto& entry = start.entries.front();
    entry.doneBy = "bk";
    entry.batch = "icu-1-7";
    entry.namesNoPatient = true;
    const auto note = ward.note(start);
    CHECK(ward.note(start) != note);
    const auto notes = ward.read();
    REQUIRE(notes.starts.size() == 2);
    CHECK(notes.damaged.empty());
    const auto& back = notes.starts.front();
    CHECK(back.note == note);
    CHECK(back.isOfThis);
    CHECK(back.start.pressed == start.pressed);
    CHECK(back.start.log == start.log);
    REQUIRE(back.start.entries.size() == 1);
    const auto& read = back.start.entries.front();
    CHECK(read.by.who == "mt");
    CHECK(read.kind == entry.kind);
    CHECK(read.device == entry.device);
    CHECK(read.at == entry.at);
    CHECK(logbook::json::Value(read.body) == logbook::json::Value(entry.body));
    CHECK(read.doneBy == entry.doneBy);
    CHECK(read.batch == entry.batch);
    CHECK(read.namesNoPatient);
    // Of another logbook it is not lost either.
    auto elsewhere = ward.logbook;
    elsewhere.path = ward.folder.file("other.logbook");
    CHECK_FALSE(station::readStartNotes(ward.surroundings.words, ward.notes(), elsewhere)
                    .starts.front()
                    .isOfThis);
    CHECK(station::forgetStart(note));
    CHECK_FALSE(station::isDropped(note));
    const auto& rest = notes.starts.back().note;
    CHECK(station::dropStart(rest));
    CHECK(station::isDropped(rest));
    CHECK(ward.read().starts.empty());
    CHECK(ward.read().damaged.empty());
}

TEST_CASE("What is no note is put aside and told, wherever it ends", "[unit]") {
    StartWard ward;
    const auto note = ward.note(ward.start());
    const auto whole = support::bytesOf(note);
    for (std::size_t length = 0; length + 1 < whole.size(); length += 7) {
        std::ofstream(note, std::ios::binary | std::ios::trunc) << whole.substr(0, length);
        const auto notes = ward.read();
        CHECK(notes.starts.empty());
        REQUIRE(notes.damaged.size() == 1);
        CHECK(notes.damaged.front().code == "start.note_damaged");
        CHECK(ward.read().damaged.empty());  // told once
        std::filesystem::rename(note.string() + ".unreadable", note);
    }
    for (const char* strange : {"{}", "[]", "null", "\x01\xff", R"({"note":7})",
                                R"({"note":"emergency start, not recorded: 1","by":"mt",)"
                                R"("pressed":"2026-03-02T14:00:00Z","entries":[{"kind":"note",)"
                                R"("device":"KB-0109","at":"2026-03-02T14:00:00Z","body":{}}]})"}) {
        std::ofstream(note, std::ios::binary | std::ios::trunc) << strange;
        CHECK(ward.read().starts.empty());
        std::filesystem::rename(note.string() + ".unreadable", note);
    }
    std::ofstream(note, std::ios::binary | std::ios::trunc) << whole;
    CHECK(ward.read().starts.size() == 1);
}

namespace {

// Notes a start, tells so, tries to keep it, and forgets the note once it is kept.
[[noreturn]] void liveAndDie(const StartWard& ward, const station::PressedStart& start, int told) {
    const auto note =
        station::noteStart(ward.surroundings.words, ward.notes(), ward.logbook, start);
    (void)!::write(told, note ? "n" : "x", 1);
    if (ward.keep(start) && note) {
        (void)station::forgetStart(*note);
    }
    ::_exit(0);
}

}  // namespace

TEST_CASE("A start that was noted is kept once, whenever the program is killed", "[fault]") {
    StartWard ward;
    const auto seed = support::seedOfRun();
    std::cout << "killed with seed " << seed << "\n";
    std::mt19937 random(seed);
    constexpr int lives = 12;
    int noted = 0;
    for (int life = 1; life <= lives; ++life) {
        ward.clock.advance(logbook::Duration{1000});
        const auto start = ward.start();
        int told[2];
        REQUIRE(::pipe2(told, O_CLOEXEC) == 0);
        const auto child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            liveAndDie(ward, start, told[1]);
        }
        ::close(told[1]);
        char letter = 0;
        REQUIRE(::read(told[0], &letter, 1) == 1);
        CHECK(letter == 'n');
        std::this_thread::sleep_for(std::chrono::microseconds(random() % 30'000));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        ::close(told[0]);
        const auto notes = ward.read();
        CHECK(notes.damaged.empty());
        for (const auto& each : notes.starts) {
            REQUIRE(ward.keep(each.start));
            CHECK(station::forgetStart(each.note));
            ++noted;
        }
        CHECK(ward.starts().size() == static_cast<std::size_t>(life));
        CHECK(ward.read().starts.empty());
    }
    std::cout << "killed " << lives << " times, notes that were left: " << noted << "\n";
}
