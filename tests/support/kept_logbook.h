// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Logbooks that are the same each time, made once and copied. Where AIRMUSTER_KEPT_LOGBOOKS names a
// folder they are kept there for the next programs; the build empties it whenever it links the
// program anew.
#pragma once

#include "station/sample.h"
#include "support/folder.h"

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <unistd.h>

namespace support {

// The one of that name, to `target`; `make` is called with the path at which it is to be made.
template <class Make>
void copyKept(const std::string& name, const std::filesystem::path& target, Make make) {
    static const Folder own;
    const char* named = std::getenv("AIRMUSTER_KEPT_LOGBOOKS");
    const std::filesystem::path folder = named != nullptr ? named : own.path();
    const auto kept = folder / (name + ".logbook");
    if (!std::filesystem::exists(kept)) {
        // Another program may be about the same: whole under its name, or not there.
        const auto made = folder / (name + "-" + std::to_string(getpid()) + ".logbook");
        make(made);
        std::filesystem::rename(made, kept);
    }
    std::filesystem::copy_file(kept, target);
}

// The demo of that moment. `language`: that of the words of the surroundings.
inline void copyDemo(const station::Surroundings& surroundings, const std::string& language,
                     const std::filesystem::path& target) {
    copyKept("demo-" + language + "-" + std::to_string(surroundings.clock.now().ms), target,
             [&](const std::filesystem::path& made) {
                 if (!station::makeSample(surroundings, station::LogbookFile{made}, {}))
                     throw std::runtime_error("the demo cannot be made");
             });
}

}  // namespace support
