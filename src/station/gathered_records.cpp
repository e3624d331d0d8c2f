// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Gathering records; see gathered_records.h.
#include "station/gathered_records.h"

#include "logbook/record_reader.h"

#include <utility>

namespace station {

namespace {

constexpr std::size_t recordsAtOnce = 500;

}  // namespace

GatheredRecords::GatheredRecords(const Surroundings& surroundings, const store::Logbook& logbook)
    : m_surroundings(surroundings), m_logbook(logbook), m_portion(recordsAtOnce) {}

Result<void> GatheredRecords::add(store::Selection selection, const IsWanted& isWanted) {
    for (;;) {
        const auto count = m_logbook.readRecords(selection, m_portion);
        if (!count) {
            return tl::unexpected(problemOf(m_surroundings.words, count.error()));
        }
        for (std::size_t index = 0; index < *count; ++index) {
            auto& each = m_portion[index];
            m_hasReadAll = m_hasReadAll && each.whole;
            if (each.whole && (!isWanted || isWanted(each.record))) {
                keep(std::move(each.record));
            }
        }
        if (*count < m_portion.size()) {
            return {};
        }
        selection.after = m_portion.back().place;
    }
}

Result<void> GatheredRecords::add(const logbook::RecordName& name) {
    const auto row = m_logbook.findRecord(name);
    if (!row && row.error().code == store::Trouble::Code::NoRecord) {
        return {};
    }
    if (!row) {
        return tl::unexpected(problemOf(m_surroundings.words, row.error()));
    }
    auto record = logbook::readRecord(std::string_view(row->content));
    m_hasReadAll = m_hasReadAll && record && record->name == name;
    if (record) {
        keep(std::move(*record));
    }
    return {};
}

void GatheredRecords::keep(logbook::Record&& record) {
    if (m_names.insert(record.name).second) {
        m_records.push_back(std::move(record));
    }
}

}  // namespace station
