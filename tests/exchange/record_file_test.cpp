// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files read line by line, and every line that is no record told with its number.
#include "exchange/record_file.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

using exchange::RecordFileFault;
using logbook::RecordFault;

namespace {

std::string note(int seq) {
    return R"({"at":"2026-03-02T14:00:00Z","body":{"text":"kept"},"by":"mt","device":"KB-0001",)"
           R"("entered":"2026-03-02T14:00:05Z","kind":"note","seq":)" +
           std::to_string(seq) + R"(,"station":"icu-1"})";
}

// The same record with one text put in the place of another.
std::string noteWith(std::string_view old, std::string_view replacement) {
    auto line = note(1);
    const auto place = line.find(old);
    REQUIRE(place != std::string::npos);
    return line.replace(place, old.size(), replacement);
}

RecordFault soleFault(const std::string& line) {
    const auto read = exchange::readRecordFile(note(1) + "\n" + line + "\n");
    REQUIRE_FALSE(read);
    CHECK(read.error().code == RecordFileFault::Code::Lines);
    REQUIRE(read.error().lines.size() == 1);
    CHECK(read.error().lines.front().line == 2);
    CHECK(read.error().more == 0);
    REQUIRE(read.error().lines.front().faults.size() == 1);
    return read.error().lines.front().faults.front();
}

}  // namespace

TEST_CASE("A file is its records with the lines they stand on", "[unit]") {
    const auto read = exchange::readRecordFile(note(1) + "\n" + note(2) + "\n");
    REQUIRE(read);
    REQUIRE(read->size() == 2);
    CHECK(read->at(1).line == 2);
    CHECK(read->at(1).record.name == logbook::RecordName{"icu-1", 2});
    CHECK(read->at(1).record.content == note(2));
}

TEST_CASE("Line ends of both kinds and a last line without one are taken", "[unit]") {
    for (const auto& bytes : {note(1) + "\n" + note(2), note(1) + "\r\n" + note(2) + "\r\n",
                              note(1) + "\r\n" + note(2)}) {
        const auto read = exchange::readRecordFile(bytes);
        REQUIRE(read);
        REQUIRE(read->size() == 2);
        CHECK(read->at(0).record.content == note(1));
        CHECK(read->at(1).record.content == note(2));
    }
}

TEST_CASE("Blank lines are passed over and counted", "[unit]") {
    const auto read = exchange::readRecordFile("\n" + note(1) + "\n \t\r\n\n" + note(2) + "\n\n");
    REQUIRE(read);
    REQUIRE(read->size() == 2);
    CHECK(read->at(0).line == 2);
    CHECK(read->at(1).line == 5);
    CHECK(exchange::readRecordFile("")->empty());
}

TEST_CASE("A byte-order mark is refused before anything is read", "[unit]") {
    const auto read = exchange::readRecordFile("\xEF\xBB\xBF" + note(1) + "\nno record\n");
    REQUIRE_FALSE(read);
    CHECK(read.error().code == RecordFileFault::Code::ByteOrderMark);
    CHECK(read.error().lines.empty());
}

TEST_CASE("Each kind of malformed line is told with its line, field and reason", "[unit]") {
    using Code = RecordFault::Code;
    struct Example {
        std::string line;
        Code code;
        std::string field;
    };
    const std::vector<Example> examples{
        {"no record", Code::NotJson, ""},
        {note(1).substr(0, 40), Code::NotJson, ""},
        {note(1) + " " + note(2), Code::NotJson, ""},
        {"[1,2]", Code::NotAnObject, ""},
        {noteWith(R"("by":"mt")", R"("by":"mt","by":"rs")"), Code::DuplicateName, ""},
        {noteWith("kept", R"(\ud800)"), Code::BadText, ""},
        {noteWith("kept", R"(a\u0000b)"), Code::BadText, ""},
        {noteWith("kept", "\xFF"), Code::BadText, ""},
        {noteWith(R"("seq":1)", R"("seq":1e400)"), Code::BadNumber, ""},
        {noteWith(R"("by":"mt",)", ""), Code::Missing, "by"},
        {noteWith(R"("by":"mt")", R"("by":7)"), Code::WrongType, "by"},
        {noteWith("icu-1", "ICU 1"), Code::BadStation, "station"},
        {noteWith(R"("seq":1)", R"("seq":0)"), Code::BadSeq, "seq"},
        {noteWith(R"("seq":1)", R"("seq":1.5)"), Code::BadSeq, "seq"},
        {noteWith("2026-03-02T14:00:00Z", "2026-03-02T14:00:00+01:00"), Code::BadInstant, "at"},
        {noteWith("KB-0001", " KB-0001"), Code::BadName, "device"},
        {noteWith(R"("kind":"note")", R"("kind":"levitate")"), Code::UnknownKind, "kind"},
        {noteWith("T14:00:00Z", "T15:00:00Z"), Code::EnteredBeforeAt, "entered"},
        {noteWith(R"("device":"KB-0001")", R"("device":"")"), Code::DeviceWanted, "device"},
    };
    for (const auto& example : examples) {
        CAPTURE(example.line);
        const auto fault = soleFault(example.line);
        CHECK(fault.code == example.code);
        if (!example.field.empty()) {
            CHECK(fault.field == example.field);
        }
    }
}

TEST_CASE("Every fault of a line is told, not only the first", "[unit]") {
    auto line = noteWith(R"("by":"mt",)", "");
    line.replace(line.find("icu-1"), 5, "ICU");
    const auto read = exchange::readRecordFile(line);
    REQUIRE_FALSE(read);
    CHECK(read.error().lines.front().faults.size() == 2);
}

TEST_CASE("The first hundred faulty lines are listed and the rest counted", "[unit]") {
    std::string bytes;
    for (int line = 1; line <= 260; ++line) {
        bytes += (line % 2 == 0 ? "no record" : note(line)) + "\n";
    }
    const auto read = exchange::readRecordFile(bytes);
    REQUIRE_FALSE(read);
    REQUIRE(read.error().lines.size() == exchange::faultyLinesListed);
    CHECK(read.error().lines.front().line == 2);
    CHECK(read.error().lines.back().line == 200);
    CHECK(read.error().more == 30);
}

TEST_CASE("Records are handed over one by one with the text of their line", "[unit]") {
    const auto spaced = noteWith(R"("by":"mt")", R"("by": "mt")");
    const auto bytes = note(1) + "\n\n" + spaced + "\r\nno record\n" + note(3);
    std::vector<std::size_t> lines;
    std::vector<std::string> texts, contents;
    const auto read = exchange::readRecordFile(
        bytes, [&](std::size_t line, std::string_view text, logbook::Record& record) {
            lines.push_back(line);
            texts.emplace_back(text);
            contents.push_back(std::move(record.content));
        });
    REQUIRE_FALSE(read);
    REQUIRE(read.error().lines.size() == 1);
    CHECK(read.error().lines.front().line == 4);
    CHECK(lines == std::vector<std::size_t>{1, 3, 5});
    CHECK(texts == std::vector<std::string>{note(1), spaced, note(3)});
    CHECK(contents == std::vector<std::string>{note(1), note(1), note(3)});
}

TEST_CASE("What is written is read back the same", "[unit]") {
    const auto bytes = note(1) + "\n" + note(2) + "\n";
    const auto read = exchange::readRecordFile(bytes);
    REQUIRE(read);
    std::vector<logbook::Record> records;
    for (const auto& line : *read) {
        records.push_back(line.record);
    }
    CHECK(exchange::writeRecordFile(records) == bytes);
    CHECK(exchange::writeRecordFile({}).empty());
}
