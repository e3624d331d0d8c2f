// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reading thread and the ring of portions; see read_ahead.h.
#include "station/read_ahead.h"

#include <utility>

namespace station {

ReadAhead::ReadAhead(const store::Logbook& logbook, store::Selection selection,
                     std::size_t rowsOfPortion)
    : m_logbook(logbook), m_rowsOfPortion(rowsOfPortion),
      m_thread([this, selection = std::move(selection)] { run(selection); }) {}

ReadAhead::~ReadAhead() {
    {
        const std::lock_guard lock(m_mutex);
        m_stopped = true;
    }
    m_changed.notify_all();
    m_thread.join();
}

tl::expected<std::span<store::ReadRecord>, store::Trouble> ReadAhead::next() {
    std::unique_lock lock(m_mutex);
    if (m_holds) {
        ++m_released;
        m_holds = false;
        m_changed.notify_all();
    }
    m_changed.wait(lock, [this] { return m_filled > m_released || m_atEnd; });
    if (m_filled > m_released) {
        m_holds = true;
        Portion& portion = m_portions[m_released % portions];
        return std::span<store::ReadRecord>(portion.rows.data(), portion.count);
    }
    if (m_trouble) {
        return tl::unexpected<store::Trouble>(*m_trouble);
    }
    return std::span<store::ReadRecord>();
}

ReadAhead::Portion* ReadAhead::awaitFree() {
    std::unique_lock lock(m_mutex);
    m_changed.wait(lock, [this] { return m_filled - m_released < portions || m_stopped; });
    return m_stopped ? nullptr : &m_portions[m_filled % portions];
}

void ReadAhead::handOver() {
    {
        const std::lock_guard lock(m_mutex);
        ++m_filled;
    }
    m_changed.notify_all();
}

void ReadAhead::run(store::Selection selection) {
    std::optional<store::Trouble> trouble;
    while (Portion* portion = awaitFree()) {
        portion->rows.resize(m_rowsOfPortion);
        const auto count = m_logbook.readRecords(selection, portion->rows);
        if (!count) {
            trouble = count.error();
            break;
        }
        portion->count = *count;
        const bool isLast = *count < m_rowsOfPortion;
        if (*count > 0) {
            selection.after = portion->rows[*count - 1].place;
            handOver();
        }
        if (isLast) {
            break;
        }
    }
    {
        const std::lock_guard lock(m_mutex);
        m_trouble = std::move(trouble);
        m_atEnd = true;
    }
    m_changed.notify_all();
}

}  // namespace station
