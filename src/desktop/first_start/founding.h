// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Making a department's logbook from what was typed at the first start: the file, its station, the
// rulebook, the first manager with a PIN. Knows no widget.
#pragma once

#include "station/people.h"

#include <optional>
#include <string>

namespace desktop {

struct Founding {
    std::string path;
    bool isNew = true;  // the file is made; else it is there and lacks something
    std::string station;
    std::string department, facility;
    std::string manager, name;
    std::string rulebook;         // a file; or
    std::string shippedRulebook;  // the name of one that comes with the program; "" both: is there
};

struct Founded {
    station::Begun begun;
    std::optional<station::Session> session;  // of the manager
};

// `pin` is still whole afterwards. Where it fails no file is left that was not there before.
[[nodiscard]] station::Result<Founded> found(const station::Surroundings& surroundings,
                                             const Founding& founding,
                                             const station::Secret& pin);

}  // namespace desktop
