// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the log of an open logbook, and reading it again; see open_log.h.
#include "station/open_log.h"

#include <utility>

namespace station {

OpenLog::OpenLog(const Surroundings& surroundings, const LogbookFile& file,
                 store::Logbook logbook)
    : m_surroundings(surroundings), m_file(file), m_logbook(std::move(logbook)) {}

Result<std::unique_ptr<OpenLog>> OpenLog::open(const Surroundings& surroundings,
                                               const LogbookFile& file) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    std::unique_ptr<OpenLog> open(new OpenLog(surroundings, file, std::move(*logbook)));
    if (auto read = open->read(); !read) {
        return tl::unexpected(std::move(read.error()));
    }
    return open;
}

Result<void> OpenLog::read() {
    auto log = readWholeLog(m_surroundings, m_logbook);
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    m_log.emplace(std::move(*log));
    m_gate.emplace(m_surroundings, m_file, *m_log);
    return {};
}

Result<bool> OpenLog::hasMoved() const {
    return m_logbook.lastArrival()
        .map([&](std::int64_t arrival) { return arrival != m_log->arrival; })
        .map_error([&](const store::Trouble& trouble) {
            return problemOf(m_surroundings.words, trouble);
        });
}

Result<void> OpenLog::catchUp() {
    const auto moved = hasMoved();
    if (!moved) {
        return tl::unexpected(moved.error());
    }
    return *moved ? read() : Result<void>();
}

}  // namespace station
