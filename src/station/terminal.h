// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The person at this computer, who can be asked; tests answer in their place. Knows no question.
#pragma once

#include "station/secret.h"

#include <optional>
#include <string>
#include <string_view>

namespace station {

class Terminal {
public:
    Terminal() = default;
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;
    virtual ~Terminal() = default;

    // Whether there is anybody to ask. If not, nothing but `secretFrom` may be called.
    [[nodiscard]] virtual bool isThere() const = 0;

    // A line that is typed; nothing if the question was called off.
    [[nodiscard]] virtual std::optional<std::string> ask(std::string_view question) = 0;

    // The same, not shown while it is typed.
    [[nodiscard]] virtual std::optional<Secret> askSecret(std::string_view question) = 0;

    // The next line of a file descriptor that the caller has opened, no byte beyond it. Nothing if
    // there is none, or one that is longer than a Secret. Of a terminal, `question` is asked there.
    [[nodiscard]] virtual std::optional<Secret> secretFrom(int descriptor,
                                                           std::string_view question) = 0;
};

}  // namespace station
