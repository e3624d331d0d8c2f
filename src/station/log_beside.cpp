// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the log behind a standing; see log_beside.h.
#include "station/log_beside.h"

#include "report/provenance.h"

#include <utility>

namespace station {

Result<std::shared_ptr<const WholeStanding>> LogBeside::behind(const Surroundings& surroundings,
                                                               const LogbookFile& file,
                                                               const Standing& standing) {
    const std::lock_guard lock(m_reading);
    if (!m_log || m_log->arrival < standing.facts.arrival) {
        m_log.reset();
        auto log = readWholeLog(surroundings, file);
        if (!log) {
            return tl::unexpected(std::move(log.error()));
        }
        m_log = std::make_shared<const WholeLog>(std::move(*log));
    }
    auto whole = std::make_shared<WholeStanding>(WholeStanding{standing, m_log});
    whole->lookup = [log = m_log](const logbook::RecordName& name) {
        return report::lookupIn(log->log)(name);
    };
    return whole;
}

}  // namespace station
