// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads a logbook's records in a thread of its own, a few portions ahead of whoever takes them, so
// that reading and folding go on side by side; where no thread can be had, in that of whoever takes
// them. Judges nothing.
#pragma once

#include "store/logbook.h"

#include <array>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <span>
#include <thread>
#include <vector>

namespace station {

// While it lives nobody else may use the logbook, which must outlive it.
class ReadAhead {
public:
    // Four portions of 200 records are half a megabyte, which the cache of a core holds; with more
    // rows both threads wait for memory, with fewer the records of a unit come one by one.
    static constexpr std::size_t usualRows = 200;

    // No answer depends on how many rows a portion has.
    ReadAhead(const store::Logbook& logbook, store::Selection selection,
              std::size_t rowsOfPortion = usualRows);
    ~ReadAhead();
    ReadAhead(const ReadAhead&) = delete;
    ReadAhead& operator=(const ReadAhead&) = delete;

    // The next records in the reading order, which hold until the next call, or are moved from;
    // none after the last.
    [[nodiscard]] tl::expected<std::span<store::ReadRecord>, store::Trouble> next();

private:
    struct Portion {
        std::vector<store::ReadRecord> rows;
        std::size_t count = 0;
    };
    static constexpr std::size_t portions = 4;

    void start();
    void run();
    // Reads the next records into it; false after the last, and where they could not be read.
    bool fill(Portion& portion, std::optional<store::Trouble>& trouble);
    tl::expected<std::span<store::ReadRecord>, store::Trouble> readNext();
    // Waits for a portion that is free; null if nobody will take any more.
    Portion* awaitFree();
    void handOver();

    const store::Logbook& m_logbook;
    store::Selection m_selection;  // what is still to be read
    const std::size_t m_rowsOfPortion;
    std::array<Portion, portions> m_portions;
    std::mutex m_mutex;  // over what follows
    std::condition_variable m_changed;
    std::size_t m_filled = 0;    // portions so far
    std::size_t m_released = 0;  // of those, the ones that were taken and are done with
    bool m_holds = false;        // the portion after those is with the taker
    bool m_atEnd = false;
    bool m_stopped = false;
    std::optional<store::Trouble> m_trouble;
    std::thread m_thread;  // last: it uses all of the above
};

}  // namespace station
