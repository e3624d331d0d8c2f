// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The whole log behind standings that go without it: read when something first looks at the records
// of all units, and again once more have come in.
#pragma once

#include "station/standing.h"

#include <functional>
#include <memory>
#include <mutex>

namespace station {

// Reads the log behind a standing, when it is called.
using LogReader = std::function<Result<std::shared_ptr<const WholeStanding>>()>;

// Of one logbook. Any thread may ask; one waits while another reads.
class LogBeside {
public:
    // At least as much as the standing rests on. What it looks up it finds in that log.
    [[nodiscard]] Result<std::shared_ptr<const WholeStanding>> behind(
        const Surroundings& surroundings, const LogbookFile& file, const Standing& standing);

private:
    std::mutex m_reading;
    std::shared_ptr<const WholeLog> m_log;  // as last read
};

}  // namespace station
