// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said where the answer cannot be written: what was done stays done, and is told on the
// other stream.
#include "cli/program.h"

#include "station/ward.h"

#include <cerrno>
#include <filesystem>
#include <sstream>
#include <streambuf>
#include <utility>
#include <vector>

using namespace support;

namespace {

// A full disk, or a pipe of which the other end is closed.
class Full : public std::streambuf {
public:
    explicit Full(int error) : m_error(error) {}

protected:
    int_type overflow(int_type) override { return fail(), traits_type::eof(); }
    int sync() override { return fail(), -1; }

private:
    void fail() const { errno = m_error; }
    int m_error;
};

struct Called {
    int status = 0;
    std::string error;
};

Called callWithoutOutput(Ward& ward, std::vector<std::string> words, int failure = ENOSPC) {
    ScriptedTerminal terminal;
    auto surroundings = ward.surroundings;
    surroundings.terminal = &terminal;
    Full full(failure);
    std::ostream out(&full);
    std::ostringstream error;
    const int status = cli::run(words, surroundings, {out, error});
    return {status, error.str()};
}

}  // namespace

TEST_CASE("An entry whose answer is lost is told to be kept", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto path = ward.logbook.path.string();
    const auto called = callWithoutOutput(
        ward, {"log", path, "fault", "KB-0001", "--code", "display", "--as", "mt"});
    CHECK(called.status == 4);
    CHECK_THAT(called.error, Catch::Contains("It was done, but the answer"));
    CHECK_THAT(called.error, Catch::Contains("Recorded as icu-1/4"));
    CHECK_THAT(called.error, Catch::Contains("Do not enter it again."));
    const auto question = callWithoutOutput(ward, {"board", path});
    CHECK(question.status == 2);
    CHECK_THAT(question.error, Catch::Contains("The answer could not be written"));
}

TEST_CASE("A recovery code is shown though the answer cannot be written", "[unit]") {
    Ward ward;
    const auto policy = ward.folder.write("policy.toml", Ward::policy);
    const auto path = ward.logbook.path.string();
    const auto called =
        callWithoutOutput(ward, {"init", path, "--station", "icu-1", "--rulebook",
                                 policy.string(), "--manager", "mt", "--name", "Morgan Thistle"});
    CHECK(called.status == 4);
    CHECK_THAT(called.error,
               Catch::Matches("[\\s\\S]*([0-9A-Z]{4}-){4}[0-9A-Z]{4}[\\s\\S]*"));
}

TEST_CASE("Whoever reads no further is left alone, but told what was kept", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto path = ward.logbook.path.string();
    const auto question = callWithoutOutput(ward, {"board", path}, EPIPE);
    CHECK(question.status == 141);
    CHECK(question.error.empty());
    const auto entry = callWithoutOutput(
        ward, {"log", path, "fault", "KB-0001", "--code", "display", "--as", "mt"}, EPIPE);
    CHECK(entry.status == 4);
    CHECK_THAT(entry.error, Catch::Contains("Recorded as icu-1/4"));
}

TEST_CASE("Once an entry is told its status stays, whatever is done after it", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto path = ward.logbook.path.string();
    std::ostringstream out, error;
    std::vector<std::pair<int, std::string>> told;
    const auto call = [&](const std::vector<std::string>& words) {
        ScriptedTerminal terminal;
        auto surroundings = ward.surroundings;
        surroundings.terminal = &terminal;
        return cli::run(words, surroundings,
                        {out, error, [&](int status) {
                             told.emplace_back(status, out.str());
                             CHECK_FALSE(std::filesystem::exists(path + ".backups"));
                         }});
    };
    CHECK(call({"log", path, "fault", "KB-0001", "--code", "display", "--as", "mt"}) == 0);
    REQUIRE(told.size() == 1);
    CHECK(told.front().first == 0);
    CHECK_THAT(told.front().second, Catch::Contains("Recorded as icu-1/4"));
    // A refusal is no answer.
    CHECK(call({"board", path + ".none"}) == 3);
    CHECK(told.size() == 1);
}
