// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random rulebooks and devices for plans; see plan_random.h.
#include "rules/plan_random.h"

namespace support {
namespace {

// "name = value" on a line of its own.
std::string field(const std::string& name, const std::string& value) {
    return name + " = " + value + "\n";
}

std::string inQuotes(const std::string& text) { return "\"" + text + "\""; }

}  // namespace

RandomSetUp::RandomSetUp(std::uint32_t seed) : m_random(seed) {
    Texts positions{"cell", "circuit", "hme", "valve"};
    Texts checks{"alarm", "battery", "cal", "leak", "zero"};
    m_random.shuffle(positions);
    m_random.shuffle(checks);
    m_positions.assign(positions.begin(), positions.begin() + 1 + m_random.below(4));
    m_checks.assign(checks.begin(), checks.begin() + 1 + m_random.below(4));
    std::string sections;
    for (const auto& key : m_positions) addPosition(key);
    const Texts all = m_checks;
    m_checks.clear();
    for (const auto& key : all) {
        addCheck(key);
        m_checks.push_back(key);
    }
    if (m_positions.size() > 1 && m_random.chance(20)) addChoice();
    m_rulebook = book(m_rulebook);
    addRecords();
}

std::string RandomSetUp::anyDuration(const Texts& durations) {
    return inQuotes(m_random.pick(durations));
}

std::string RandomSetUp::condition() {
    const std::string position = m_random.pick(m_positions);
    switch (m_random.below(6)) {
    case 0: return "{ \"feature.co2\" = true }";
    case 1: return "{ \"group\" = [\"pediatric\", \"neonatal\"] }";
    case 2: return "{ \"" + position + ".fitted\" = " + (m_random.chance(50) ? "true" : "false") +
                   " }";
    case 3: return "{ \"" + position + ".reuse\" = \"permanent\" }";
    default: return "{ \"" + position + ".kind\" = " + inQuotes(m_random.pick(Texts{"a", "b"})) +
                    " }";
    }
}

void RandomSetUp::addPosition(const std::string& key) {
    m_rulebook += "[positions." + key + "]\n";
    const auto maybe = [this](int percent, const std::string& name, const std::string& value) {
        if (m_random.chance(percent)) m_rulebook += field(name, value);
    };
    maybe(60, "required", "true");
    maybe(10, "required_when", condition());
    maybe(30, "match_group", "true");
    maybe(70, "reuse", m_random.pick(Texts{"\"single_patient\"", "\"reusable\""}));
    maybe(20, "spare", "true");
    maybe(10, "max_reprocess", "0");
    maybe(15, "change_after", "\"PT1H\"");
    maybe(60, "takes", anyDuration({"PT0S", "PT30S", "PT2M", "PT5M"}));
    if (m_random.chance(70)) {
        m_rulebook += field("reprocess_takes", anyDuration({"PT6M", "PT10M", "PT15M"}));
        m_rulebook += field("reprocess_attended", anyDuration({"PT1M", "PT2M", "PT6M"}));
    }
}

std::string RandomSetUp::voidedBy() {
    const std::string position = m_random.chance(80) ? m_random.pick(m_positions) : "*";
    const std::string verb = m_random.pick(Texts{"fit", "fit", "change", "remove", "reprocess"});
    std::string entry = inQuotes(verb + " " + position);
    if (m_random.chance(15)) entry = m_random.pick(Texts{"\"group\"", "\"power_on\""});
    if (entry.starts_with("\"fit") && m_random.chance(30)) {
        entry += ", only = " + m_random.pick(Texts{"\"new_part\"", "\"different kind\"",
                                                    "\"different reuse\""});
    }
    if (m_random.chance(20)) entry += ", when = " + condition();
    if (m_random.chance(20)) entry += ", unless = " + condition();
    return "{ event = " + entry + " }";
}

void RandomSetUp::addCheck(const std::string& key) {
    m_rulebook += "[checks." + key + "]\n";
    const bool attended = m_random.chance(50);
    m_rulebook += field("takes", anyDuration({"PT1M", "PT2M", "PT4M", "PT7M"}));
    const auto maybe = [this](int percent, const std::string& name, const std::string& value) {
        if (m_random.chance(percent)) m_rulebook += field(name, value);
    };
    if (!attended) m_rulebook += field("attended", anyDuration({"PT0S", "PT30S", "PT1M"}));
    maybe(15, "blocks", m_random.pick(Texts{"false", "\"start\""}));
    maybe(20, "fail_blocks", "false");
    maybe(15, "applies_when", condition());
    maybe(10, "valid_for", "\"PT30M\"");
    maybe(25, "needs_match", "[" + inQuotes(m_random.pick(m_positions)) + "]");
    const std::string when = m_random.chance(40) ? ", when = " + condition() : "";
    maybe(35, "not_with", "[{ position = " + inQuotes(m_random.pick(m_positions)) + when + " }]");
    if (!m_checks.empty()) maybe(30, "after", "[" + inQuotes(m_random.pick(m_checks)) + "]");
    maybe(75, "voided_by", "[" + voidedBy() + ", " + voidedBy() + "]");
    const std::string event =
        m_random.chance(30) ? "power_on"
                            : "fit " + (m_random.chance(85) ? m_random.pick(m_positions) : "*");
    maybe(40, "not_before", "[{ event = " + inQuotes(event) + ", wait = " +
                                anyDuration({"PT3M", "PT8M", "PT20M"}) + " }]");
}

void RandomSetUp::addChoice() {
    m_rulebook += "[choices.one]\npositions = [" + inQuotes(m_positions[0]) + ", " +
                  inQuotes(m_positions[1]) + "]\n";
}

void RandomSetUp::addRecords() {
    m_log.adopt(m_rulebook);
    m_log.on(device).enrol({"adult", "pediatric"}, m_random.chance(50) ? Texts{"co2"} : Texts{});
    m_log.on(device).group("adult");
    if (m_random.chance(40)) m_log.on(device).power(true);
    addParts();
    if (m_random.chance(50)) {
        m_log.on(device).at("08:40").useStart();
        m_log.on(device).useEnd();
    }
    addChecks();
    if (m_random.chance(50)) addParts();
    if (m_random.chance(20)) m_log.on(device).at("09:57").power(m_random.chance(70));
    if (m_random.chance(25)) m_group = "pediatric";
}

void RandomSetUp::addParts() {
    for (const auto& position : m_positions) {
        if (m_random.chance(25)) continue;
        json::Object part;
        if (m_random.chance(60)) part.emplace_back("serial", m_random.pick(Texts{"S1", "S2"}));
        if (m_random.chance(60)) part.emplace_back("kind", m_random.pick(Texts{"a", "b"}));
        if (m_random.chance(30)) part.emplace_back("reuse", "permanent");
        if (m_random.chance(60)) {
            part.emplace_back("groups", m_random.chance(60) ? list({"adult", "pediatric"})
                                                            : list({"adult"}));
        }
        m_log.on(device).fit(position, std::move(part));
        if (m_random.chance(10)) m_log.on(device).remove(position);
    }
}

void RandomSetUp::addChecks() {
    m_log.takeTime(when(m_random.chance(50) ? "09:10" : "09:40"));
    for (const auto& check : m_checks) {
        if (m_random.chance(30)) continue;
        m_log.on(device).stating("warmed_up").check(check, m_random.chance(85) ? "pass" : "fail");
    }
}

}  // namespace support
