// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A terminal for Linux: what is typed goes from the system straight into a Secret, letter by
// letter, and through no buffer on the way.
#include "station/system_terminal.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <new>
#include <sodium.h>
#include <string>
#include <termios.h>
#include <unistd.h>
#include <utility>
#include <vector>

namespace station::system {

namespace {

constexpr char backspace = 0x08, remove = 0x7F, startAnew = 0x15, breakOff = 0x03, endInput = 0x04,
               quit = 0x1C;
constexpr unsigned char firstShown = 0x20;
constexpr std::size_t longestLine = 4096;

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

constexpr std::array endingSignals = {SIGTERM, SIGHUP, SIGINT, SIGQUIT};

// The terminal as it was, for the handler of a signal: there is one question at a time.
struct Before {
    int descriptor = -1;
    termios settings{};
};
Before before;

// Puts the terminal back; then the signal, whose handler is gone by now, ends the program.
void showAgain(int signal) {
    ::tcsetattr(before.descriptor, TCSANOW, &before.settings);
    ::raise(signal);
}

// While it stands, letters are neither shown nor gathered into lines, nor do they raise signals;
// one that comes from elsewhere and ends the program leaves the terminal as it was.
class Hidden {
public:
    explicit Hidden(int descriptor) {
        before.descriptor = descriptor;
        if (::tcgetattr(descriptor, &before.settings) != 0) {
            return;
        }
        catchSignals();
        termios hidden = before.settings;
        hidden.c_lflag &= ~static_cast<tcflag_t>(ECHO | ICANON | ISIG);
        hidden.c_cc[VMIN] = 1;
        hidden.c_cc[VTIME] = 0;
        m_isHidden = ::tcsetattr(descriptor, TCSAFLUSH, &hidden) == 0;
    }
    ~Hidden() {
        if (m_isHidden) {
            ::tcsetattr(before.descriptor, TCSADRAIN, &before.settings);
        }
        for (const auto& [signal, action] : m_caught) {
            ::sigaction(signal, &action, nullptr);
        }
    }
    Hidden(const Hidden&) = delete;
    Hidden& operator=(const Hidden&) = delete;

    [[nodiscard]] bool isHidden() const { return m_isHidden; }

private:
    // Those that are ignored, as under nohup, stay so.
    void catchSignals() {
        struct sigaction caught {};
        caught.sa_handler = showAgain;
        caught.sa_flags = static_cast<int>(SA_RESETHAND);
        for (const int signal : endingSignals) {
            struct sigaction earlier {};
            if (::sigaction(signal, nullptr, &earlier) == 0 && earlier.sa_handler == SIG_DFL &&
                ::sigaction(signal, &caught, nullptr) == 0) {
                m_caught.emplace_back(signal, earlier);
            }
        }
    }

    bool m_isHidden = false;
    std::vector<std::pair<int, struct sigaction>> m_caught;  // with what was there before
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
            case quit:
            case endInput: return std::nullopt;
            case backspace:
            case remove: secret.removeLast(); break;
            case startAnew: secret.clear(); break;
            default:
                // Other control keys are no part of a PIN, and nobody sees that they were pressed.
                if (static_cast<unsigned char>(letter) >= firstShown) {
                    fits = secret.add(letter) && fits;
                }
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
    std::size_t length = 0;
    while (readLetter(descriptor, letter) && letter != '\n') {
        if (++length > longestLine) {
            return std::nullopt;
        }
        any = true;
        fits = (letter == '\r' || secret.add(letter)) && fits;
    }
    any = any || letter == '\n';
    sodium_memzero(&letter, 1);
    return any && fits ? std::optional(std::move(secret)) : std::nullopt;
}

void outliveReaders() {
    std::signal(SIGPIPE, SIG_IGN);
}

void outliveLimits() {
    std::signal(SIGXFSZ, SIG_IGN);
}

void tellLackOfMemory(std::string text, int status) {
    static std::string told;
    static int toldStatus = 0;
    told = std::move(text);
    toldStatus = status;
    // What is on the disk is whole whenever the program ends: nothing is tidied up.
    std::set_new_handler([] {
        say(told);
        ::_exit(toldStatus);
    });
}

}  // namespace station::system
