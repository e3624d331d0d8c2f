// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same question to the same logbook again and again: what was folded for one answer is the
// beginning of the next. See standing.h for what comes of it.
#pragma once

#include "station/standing.h"

#include <memory>
#include <string>

namespace station {

// By one thread at a time. What it is opened with must outlive it.
class StandingSource {
public:
    [[nodiscard]] static Result<std::unique_ptr<StandingSource>> open(
        const Surroundings& surroundings, const LogbookFile& file);
    ~StandingSource();
    StandingSource(const StandingSource&) = delete;
    StandingSource& operator=(const StandingSource&) = delete;

    // As standing().
    [[nodiscard]] Result<Standing> ask(const Asked& asked);

    // The same; the state need hold no other unit, and takes less to hand out.
    [[nodiscard]] Result<Standing> askAbout(const std::string& device, const Asked& asked);

private:
    class Source;
    explicit StandingSource(std::unique_ptr<Source> source);
    std::unique_ptr<Source> m_source;
};

// As standing(), but that all records are folded, whatever states are kept.
[[nodiscard]] Result<Standing> coldStanding(const Surroundings& surroundings,
                                            const LogbookFile& file, const Asked& asked);

}  // namespace station
