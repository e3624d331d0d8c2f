// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// States are kept of a long logbook once a command has told what it did, and not before.
#include "cli/program.h"

#include "station/folded_ward.h"

#include <sstream>
#include <streambuf>

using namespace support;

namespace {

std::size_t statesIn(const FoldedWard& ward, const std::filesystem::path& path) {
    const auto logbook = station::openLogbook(ward.surroundings, {path}, station::Access::Read);
    REQUIRE(logbook);
    return logbook->snapshotsKept()->size();
}

// Looks into the logbook when the answer is sent off.
class Watching : public std::stringbuf {
public:
    Watching(const FoldedWard& ward, std::filesystem::path path)
        : m_ward(ward), m_path(std::move(path)) {}

    [[nodiscard]] std::size_t statesWhenTold() const { return m_states; }

protected:
    int sync() override {
        m_states = statesIn(m_ward, m_path);
        return std::stringbuf::sync();
    }

private:
    const FoldedWard& m_ward;
    std::filesystem::path m_path;
    std::size_t m_states = 99;
};

struct Called {
    int status = 0;
    std::string out, error;
    std::size_t statesWhenTold = 0, statesAfter = 0;
};

// `made`: the logbook that has records now which it had not.
Called call(const FoldedWard& ward, const std::vector<std::string>& words,
            const std::filesystem::path& made) {
    Watching watching(ward, made);
    std::ostream out(&watching);
    std::ostringstream error;
    const int status = cli::run(words, ward.surroundings, {out, error});
    return {status, watching.str(), error.str(), watching.statesWhenTold(),
            statesIn(ward, made)};
}

}  // namespace

TEST_CASE("States are kept once a command has told what it did", "[unit]") {
    FoldedWard ward;
    const auto log = quietLog(850);
    ward.add(log.records());
    ward.clock.set(log.records().back().at + minutes(5));
    const auto path = ward.file.path.string();
    REQUIRE(statesIn(ward, ward.file.path) == 0);
    std::vector<std::string> words;
    auto made = ward.file.path;
    int status = 0;
    SECTION("log") {
        words = {"log", path, "use_start", device, "--as", "mt"};
    }
    SECTION("import") {
        const auto file = ward.folder.write(
            "more.jsonl",
            R"({"at":"2026-03-02T14:00:00Z","body":{"text":"Seen"},"by":"mt","device":"KB-1",)"
            R"("entered":"2026-03-02T14:00:05Z","kind":"note","seq":1,"station":"er-2"})"
            "\n");
        words = {"import", path, file.string()};
    }
    SECTION("restore") {
        const auto backup = ward.folder.file("copy");
        REQUIRE(ward.open().backup(backup));
        made = ward.folder.file("restored.logbook");
        words = {"restore", backup.string(), made.string(), "--station", "desk-2"};
    }
    SECTION("salvage") {
        made = ward.folder.file("salvaged.logbook");
        words = {"salvage", path, made.string()};
    }
    const auto called = call(ward, words, made);
    INFO(called.out << called.error);
    CHECK(called.status == status);
    CHECK_FALSE(called.out.empty());
    CHECK(called.statesWhenTold == 0);
    CHECK(called.statesAfter > 0);
}
