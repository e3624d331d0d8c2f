// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Assembles the program: this computer's clock, zones, terminal and streams, and the language.
#include "cli/command.h"
#include "cli/program.h"
#include "station/problem.h"
#include "station/system.h"
#include "station/system_terminal.h"
#include "words/languages.h"

#include <iostream>
#include <string>
#include <vector>

int main(int count, char** words) {
    station::system::outliveReaders();
    station::system::outliveLimits();
    const auto& spoken = words::wordsFor(station::system::localesWanted());
    station::system::tellLackOfMemory(
        station::problemOf(spoken, "trouble.no_memory").notice.text() + "\n",
        static_cast<int>(cli::ExitStatus::NoLogbook));
    const station::system::SystemClock clock;
    station::system::SystemTerminal terminal;
    const station::Surroundings surroundings{clock, station::system::systemZones(), spoken,
                                             station::system::loginName(), &terminal};
    return cli::run(std::vector<std::string>(words + 1, words + count), surroundings,
                    {std::cout, std::cerr, [](int status) {
                         // Should a backup lack it after that, what was told stands.
                         station::system::tellLackOfMemory({}, status);
                     }});
}
