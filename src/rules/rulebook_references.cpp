// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Circles in `after`, and keys that stand for two things.
#include "rules/rulebook_references.h"

#include <algorithm>

namespace rules {

namespace {

enum class Visit { Not, Under, Done };

// One check on the way, and which of its `after` comes next.
struct Step {
    std::size_t check = 0;
    std::size_t next = 0;
};

std::string wayRound(const Rulebook& rulebook, const std::vector<Step>& way, std::size_t first) {
    constexpr int mostNamed = 20;
    auto step = std::ranges::find(way, first, &Step::check);
    std::string text;
    for (int named = 0; step != way.end() && named < mostNamed; ++step, ++named) {
        text += rulebook.checks[step->check].key + ", ";
    }
    return text + (step == way.end() ? "" : "..., ") + rulebook.checks[first].key;
}

// `after` without unknown names may be shorter than the list in the text.
Place placeOfAfter(const toml::table& root, const std::string& check, const std::string& name) {
    const auto* list = root["checks"][check]["after"].as_array();
    std::size_t index = 0;
    while (list && index < list->size() && list->get(index)->value<std::string>() != name) {
        ++index;
    }
    return placeIn(root, {"checks", check, "after", std::to_string(index)});
}

class CycleSearch {
public:
    CycleSearch(const Rulebook& rulebook, const toml::table& root, RemarkList& faults)
        : m_rulebook(rulebook), m_root(root), m_faults(faults),
          m_visits(rulebook.checks.size(), Visit::Not) {}

    void from(std::size_t start) {
        if (m_visits[start] == Visit::Not) {
            enter(start);
        }
        while (!m_way.empty()) {
            advance();
        }
    }

private:
    void enter(std::size_t check) {
        m_visits[check] = Visit::Under;
        m_way.push_back({check, 0});
    }

    void advance() {
        auto& step = m_way.back();
        const auto& check = m_rulebook.checks[step.check];
        if (step.next == check.after.size()) {
            m_visits[step.check] = Visit::Done;
            m_way.pop_back();
            return;
        }
        const auto& name = check.after[step.next++];
        const auto* other = m_rulebook.check(name);
        if (!other) {
            return;
        }
        const auto index = static_cast<std::size_t>(other - m_rulebook.checks.data());
        if (m_visits[index] == Visit::Under) {
            m_faults.add(RemarkCode::Cycle, placeOfAfter(m_root, check.key, name),
                         wayRound(m_rulebook, m_way, index));
        } else if (m_visits[index] == Visit::Not) {
            enter(index);
        }
    }

    const Rulebook& m_rulebook;
    const toml::table& m_root;
    RemarkList& m_faults;
    std::vector<Visit> m_visits;
    std::vector<Step> m_way;
};

}  // namespace

void refuseCycles(const Rulebook& rulebook, const toml::table& root, RemarkList& faults) {
    CycleSearch search(rulebook, root, faults);
    const auto count = rulebook.checks.size();
    for (std::size_t check = 0; check < count && !faults.isFull(); ++check) {
        search.from(check);
    }
}

void refuseTakenKeys(const Field& choices, const toml::table& root, RemarkList& faults) {
    const auto* table = choices.node->as_table();
    if (!table) {
        return;
    }
    for (const auto& member : membersOf(choices, faults).value_or(Fields{})) {
        for (const std::string section : {"positions", "conflicts"}) {
            const auto* other = root.get_as<toml::table>(section);
            if (other && other->contains(member.name)) {
                faults.add(RemarkCode::KeyTaken, member.namePlace, section + "." + member.name);
            }
        }
    }
}

}  // namespace rules
