// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The quick reader against the thorough one: what it takes it reads alike, and it takes nothing
// that the other refuses, however a record was spoiled.
#include "logbook/canonical_reader.h"

#include "logbook/record_reader.h"
#include "sample_records.h"
#include "support/told_record.h"

#include <catch2/catch.hpp>

#include <random>

using logbook::Kind;
using logbook::Record;

namespace {

std::string lineOf(Kind kind) {
    auto line = sample::lineOf(kind);
    for (const char* field : {"done_by", "witness", "form", "batch"}) {
        line = sample::with(line, field, "\"bk\"");
    }
    return line;
}

// The line itself if it has no such member.
std::string less(const std::string& line, const char* path) {
    try {
        return sample::without(line, path);
    } catch (const std::exception&) {
        return line;
    }
}

// The content of a sample of every kind, with all that may be given and with less.
std::vector<std::string> contents() {
    std::vector<std::string> all;
    for (int number = 0; number < logbook::kindCount; ++number) {
        const auto kind = static_cast<Kind>(number);
        const auto whole = lineOf(kind);
        all.push_back(logbook::readRecord(whole)->content);
        for (const char* path :
             {"done_by", "witness", "form", "batch", "moved_from", "confirmed", "body.blocking",
              "body.text", "body.measures", "body.conditions", "body.load", "body.group",
              "body.location", "body.precautions", "body.reason", "body.part.serial"}) {
            const auto some = logbook::readRecord(less(whole, path));
            if (some) all.push_back(some->content);
        }
    }
    return all;
}

// Whether the quick reader takes it for a record of that kind; compared with the thorough one then.
bool taken(std::string_view content, std::string_view kind, Record& record) {
    if (!logbook::readCanonical(content, kind, record)) return false;
    CAPTURE(content);
    const auto thorough = logbook::readRecord(content);
    REQUIRE(thorough);
    REQUIRE(support::told(record) == support::told(*thorough));
    REQUIRE(record.content == content);
    Record bare = record;
    REQUIRE(logbook::readCanonical(content, kind, bare, logbook::WithContent::No));
    REQUIRE(bare.content.empty());
    bare.content = content;
    REQUIRE(support::told(bare) == support::told(record));
    Record unasked;
    REQUIRE(logbook::readCanonical(content, unasked));
    REQUIRE(support::told(unasked) == support::told(record));
    return true;
}

bool takenByAny(std::string_view content, Record& record) {
    bool any = false;
    for (int number = 0; number < logbook::kindCount; ++number) {
        any |= taken(content, logbook::kindName(static_cast<Kind>(number)), record);
    }
    return any;
}

std::string spoiled(std::string text, std::mt19937& engine) {
    static const std::string bytes = "\"\\{}[],:.0123456789eE+-tfnuZT \x01\x7f\xc3\xa9\xff";
    const auto below = [&](std::size_t count) { return engine() % count; };
    for (auto times = 1 + below(3); times > 0 && !text.empty(); --times) {
        const auto place = below(text.size());
        switch (below(4)) {
            case 0: text[place] = bytes[below(bytes.size())]; break;
            case 1: text.insert(place, 1, bytes[below(bytes.size())]); break;
            case 2: text.erase(place, 1 + below(4)); break;
            default: text.insert(place, text.substr(below(text.size()), 1 + below(12)));
        }
    }
    return text;
}

}  // namespace

TEST_CASE("What the quick reader takes it reads as the thorough one does", "[property]") {
    Record record;
    int count = 0;
    for (const auto& content : contents()) {
        const auto kind = logbook::kindName(logbook::readRecord(content)->kind());
        count += taken(content, kind, record) ? 1 : 0;
    }
    CHECK(count > 60);
}

TEST_CASE("The kinds that a logbook is full of are all taken", "[unit]") {
    Record record;
    for (const Kind kind :
         {Kind::Retire, Kind::Group, Kind::Power, Kind::Move, Kind::Sighted, Kind::Software,
          Kind::Fit, Kind::Remove, Kind::Reprocess, Kind::Soil, Kind::Check, Kind::Alarm,
          Kind::Fault, Kind::Clear, Kind::Withdraw, Kind::Release, Kind::Service, Kind::UseStart,
          Kind::UsePause, Kind::UseResume, Kind::UseEnd, Kind::Note, Kind::Strike}) {
        const auto name = logbook::kindName(kind);
        CAPTURE(name);
        const auto content = logbook::readRecord(lineOf(kind))->content;
        CHECK(taken(content, name, record));
        CHECK_FALSE(
            logbook::readCanonical(content, kind == Kind::Note ? "power" : "note", record));
    }
}

TEST_CASE("A spoiled record is taken only if the thorough reader takes it alike", "[property]") {
    constexpr std::uint32_t seed = 20261128;
    std::mt19937 engine(seed);
    CAPTURE(seed);
    const auto samples = contents();
    Record record;
    int count = 0;
    for (int round = 0; round < 30'000; ++round) {
        const auto& sound = samples[engine() % samples.size()];
        const auto content = spoiled(sound, engine);
        const auto kind = logbook::kindName(logbook::readRecord(sound)->kind());
        count += taken(content, kind, record) ? 1 : 0;
    }
    CHECK(count > 500);
}

TEST_CASE("What is not canonical is left to the thorough reader", "[unit]") {
    Record record;
    const auto sound = logbook::readRecord(lineOf(Kind::Check))->content;
    REQUIRE(takenByAny(sound, record));
    const auto with = [&](std::string_view from, std::string_view to) {
        std::string text = sound;
        const auto place = text.find(from);
        REQUIRE(place != std::string::npos);
        return text.replace(place, from.size(), to);
    };
    CHECK_FALSE(logbook::readCanonical(R"({"kind":"check"})", record));
    CHECK_FALSE(logbook::readCanonical("", record));
    CHECK_FALSE(takenByAny(sound + " ", record));
    CHECK_FALSE(takenByAny(" " + sound, record));
    CHECK_FALSE(takenByAny(with(R"("at":)", R"("at": )"), record));
    CHECK_FALSE(takenByAny(with(R"(Z","b)", R"(.000Z","b)"), record));
    CHECK_FALSE(takenByAny(with(R"("body")", R"("bodx":null,"body")"), record));
    CHECK_FALSE(takenByAny(with(R"("value":)", R"("value":0)"), record));
    CHECK_FALSE(takenByAny(with(R"("kind")", R"("\u006bind")"), record));
}
