// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units to be enrolled against the log; see fleet_check.h.
#include "station/fleet_check.h"

#include "rules/features.h"
#include "station/privacy.h"
#include "station/standing.h"
#include "words/times.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace station {

namespace {

FleetReason reason(const words::Words& words, std::string_view code, std::string_view column,
                   words::Gaps gaps) {
    gaps["column"] = column;
    return {std::string(code), std::string(column),
            words.sentence("fleet_fault." + std::string(code), gaps)};
}

// A clock that was set back must not hide what is enrolled.
logbook::Instant lastKnown(const rules::Log& log, logbook::Instant now) {
    return log.records().empty() ? now : std::max(now, log.records().back().at);
}

const std::string* firstUnknown(const std::vector<std::string>& keys,
                                const std::vector<std::string>& known) {
    const auto found = std::ranges::find_if(keys, [&](const std::string& key) {
        return std::ranges::find(known, key) == known.end();
    });
    return found == keys.end() ? nullptr : &*found;
}

}  // namespace

FleetReason reasonOf(const words::Words& words, const exchange::FleetFault& fault) {
    return reason(words, name(fault.code), fault.column,
                  {{"detail", fault.detail},
                   {"most", std::to_string(exchange::longestFleetText)}});
}

FleetCheck::FleetCheck(const Surroundings& surroundings, const LogAtHand& log)
    : m_words(surroundings.words),
      m_state(stateOf(log, lastKnown(log.log, surroundings.clock.now()))),
      m_mayBeUnread(!doubtsOf(surroundings, log).empty()) {
    m_today = m_state.rulebook->zone->dayOf(surroundings.clock.now());
    for (const auto& [serial, device] : m_state.devices) {
        if (device->retired) {
            continue;
        }
        m_numbers[serial].insert(serial);
        if (device->enrolment.asset) {
            m_numbers[*device->enrolment.asset].insert(serial);
        }
    }
    for (const auto& group : m_state.rulebook->groups) {
        m_groups.push_back(group.key);
    }
    m_features = rules::featuresOf(*m_state.rulebook);
}

std::vector<FleetReason> FleetCheck::reasonsAgainst(const exchange::FleetRow& row,
                                                    bool namesNoPatient) const {
    std::vector<FleetReason> reasons;
    for (const auto& fault : exchange::faultsOf(row)) {
        reasons.push_back(reasonOf(m_words, fault));
    }
    auto more = reasonsInLog(row, namesNoPatient);
    std::ranges::move(more, std::back_inserter(reasons));
    return reasons;
}

std::vector<FleetReason> FleetCheck::reasonsInLog(const exchange::FleetRow& row,
                                                  bool namesNoPatient) const {
    std::vector<FleetReason> reasons;
    checkNumbers(row, reasons);
    checkKeys(row, reasons);
    if (row.unit.commissioned > m_today) {
        reasons.push_back(reason(m_words, "not_yet", "commissioned",
                                 {{"day", logbook::toText(row.unit.commissioned)}}));
    }
    if (!namesNoPatient) {
        checkTexts(row, reasons);
    }
    return reasons;
}

// A unit other than `serial` that a scan of this number would find; "" if there is none.
std::string FleetCheck::holderOf(const std::string& number, const std::string& serial) const {
    const auto found = m_numbers.find(number);
    if (found == m_numbers.end()) {
        return "";
    }
    const auto other = std::ranges::find_if(
        found->second, [&](const std::string& holder) { return holder != serial; });
    return other == found->second.end() ? "" : *other;
}

void FleetCheck::checkNumbers(const exchange::FleetRow& row,
                              std::vector<FleetReason>& reasons) const {
    const auto* device = m_state.device(row.serial);
    if (device != nullptr && !device->retired) {
        reasons.push_back(reason(m_words, "enrolled_already", "serial", {{"unit", row.serial}}));
    }
    const auto refuse = [&](std::string_view code, std::string_view column,
                            const std::string& number) {
        if (const auto holder = holderOf(number, row.serial); !holder.empty()) {
            reasons.push_back(
                reason(m_words, code, column, {{"number", number}, {"unit", holder}}));
        }
    };
    refuse("serial_taken", "serial", row.serial);
    if (row.unit.asset) {
        refuse("asset_taken", "asset", *row.unit.asset);
    }
}

void FleetCheck::checkKeys(const exchange::FleetRow& row,
                           std::vector<FleetReason>& reasons) const {
    if (const auto* group = firstUnknown(row.unit.groups, m_groups)) {
        reasons.push_back(reason(m_words, "unknown_group", "groups",
                                 {{"group", *group}, {"groups", m_words.anyOf(m_groups)}}));
    }
    const auto* feature = firstUnknown(row.unit.features, m_features);
    if (feature != nullptr && m_features.empty()) {
        reasons.push_back(reason(m_words, "no_features", "features", {{"feature", *feature}}));
    } else if (feature != nullptr) {
        reasons.push_back(
            reason(m_words, "unknown_feature", "features",
                   {{"feature", *feature}, {"features", m_words.anyOf(m_features)}}));
    }
}

void FleetCheck::checkTexts(const exchange::FleetRow& row,
                            std::vector<FleetReason>& reasons) const {
    const std::pair<std::string_view, const std::optional<std::string>&> texts[] = {
        {"label", row.unit.label}, {"location", row.unit.location}};
    for (const auto& [column, text] : texts) {
        const auto traces = text ? patientTraces(*text, m_words) : std::vector<PatientTrace>{};
        if (!traces.empty()) {
            reasons.push_back(
                reason(m_words, "patient_text", column, {{"text", traces.front().text}}));
        }
    }
}

std::vector<std::string> FleetCheck::remarksOn(const exchange::FleetRow& row) const {
    std::vector<std::string> remarks;
    const auto* device = m_state.device(row.serial);
    if (device != nullptr && device->retired) {
        remarks.push_back(m_words.say("fleet.anew"));
    }
    if (m_mayBeUnread) {
        remarks.push_back(m_words.say("fleet.may_be_enrolled"));
    }
    return remarks;
}

}  // namespace station
