// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the command line comes by PINs: typed on the terminal, or read from a file descriptor. Never
// from an argument or the environment, where others can read them.
#pragma once

#include "cli/call.h"
#include "station/sign_in.h"

namespace cli {

// Where the call says that secrets come from.
class Signing {
public:
    // Refused: a --pin-fd that is no number.
    [[nodiscard]] static station::Result<Signing> of(const Call& call,
                                                     const station::Surroundings& surroundings);

    // The person after --as. A PIN from a descriptor is tried for every kind of entry; on the
    // terminal it is asked for only where it must be.
    [[nodiscard]] station::Writer writer(const Call& call) const;

    // A second person by that key, who signs in likewise, after the first.
    [[nodiscard]] station::Writer second(const std::string& who) const;

    // Each is none where there is neither a descriptor nor a terminal. A new PIN is typed twice.
    [[nodiscard]] station::AskPin pin() const;
    [[nodiscard]] station::AskPin newPin() const;
    [[nodiscard]] station::AskPin code() const;

private:
    explicit Signing(const station::Surroundings& surroundings) : m_surroundings(&surroundings) {}
    [[nodiscard]] station::AskPin asking(std::string_view question) const;

    const station::Surroundings* m_surroundings;
    std::optional<int> m_descriptor;
};

}  // namespace cli
