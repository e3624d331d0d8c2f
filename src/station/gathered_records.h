// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records of a logbook gathered from several selections, each once, and whether all could be read.
// Judges nothing.
#pragma once

#include "station/problem.h"
#include "station/surroundings.h"
#include "store/logbook.h"

#include <functional>
#include <set>
#include <vector>

namespace station {

// References must outlive it.
class GatheredRecords {
public:
    GatheredRecords(const Surroundings& surroundings, const store::Logbook& logbook);

    using IsWanted = std::function<bool(const logbook::Record&)>;
    // All of the selection that are not here yet; of those only the wanted, where that is asked.
    [[nodiscard]] Result<void> add(store::Selection selection, const IsWanted& isWanted = {});
    // One by its name; nothing if there is no such record.
    [[nodiscard]] Result<void> add(const logbook::RecordName& name);

    [[nodiscard]] bool has(const logbook::RecordName& name) const { return m_names.contains(name); }

    // Of what was asked for not all was given.
    void lackIf(bool isLacking) { m_hasReadAll = m_hasReadAll && !isLacking; }
    // False: one that was selected is no record, or not that of its columns; or it was lacking.
    [[nodiscard]] bool hasReadAll() const { return m_hasReadAll; }
    [[nodiscard]] std::vector<logbook::Record> take() { return std::move(m_records); }

private:
    void keep(logbook::Record&& record);

    const Surroundings& m_surroundings;
    const store::Logbook& m_logbook;
    std::vector<store::ReadRecord> m_portion;
    std::vector<logbook::Record> m_records{};
    std::set<logbook::RecordName> m_names{};
    bool m_hasReadAll = true;
};

}  // namespace station
