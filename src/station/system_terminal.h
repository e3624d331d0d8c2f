// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The terminal from which the program was called: questions on its standard error, answers from its
// standard input. There is nobody to ask unless both are a terminal.
#pragma once

#include "station/terminal.h"

#include <string>

namespace station::system {

class SystemTerminal : public Terminal {
public:
    [[nodiscard]] bool isThere() const override;
    [[nodiscard]] std::optional<std::string> ask(std::string_view question) override;
    [[nodiscard]] std::optional<Secret> askSecret(std::string_view question) override;
    [[nodiscard]] std::optional<Secret> secretFrom(int descriptor,
                                                   std::string_view question) override;
};

// From now on a reader of the output that has gone ends no program: to write gives an error.
void outliveReaders();

// Nor does a limit on how large a file may grow.
void outliveLimits();

// Where there is no memory to be had any more the program ends with that status, with the text, if
// any, on the standard error. What is said last counts.
void tellLackOfMemory(std::string text, int status);

}  // namespace station::system
