// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for records; see found_records.h.
#include "station/found_records.h"

#include "logbook/record_reader.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

constexpr std::size_t recordsAtOnce = 500;

}  // namespace

void FoundRecords::forget() {
    m_arrival = 0;
    m_hasReadAll = true;
    m_records.clear();
}

Result<bool> FoundRecords::renew(const Surroundings& surroundings, const store::Logbook& logbook,
                                 const Search& search) {
    const auto identity = system::identityOf(logbook.path());
    if (m_path != logbook.path() || m_identity != identity) {
        forget();
    }
    m_path = logbook.path();
    m_identity = identity;
    const auto before = m_records.size();
    const bool isFirst = m_arrival == 0;
    const auto read = isFirst ? lookThrough(logbook, search) : addArrived(logbook, search);
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    m_hasReadAll = m_hasReadAll && !logbook.metDamage();
    return isFirst || m_records.size() != before;
}

// What comes in meanwhile is found the next time.
tl::expected<void, store::Trouble> FoundRecords::lookThrough(const store::Logbook& logbook,
                                                             const Search& search) {
    const auto arrival = logbook.lastArrival();
    if (!arrival) {
        return tl::unexpected<store::Trouble>(arrival.error());
    }
    for (const auto& look : search.looks) {
        auto read = logbook.forEachContent(
            look.kinds, [&](std::string_view device, std::string_view content) {
                if (!look.mayBeWanted(device, content)) {
                    return;
                }
                if (auto record = logbook::readRecord(content)) {
                    add(std::move(*record), search);
                } else {
                    m_hasReadAll = false;
                }
            },
            *arrival);
        if (!read) {
            return read;
        }
    }
    m_arrival = *arrival;
    return {};
}

// All of it or nothing, so that what was found is told once, also after a failure.
tl::expected<void, store::Trouble> FoundRecords::addArrived(const store::Logbook& logbook,
                                                            const Search& search) {
    const auto last = logbook.lastArrival();
    if (!last) {
        return tl::unexpected<store::Trouble>(last.error());
    }
    store::Selection selection{.arrivedAfter = m_arrival, .arrivedUpTo = *last};
    std::vector<store::ReadRecord> portion(recordsAtOnce);
    std::vector<logbook::Record> arrived;
    for (;;) {
        const auto count = logbook.readRecords(selection, portion);
        if (!count) {
            return tl::unexpected<store::Trouble>(count.error());
        }
        for (std::size_t index = 0; index < *count; ++index) {
            m_hasReadAll = m_hasReadAll && portion[index].whole;
            if (portion[index].whole && search.isWanted(portion[index].record)) {
                arrived.push_back(std::move(portion[index].record));
            }
        }
        if (*count < portion.size()) {
            break;
        }
        selection.after = portion.back().place;
    }
    for (auto& record : arrived) {
        add(std::move(record), search);
    }
    m_arrival = *last;
    return {};
}

void FoundRecords::add(logbook::Record&& record, const Search& search) {
    if (search.isWanted(record)) {
        auto name = record.name;
        m_records.insert_or_assign(std::move(name), std::move(record));
    }
}

}  // namespace station
