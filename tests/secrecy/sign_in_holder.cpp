// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Does something for which secrets are typed, and then stands still, so that a test can look into
// its memory: sign_in_holder LOGBOOK PERSON ACT, the secrets on descriptor 3, a line each. ACT is
// `sign_in`, `write` (a note), `set_pin` (one's own) or `recover`. Says "in" or "out", and ends
// when its standard input does. Keeps the logbook open meanwhile, as a desk does.
#include "station/people.h"
#include "station/system.h"
#include "station/system_terminal.h"

#include <cstdio>
#include <optional>
#include <string>
#include <string_view>

namespace {

struct Desk {
    const station::Surroundings& surroundings;
    const station::LogbookFile& file;
    station::AskPin ask;
    std::string person;
};

bool signIn(const Desk& desk) {
    const auto pin = desk.ask("");
    return pin && station::signIn(desk.surroundings, desk.file, desk.person, *pin);
}

bool act(const Desk& desk, std::string_view name) {
    station::Writer by(desk.person);
    by.ask = desk.ask;
    if (name == "write") {
        station::Entry entry{by, "note", "KB-0001"};
        entry.body = {{"text", "Seen"}};
        return station::writeEntry(desk.surroundings, desk.file, entry).has_value();
    }
    if (name == "set_pin") {
        return station::setPin(desk.surroundings, desk.file, {by, desk.person, desk.ask})
            .has_value();
    }
    if (name == "recover") {
        return station::recover(desk.surroundings, desk.file, {desk.person, desk.ask, desk.ask})
            .has_value();
    }
    return signIn(desk);
}

}  // namespace

int main(int count, char** words) {
    if (count != 4) {
        return 2;
    }
    constexpr int secrets = 3;
    const station::system::SystemClock clock;
    station::system::SystemTerminal terminal;
    const station::Surroundings surroundings{clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk", &terminal};
    const station::LogbookFile file{words[1]};
    const auto logbook = station::openLogbook(surroundings, file, station::Access::Write);
    const auto ask = [&](const std::string&) { return terminal.secretFrom(secrets, ""); };
    const bool in = logbook && act({surroundings, file, ask, words[2]}, words[3]);
    std::puts(in ? "in" : "out");
    std::fflush(stdout);
    while (std::getchar() != EOF) {
    }
    return in ? 0 : 1;
}
