// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// PINs typed at a terminal: how it is left, whatever ends the question. The one who types is a
// child of the test at a terminal of its own.
#include "station/system_terminal.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <csignal>
#include <fcntl.h>
#include <new>
#include <pty.h>
#include <string>
#include <string_view>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

namespace {

constexpr std::string_view question = "PIN: ";
constexpr int asTyped = 0, otherwise = 1, calledOff = 2;

class Asked {
public:
    Asked() {
        REQUIRE(::openpty(&m_master, &m_slave, nullptr, nullptr, nullptr) == 0);
        m_child = ::fork();
        REQUIRE(m_child >= 0);
        if (m_child == 0) {
            ask();
        }
        std::string shown;
        while (shown.find(question) == std::string::npos) {
            std::array<char, 64> bytes{};
            const auto count = ::read(m_master, bytes.data(), bytes.size());
            REQUIRE(count > 0);
            shown.append(bytes.data(), static_cast<std::size_t>(count));
        }
        CHECK_FALSE(showsLetters());
    }
    ~Asked() {
        ::close(m_master);
        ::close(m_slave);
    }
    Asked(const Asked&) = delete;
    Asked& operator=(const Asked&) = delete;

    void type(std::string_view text) const {
        REQUIRE(::write(m_master, text.data(), text.size()) ==
                static_cast<ssize_t>(text.size()));
    }
    void send(int signal) const { REQUIRE(::kill(m_child, signal) == 0); }

    // As waitpid tells it, once the child has gone.
    [[nodiscard]] int end() const {
        int status = 0;
        REQUIRE(::waitpid(m_child, &status, 0) == m_child);
        return status;
    }

    [[nodiscard]] bool showsLetters() const {
        termios settings{};
        REQUIRE(::tcgetattr(m_slave, &settings) == 0);
        return (settings.c_lflag & ECHO) != 0 && (settings.c_lflag & ICANON) != 0;
    }

private:
    [[noreturn]] void ask() const {
        for (const int signal : {SIGTERM, SIGHUP, SIGINT}) {
            std::signal(signal, SIG_DFL);
        }
        for (const int descriptor : {STDIN_FILENO, STDERR_FILENO}) {
            ::dup2(m_slave, descriptor);
        }
        const auto secret = station::system::SystemTerminal().askSecret(question);
        ::_exit(!secret ? calledOff : secret->text() == "402951" ? asTyped : otherwise);
    }

    int m_master = -1, m_slave = -1;
    pid_t m_child = -1;
};

}  // namespace

TEST_CASE("A program ended while it asks for a PIN leaves the terminal as it was", "[unit]") {
    for (const int signal : {SIGTERM, SIGHUP, SIGINT}) {
        const Asked asked;
        asked.send(signal);
        const auto status = asked.end();
        CHECK(WIFSIGNALED(status));
        CHECK(WTERMSIG(status) == signal);
        CHECK(asked.showsLetters());
    }
}

TEST_CASE("Keys that type no letter are no part of a PIN", "[unit]") {
    const std::pair<std::string_view, int> typings[] = {
        {"402951\n", asTyped},        {"4029\x1a" "51\n", asTyped}, {"\x01" "402951\r", asTyped},
        {"402952\x7f" "1\n", asTyped}, {"402951\x1c", calledOff},    {"402951\x03", calledOff},
        {"402952\n", otherwise},
    };
    for (const auto& [typed, expected] : typings) {
        const Asked asked;
        asked.type(typed);
        const auto status = asked.end();
        CHECK(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == expected);
        CHECK(asked.showsLetters());
    }
}

TEST_CASE("A line that does not end is given up", "[unit]") {
    const int endless = ::open("/dev/zero", O_RDONLY | O_CLOEXEC);
    REQUIRE(endless >= 0);
    CHECK_FALSE(station::system::SystemTerminal().secretFrom(endless, question));
    ::close(endless);
    CHECK_FALSE(station::system::SystemTerminal().secretFrom(endless, question));
}

TEST_CASE("Without memory the program ends and says what is kept", "[unit]") {
    std::array<int, 2> told{};
    REQUIRE(::pipe(told.data()) == 0);
    const auto child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::dup2(told[1], STDERR_FILENO);
        station::system::tellLackOfMemory("All that was confirmed is kept.\n", 3);
        std::get_new_handler()();  // as `new` does where it finds nothing
        ::_exit(0);
    }
    ::close(told[1]);
    std::array<char, 64> bytes{};
    const auto count = ::read(told[0], bytes.data(), bytes.size());
    ::close(told[0]);
    CHECK(std::string_view(bytes.data(), static_cast<std::size_t>(std::max<ssize_t>(count, 0))) ==
          "All that was confirmed is kept.\n");
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 3);
}
