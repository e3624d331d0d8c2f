// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which states are kept in memory, and which is gone on from; see folded_log.h.
#include "station/folded_log.h"

#include <algorithm>
#include <cassert>
#include <iterator>
#include <utility>

namespace station {

const FoldedLog::Mark* FoldedLog::markBefore(logbook::Instant at) const {
    const auto after = std::find_if(m_marks.begin(), m_marks.end(),
                                    [&](const Mark& mark) { return mark.place.at > at; });
    return after == m_marks.begin() ? nullptr : &*std::prev(after);
}

// Whether the newest mark gives way to the one that is folded from it, so that it need not be
// copied.
bool FoldedLog::isReplaced(const Mark* from) const {
    if (m_marks.empty() || from != &m_marks.back()) {
        return false;
    }
    return m_limits.isAskedOnce ||
           (m_marks.size() > 1 && from->after < m_limits.recordsApart);
}

rules::State FoldedLog::take(const Folded& folded) {
    const auto mark = std::ranges::find_if(
        m_marks, [&](const Mark& each) { return &each.state == folded.state; });
    if (mark == m_marks.end()) {
        assert(folded.state == &m_passing);
        return std::exchange(m_passing, {});
    }
    auto state = std::move(mark->state);
    m_marks.erase(mark);
    return state;
}

// A state in the midst of the log is not kept: it would throw out others for one question.
const rules::State& FoldedLog::keep(Mark mark, bool isNewest) {
    if (!isNewest) {
        return m_passing = std::move(mark.state);
    }
    if (!m_marks.empty() && m_marks.back().place == mark.place) {
        return m_marks.back().state;
    }
    m_marks.push_back(std::move(mark));
    if (m_marks.size() > m_limits.mostMarks) {
        m_marks[2].after += m_marks[1].after;
        m_marks.erase(m_marks.begin() + 1);
    }
    return m_marks.back().state;
}

}  // namespace station
