// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A terminal for Linux: what is typed goes from the system straight into a Secret, letter by
// letter, and through no buffer on the way.
#include "station/system_terminal.h"

#include <cerrno>
#include <sodium.h>
#include <termios.h>
#include <unistd.h>

namespace station::system {

namespace {

constexpr char backspace = 0x08, remove = 0x7F, startAnew = 0x15, breakOff = 0x03, endInput = 0x04;

void say(std::string_view text) {
    while (!text.empty()) {
        const auto written = ::write(STDERR_FILENO, text.data(), text.size());
        if (written < 0 && errno != EINTR) {
            return;
        }
        text.remove_prefix(written > 0 ? static_cast<std::size_t>(written) : 0);
    }
}

// The next letter; nothing at the end.
bool readLetter(int descriptor, char& letter) {
    for (;;) {
        const auto count = ::read(descriptor, &letter, 1);
        if (count >= 0 || errno != EINTR) {
            return count == 1;
        }
    }
}

// While it stands, letters are neither shown nor gathered into lines, nor do they raise signals
// that would leave the terminal so.
class Hidden {
public:
    explicit Hidden(int descriptor) : m_descriptor(descriptor) {
        m_isHidden = ::tcgetattr(m_descriptor, &m_before) == 0;
        termios hidden = m_before;
        hidden.c_lflag &= ~static_cast<tcflag_t>(ECHO | ICANON | ISIG);
        hidden.c_cc[VMIN] = 1;
        hidden.c_cc[VTIME] = 0;
        m_isHidden = m_isHidden && ::tcsetattr(m_descriptor, TCSAFLUSH, &hidden) == 0;
    }
    ~Hidden() {
        if (m_isHidden) {
            ::tcsetattr(m_descriptor, TCSADRAIN, &m_before);
        }
    }
    Hidden(const Hidden&) = delete;
    Hidden& operator=(const Hidden&) = delete;

    [[nodiscard]] bool isHidden() const { return m_isHidden; }

private:
    int m_descriptor;
    termios m_before{};
    bool m_isHidden = false;
};

// Nothing if it was broken off, or was too long.
std::optional<Secret> typedSecret(int descriptor) {
    Secret secret;
    bool fits = true;
    char letter = 0;
    while (readLetter(descriptor, letter)) {
        switch (letter) {
            case '\n':
            case '\r': sodium_memzero(&letter, 1); return fits ? std::optional(std::move(secret))
                                                               : std::nullopt;
            case breakOff:
            case endInput: return std::nullopt;
            case backspace:
            case remove: secret.removeLast(); break;
            case startAnew: secret.clear(); break;
            default: fits = secret.add(letter) && fits;
        }
    }
    return std::nullopt;
}

std::optional<Secret> askHidden(int descriptor, std::string_view question) {
    std::optional<Secret> secret;
    {
        // Before the question: what is typed as soon as that stands there must not be shown.
        const Hidden hidden(descriptor);
        say(question);
        if (hidden.isHidden()) {
            secret = typedSecret(descriptor);
        }
    }
    say("\n");
    return secret;
}

}  // namespace

bool SystemTerminal::isThere() const {
    return ::isatty(STDIN_FILENO) == 1 && ::isatty(STDERR_FILENO) == 1;
}

std::optional<std::string> SystemTerminal::ask(std::string_view question) {
    say(question);
    std::string line;
    char letter = 0;
    while (readLetter(STDIN_FILENO, letter)) {
        if (letter == '\n') {
            return line;
        }
        line += letter;
    }
    return std::nullopt;
}

std::optional<Secret> SystemTerminal::askSecret(std::string_view question) {
    return askHidden(STDIN_FILENO, question);
}

std::optional<Secret> SystemTerminal::secretFrom(int descriptor, std::string_view question) {
    if (::isatty(descriptor) == 1) {
        return askHidden(descriptor, question);
    }
    Secret secret;
    bool fits = true;
    bool any = false;
    char letter = 0;
    while (readLetter(descriptor, letter) && letter != '\n') {
        any = true;
        fits = (letter == '\r' || secret.add(letter)) && fits;
    }
    any = any || letter == '\n';
    sodium_memzero(&letter, 1);
    return any && fits ? std::optional(std::move(secret)) : std::nullopt;
}

}  // namespace station::system
