// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which of the records that others are judged by (editions, persons, strikes) were read ahead of
// all, by an index of their own. One that is met in the reading order and was not among them would
// change what others tell, and did not: that index does not lead to it.
#pragma once

#include "logbook/record.h"
#include "rules/state.h"
#include "store/heads.h"
#include "store/row.h"

#include <set>
#include <vector>

namespace station {

class Grounding {
public:
    void add(const logbook::RecordName& name) { m_names.insert(name); }
    void clear() { m_names.clear(); }

    // Each person whom it knows is among them.
    [[nodiscard]] bool hasPersonsOf(const rules::State& state) const;

    // False for a record by which no other is judged.
    [[nodiscard]] bool lacks(const logbook::Record& record) const {
        using logbook::Kind;
        const auto kind = record.kind();
        return (kind == Kind::Strike || kind == Kind::Adopt || kind == Kind::Person) &&
               !m_names.contains(record.name);
    }

private:
    std::set<logbook::RecordName> m_names;
};

// The editions adopted up to a place, as a snapshot names them. `founding`: the `adopt` and
// `person` records of the log, in the reading order.
[[nodiscard]] store::Hash rulebooksUpTo(const store::Place& place,
                                        const std::vector<logbook::Record>& founding);

}  // namespace station
