// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What waits for somebody's name, without reading all of the log: entries without a signature, what
// was moved, and what was said of them since.
#pragma once

#include "station/confirmation.h"
#include "station/found_records.h"
#include "station/standing.h"

#include <memory>
#include <string>
#include <vector>

namespace station {

// By one thread at a time. The first question looks through the text of all records; the next ones
// look only at what came in since.
class WaitingLog {
public:
    // As waitingFor() says by the whole log; of a logbook of which something cannot be read the
    // whole log is read, and told that there may be others.
    [[nodiscard]] Result<Waiting> of(const Surroundings& surroundings, const LogbookFile& file,
                                     const Standing& standing, const std::string& person);

private:
    [[nodiscard]] Result<void> renew(const Surroundings& surroundings,
                                     const store::Logbook& logbook, const Standing& standing);

    FoundRecords m_found;
    std::shared_ptr<const WholeLog> m_log;  // of what was found
};

// The names of the records on which that rests, found in the text of all. Nothing where one cannot
// be read that may be among them.
[[nodiscard]] Result<std::optional<std::vector<logbook::RecordName>>> recordsOfWaiting(
    const Surroundings& surroundings, const store::Logbook& logbook);

}  // namespace station
