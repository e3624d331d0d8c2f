// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reading thread and the ring of portions; see read_ahead.h.
#include "station/read_ahead.h"

#include <system_error>
#include <utility>

namespace station {

ReadAhead::ReadAhead(const store::Logbook& logbook, store::Selection selection,
                     std::size_t rowsOfPortion)
    : m_logbook(logbook), m_selection(std::move(selection)), m_rowsOfPortion(rowsOfPortion) {
    start();
}

// A start on a patient may rest on what is read: it does not fail for want of a thread.
void ReadAhead::start() {
    try {
        m_thread = std::thread([this] { run(); });
    } catch (const std::system_error&) {
        // None can be had: next() reads.
    }
}

ReadAhead::~ReadAhead() {
    if (!m_thread.joinable()) {
        return;
    }
    {
        const std::lock_guard lock(m_mutex);
        m_stopped = true;
    }
    m_changed.notify_all();
    m_thread.join();
}

tl::expected<std::span<store::ReadRecord>, store::Trouble> ReadAhead::next() {
    if (!m_thread.joinable()) {
        return readNext();
    }
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

bool ReadAhead::fill(Portion& portion, std::optional<store::Trouble>& trouble) {
    portion.rows.resize(m_rowsOfPortion);
    portion.count = 0;
    const auto count = m_logbook.readRecords(m_selection, portion.rows);
    if (!count) {
        trouble = count.error();
        return false;
    }
    portion.count = *count;
    if (*count > 0) {
        m_selection.after = portion.rows[*count - 1].place;
    }
    return *count == m_rowsOfPortion;
}

tl::expected<std::span<store::ReadRecord>, store::Trouble> ReadAhead::readNext() {
    Portion& portion = m_portions.front();
    portion.count = 0;
    if (!m_atEnd) {
        m_atEnd = !fill(portion, m_trouble);
    }
    if (m_trouble) {
        return tl::unexpected<store::Trouble>(*m_trouble);
    }
    return std::span<store::ReadRecord>(portion.rows.data(), portion.count);
}

void ReadAhead::run() {
    std::optional<store::Trouble> trouble;
    for (bool isMore = true; isMore;) {
        Portion* portion = awaitFree();
        if (portion == nullptr) {
            break;
        }
        isMore = fill(*portion, trouble);
        if (portion->count > 0) {
            handOver();
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
