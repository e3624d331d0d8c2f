// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The soonest ways to ready; see soonest_ready.h.
#include "desktop/fleet/soonest_ready.h"

#include "desktop/fleet/fleet_rows.h"
#include "desktop/shell/text.h"
#include "rules/plan.h"

#include <algorithm>

namespace desktop {

namespace {

using rules::Verdict;

// After so long what was worked out is worked out again: the clock has gone on.
constexpr logbook::Duration outdatedAfter{60'000};

bool isSame(const rules::Assessment& one, const rules::Assessment& other) {
    return one.verdict == other.verdict && one.group == other.group &&
           one.last.has_value() == other.last.has_value() &&
           (!one.last || one.last->name == other.last->name) &&
           std::equal(one.findings.begin(), one.findings.end(), other.findings.begin(),
                      other.findings.end(), [](const auto& a, const auto& b) {
                          return a.code == b.code && a.subject == b.subject;
                      });
}

bool canBePlanned(const report::BoardRow& row) {
    return row.assessment.verdict == Verdict::NotReady && !row.inDoubt;
}

}  // namespace

SoonestReady::SoonestReady(QObject* parent) : QObject(parent) {}

void SoonestReady::show(SharedFleetView fleet) {
    if (goesOn(*fleet)) return;
    m_fleet = std::move(fleet);
    ++m_round;
    keepWhatHolds();
    queueUnits();
    Q_EMIT changed();
    if (!m_isWorking) workOutNext();
}

void SoonestReady::clear() {
    ++m_round;
    m_fleet.reset();
    m_known.clear();
    m_waiting.clear();
    Q_EMIT changed();
}

bool SoonestReady::goesOn(const FleetView& fleet) const {
    if (!m_fleet || fleet.readAt - m_fleet->readAt >= outdatedAfter) return false;
    if (fleet.standing->facts.arrival != m_fleet->standing->facts.arrival ||
        fleet.board.rows.size() != m_fleet->board.rows.size())
        return false;
    return std::equal(fleet.board.rows.begin(), fleet.board.rows.end(),
                      m_fleet->board.rows.begin(), [](const auto& a, const auto& b) {
                          return a.assessment.device == b.assessment.device &&
                                 a.inDoubt == b.inDoubt && isSame(a.assessment, b.assessment);
                      });
}

// A way that was worked out for the unit as it stands is shown until it is worked out again.
void SoonestReady::keepWhatHolds() {
    std::map<std::string, Known> kept;
    for (const auto& row : m_fleet->board.rows) {
        const auto known = m_known.find(row.assessment.device);
        if (canBePlanned(row) && known != m_known.end() &&
            isSame(known->second.found, row.assessment))
            kept.insert(std::move(*known));
    }
    m_known = std::move(kept);
}

// First those that nothing is known of, what lacks least before the others.
void SoonestReady::queueUnits() {
    m_waiting.clear();
    const auto& rows = m_fleet->board.rows;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (canBePlanned(rows[i])) m_waiting.push_back(i);
    const auto rank = [&](std::size_t i) {
        const auto& found = rows[i].assessment;
        return std::pair(m_known.contains(found.device), found.findings.size());
    };
    std::stable_sort(m_waiting.begin(), m_waiting.end(),
                     [&](auto a, auto b) { return rank(a) > rank(b); });
}

void SoonestReady::workOutNext() {
    if (m_waiting.empty()) return;
    const auto row = m_waiting.back();
    m_isWorking = true;
    m_work.run(
        [fleet = m_fleet, row] {
            const auto& board = fleet->board;
            const auto& device = *board.state.device(board.rows[row].assessment.device);
            return rules::plan(board.state, device, board.asked, std::nullopt);
        },
        this,
        [this, round = m_round, row](const rules::Plan& plan) {
            m_isWorking = false;
            take(round, row, plan);
            workOutNext();
        },
        Background::Urgency::Later);
}

void SoonestReady::take(int round, std::size_t row, const rules::Plan& plan) {
    if (round != m_round || m_waiting.empty()) return;
    m_waiting.pop_back();
    const auto& found = m_fleet->board.rows[row].assessment;
    Known known{found, std::nullopt};
    // What runs out meanwhile would make it not ready again.
    if (plan.readyAt && plan.runsOut.empty())
        known.way = Way{shownText(found.device), whereOf(m_fleet->lines[row]), *plan.readyAt,
                        plan.exact};
    m_known.insert_or_assign(found.device, std::move(known));
    Q_EMIT changed();
}

std::vector<SoonestReady::Way> SoonestReady::soonest(std::size_t most) const {
    std::vector<Way> ways;
    for (const auto& [serial, known] : m_known)
        if (known.way) ways.push_back(*known.way);
    std::stable_sort(ways.begin(), ways.end(),
                     [](const Way& a, const Way& b) { return a.readyAt < b.readyAt; });
    if (ways.size() > most) ways.resize(most);
    return ways;
}

}  // namespace desktop
