// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A pseudo-terminal and who sits at it; see terminal.h.
#include "docs/terminal.h"

#include <csignal>
#include <optional>
#include <poll.h>
#include <pty.h>
#include <regex>
#include <sys/wait.h>
#include <unistd.h>

namespace docs {

namespace {

constexpr int patienceMs = 120'000;

class Desk {
public:
    Desk(int terminal, Typist typist)
        : m_terminal(terminal), m_typist(std::move(typist)), m_said(m_typist.said),
          m_used(m_said.size()) {}

    // Until the other side hangs up, or nobody knows what to type; what the typist knows then.
    Typist run() {
        pollfd waiting{m_terminal, POLLIN, 0};
        char bytes[4096];
        while (::poll(&waiting, 1, patienceMs) > 0) {
            const auto count = ::read(m_terminal, bytes, sizeof bytes);
            if (count <= 0) {
                break;
            }
            m_said.append(bytes, static_cast<std::size_t>(count));
            if (!answer()) {
                m_said += "\n(nobody knows what to type here)\n";
                break;
            }
        }
        m_typist.said = std::move(m_said);
        return std::move(m_typist);
    }

private:
    [[nodiscard]] std::string lastLine() const {
        return m_said.substr(m_said.find_last_of('\n') + 1);
    }

    [[nodiscard]] std::string lastMatch(const std::string& pattern) const {
        const std::regex shape(pattern);
        std::string found;
        for (std::sregex_iterator match(m_said.begin(), m_said.end(), shape), end; match != end;
             ++match) {
            found = (*match)[1];
        }
        return found;
    }

    bool answer() {
        static const std::regex pin("PIN of ([^:]+): ");
        static const std::regex newPin("New PIN of ([^,]+), 6 digits or more: ");
        const auto line = lastLine();
        std::smatch match;
        if (line == "The same again: ") {
            return type(m_typed);
        }
        if (line == "Recovery code: ") {
            return type(lastMatch("Recovery code: ([0-9A-Z-]{24})"));
        }
        if (std::regex_match(line, match, newPin)) {
            return typeNew(match[1]);
        }
        if (std::regex_match(line, match, pin)) {
            return type(m_typist.pins[match[1]]);
        }
        return true;
    }

    bool typeNew(const std::string& name) {
        const auto stated = m_said.rfind("\nPIN: ");
        if (stated != std::string::npos && stated >= m_used) {
            const auto begin = stated + 6;
            m_typist.pins[name] = m_said.substr(begin, m_said.find('\r', begin) - begin);
            m_used = m_said.size();
        }
        return type(m_typist.pins[name]);
    }

    bool type(const std::string& text) {
        m_typed = text;
        const auto line = text + "\n";
        return !text.empty() && ::write(m_terminal, line.data(), line.size()) ==
                                    static_cast<ssize_t>(line.size());
    }

    int m_terminal;
    Typist m_typist;
    std::string m_said, m_typed;
    std::size_t m_used;  // up to where what was said has been looked at for a stated PIN
};

}  // namespace

Session typeAtTerminal(const std::string& script, Typist typist) {
    int terminal = -1;
    const auto child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
    if (child == 0) {
        ::execlp("sh", "sh", script.c_str(), static_cast<char*>(nullptr));
        ::_exit(127);
    }
    Session session;
    if (child < 0) {
        return session;
    }
    session.typist = Desk(terminal, std::move(typist)).run();
    ::close(terminal);
    ::kill(child, SIGHUP);
    int status = 0;
    ::waitpid(child, &status, 0);
    session.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return session;
}

}  // namespace docs
