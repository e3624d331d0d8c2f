// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook to try the program on: the invented hospital of the demo as a file.
#pragma once

#include "station/open.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace station {

struct SampleOptions {
    std::uint64_t seed = 1;
    std::optional<logbook::Instant> end{};  // none: now, by the clock
    bool fresh = false;                     // replaces the file if it is a demo itself
};

struct SampleAnswer {
    std::int64_t records = 0;
    logbook::Instant end{};
};

// Whoever tries it writes as the station `demoStation`. A file that is there is left alone, but for
// a demo where a fresh one is asked for, if it holds records of the demo's stations only; the old
// one stays until the new one is whole.
[[nodiscard]] Result<SampleAnswer> makeSample(const Surroundings& surroundings,
                                              const LogbookFile& file,
                                              const SampleOptions& options);

// Whether that logbook is a demo, made by makeSample().
[[nodiscard]] bool isSample(const LogbookFacts& facts);

// Who can sign in there, with their PINs, which are no secret; whoever may enter everything first.
struct SamplePerson {
    std::string key, name, pin;
};
[[nodiscard]] std::vector<SamplePerson> samplePeople();

}  // namespace station
