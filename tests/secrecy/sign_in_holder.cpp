// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signs somebody in to a logbook and then stands still, so that a test can look into its memory:
// sign_in_holder LOGBOOK PERSON, the PIN on descriptor 3. Says "in" or "out", and ends when its
// standard input does. Keeps the logbook open meanwhile, as a desk does.
#include "station/sign_in.h"
#include "station/system.h"
#include "station/system_terminal.h"

#include <cstdio>
#include <optional>

int main(int count, char** words) {
    if (count != 3) {
        return 2;
    }
    constexpr int pinDescriptor = 3;
    const station::system::SystemClock clock;
    station::system::SystemTerminal terminal;
    const station::Surroundings surroundings{clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk", &terminal};
    const station::LogbookFile file{words[1]};
    const auto logbook = station::openLogbook(surroundings, file, station::Access::Write);
    std::optional<station::Session> session;
    {
        const auto pin = terminal.secretFrom(pinDescriptor, "");
        if (pin) {
            if (auto signedIn = station::signIn(surroundings, file, words[2], *pin)) {
                session = *signedIn;
            }
        }
    }
    std::puts(logbook && session ? "in" : "out");
    std::fflush(stdout);
    while (std::getchar() != EOF) {
    }
    return session ? 0 : 1;
}
