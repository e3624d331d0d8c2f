// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A unit that is to be enrolled against the log and the policy edition: for the use cases of
// fleet_list.h only.
#pragma once

#include "station/fleet_list.h"
#include "station/log_at_hand.h"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace station {

// All references must outlive it. Preconditions: a first edition; states of now can be told.
class FleetCheck {
public:
    FleetCheck(const Surroundings& surroundings, const LogAtHand& log);

    // Why the unit cannot be enrolled now, by itself and by the log; empty: it can.
    [[nodiscard]] std::vector<FleetReason> reasonsAgainst(const exchange::FleetRow& row,
                                                          bool namesNoPatient) const;
    // The second half of these.
    [[nodiscard]] std::vector<FleetReason> reasonsInLog(const exchange::FleetRow& row,
                                                        bool namesNoPatient) const;
    // What is worth knowing of one that can.
    [[nodiscard]] std::vector<std::string> remarksOn(const exchange::FleetRow& row) const;

    // The state by all that is known.
    [[nodiscard]] const rules::State& state() const { return m_state; }

private:
    void checkNumbers(const exchange::FleetRow& row, std::vector<FleetReason>& reasons) const;
    void checkKeys(const exchange::FleetRow& row, std::vector<FleetReason>& reasons) const;
    void checkTexts(const exchange::FleetRow& row, std::vector<FleetReason>& reasons) const;
    [[nodiscard]] std::string holderOf(const std::string& number,
                                       const std::string& serial) const;

    const words::Words& m_words;
    rules::State m_state;
    logbook::Day m_today{};
    bool m_mayBeUnread;  // an enrolment may be among what cannot be read
    std::map<std::string, std::set<std::string>, std::less<>> m_numbers;  // number: its units
    std::vector<std::string> m_groups, m_features;                        // of the edition
};

// "Line 3, \"groups\": …" is said by the caller; this is the reason alone.
[[nodiscard]] FleetReason reasonOf(const words::Words& words, const exchange::FleetFault& fault);

}  // namespace station
