// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The tasks of the second model of plans, and what blocks after them; see plan_reference.h.
#include "rules/plan_reference.h"
#include "rules/plan_reference_scene.h"

#include <algorithm>

namespace plan_reference {
namespace {

using rules::Blocks;
using rules::Check;
using rules::EventKind;
using rules::FindingCode;

bool isRequired(const Scene& scene, const rules::Position& position) {
    return position.required ||
           (position.requiredWhen && holds(scene, *position.requiredWhen, true));
}

class TaskFinder {
public:
    explicit TaskFinder(const Question& question)
        : m_question(question), m_book(*question.state.rulebook) {
        m_tasks.group = question.device.group() != question.group;
    }

    Tasks find() {
        for (int round = 0; round < 200; ++round) {
            const auto before = texts();
            addForParts();
            addForChoices();
            m_tasks.checks = checks();
            const Scene after = sceneAfter(m_question, m_tasks, true);
            for (const auto& key : m_tasks.checks) addForCheck(*m_book.check(key), after);
            if (texts() == before) break;
        }
        return m_tasks;
    }

private:
    std::set<std::string> texts() const {
        std::set<std::string> all;
        const auto add = [&all](const std::string& what, const std::set<std::string>& keys) {
            for (const auto& key : keys) all.insert(what + key);
        };
        add("reprocess ", m_tasks.reprocesses);
        add("choice ", m_tasks.removedForChoice);
        add("fit ", m_tasks.newParts);
        add("closing ", m_tasks.closing);
        add("out ", m_tasks.takenOut);
        add("check ", m_tasks.checks);
        if (m_tasks.powerOn) all.insert("power");
        return all;
    }

    bool isIn(const std::string& position) const {
        return m_question.device.fitted.contains(position);
    }

    void fit(const std::string& position) {
        if (m_tasks.removedForChoice.contains(position)) return;
        m_tasks.newParts.insert(position);
        m_tasks.reprocesses.erase(position);
    }

    // Findings on the parts as they are; what is new or reprocessed has none but those named here.
    void addForParts() {
        const auto now = rules::assess(m_question.state, m_question.device,
                                       {m_question.at, m_question.group, false, false});
        for (const auto& finding : now.findings) {
            const auto* position = m_book.position(finding.subject);
            const bool ofPart = finding.code == FindingCode::Mismatch ||
                                finding.code == FindingCode::Expired ||
                                finding.code == FindingCode::ChangeDue ||
                                finding.code == FindingCode::WornOut ||
                                finding.code == FindingCode::Spent ||
                                finding.code == FindingCode::Unprocessed;
            if (!position || !ofPart || finding.blocking() != Blocks::Yes) continue;
            const bool reprocessed =
                finding.code == FindingCode::Unprocessed && !position->spare &&
                !m_tasks.newParts.contains(position->key) && !wearsOut(*position);
            if (!reprocessed) {
                fit(position->key);
            } else if (!m_tasks.removedForChoice.contains(position->key)) {
                m_tasks.reprocesses.insert(position->key);
            }
        }
        const Scene scene = sceneAfter(m_question, m_tasks, true);
        for (const auto& position : m_book.positions) {
            if (isRequired(scene, position) && !scene.parts.contains(position.key)) {
                fit(position.key);
            }
        }
    }

    bool wearsOut(const rules::Position& position) const {
        const auto& part = m_question.device.fitted.at(position.key);
        const int cycles = m_question.state.life(part, position.key).cycles + 1;
        return position.maxReprocess && cycles > *position.maxReprocess;
    }

    void addForChoices() {
        for (const auto& choice : m_book.choices) {
            std::vector<std::string> occupied;
            for (const auto& position : choice.positions) {
                const bool stays = isIn(position) && !m_tasks.removedForChoice.contains(position);
                if (stays || m_tasks.newParts.contains(position)) occupied.push_back(position);
            }
            if (occupied.empty()) fit(choice.positions.front());
            for (std::size_t index = 1; index < occupied.size(); ++index) {
                for (auto* set : {&m_tasks.newParts, &m_tasks.reprocesses, &m_tasks.closing,
                                  &m_tasks.takenOut}) {
                    set->erase(occupied[index]);
                }
                m_tasks.removedForChoice.insert(occupied[index]);
            }
        }
    }

    // All that happens to the device, each with the scene in which it is read.
    bool isVoided(const Check& check) const {
        const Scene before = sceneAfter(m_question, m_tasks, false);
        const auto voided = [&](const Scene& scene, EventKind kind, const std::string& subject) {
            return voids(scene, m_question, check, {kind, subject});
        };
        if (m_tasks.group && voided(before, EventKind::Group, "")) return true;
        if (m_tasks.powerOn && voided(before, EventKind::PowerOn, "")) return true;
        for (const auto& key : m_tasks.reprocesses) {
            if (voided(before, EventKind::Reprocess, key)) return true;
        }
        for (const auto* removed : {&m_tasks.removedForChoice, &m_tasks.takenOut}) {
            for (const auto& key : *removed) {
                if (isIn(key) && voided(before, EventKind::Remove, key)) return true;
            }
        }
        for (const auto& key : m_tasks.newParts) {
            const bool closes = m_tasks.closing.contains(key);
            if (!closes && voided(before, EventKind::Fit, key)) return true;
        }
        const Scene after = sceneAfter(m_question, m_tasks, true);
        return std::any_of(m_tasks.closing.begin(), m_tasks.closing.end(), [&](const auto& key) {
            return voided(after, EventKind::Fit, key);
        });
    }

    enum class Standing { Exempt, Current, Due, Failed };

    Standing standing(const Check& check) const {
        const Scene after = sceneAfter(m_question, m_tasks, true);
        if (!holds(after, check.appliesWhen, true)) return Standing::Exempt;
        const auto found = m_question.device.checks.find(check.key);
        if (found == m_question.device.checks.end() || !found->second.last) return Standing::Due;
        const auto& state = found->second;
        if (state.lastFailed) return Standing::Failed;
        const bool stands = state.certainPassFollows && !isVoided(check);
        const bool lapsed = check.validFor && m_question.at >= state.last->at + *check.validFor;
        return stands && !lapsed ? Standing::Current : Standing::Due;
    }

    std::set<std::string> checks() const {
        std::set<std::string> all;
        for (const auto& check : m_book.checks) {
            const auto stands = standing(check);
            const bool blocks = check.blocks == Blocks::Yes ||
                                (stands == Standing::Failed && check.failBlocks);
            const bool open = stands == Standing::Due || stands == Standing::Failed;
            if (open && blocks) addWithEarlier(check, all);
        }
        return all;
    }

    void addWithEarlier(const Check& check, std::set<std::string>& all) const {
        if (!all.insert(check.key).second) return;
        for (const auto& key : check.after) {
            const Check& earlier = *m_book.check(key);
            const auto stands = standing(earlier);
            if (stands == Standing::Due || stands == Standing::Failed) addWithEarlier(earlier, all);
        }
    }

    // With the parts in place as they were before anything is added for checks.
    void addForCheck(const Check& check, const Scene& after) {
        for (const auto& position : check.needsMatch) {
            const auto part = after.parts.find(position);
            if (part == after.parts.end() || !suits(part->second, m_question.group)) fit(position);
        }
        for (const auto& rule : check.notWith) {
            if (!after.parts.contains(rule.position)) continue;
            if (!isForbiddenWith(after, check, rule.position)) continue;
            m_tasks.closing.insert(rule.position);
            if (isIn(rule.position)) m_tasks.takenOut.insert(rule.position);
        }
        for (const auto& rule : check.notBefore) {
            if (rule.event.kind == EventKind::PowerOn && !m_question.device.poweredSince) {
                m_tasks.powerOn = true;
            }
        }
    }

    const Question& m_question;
    const rules::Rulebook& m_book;
    Tasks m_tasks;
};

}  // namespace

std::size_t Tasks::count() const {
    auto fits = newParts;
    fits.insert(closing.begin(), closing.end());
    return (group ? 1U : 0U) + reprocesses.size() + removedForChoice.size() + takenOut.size() +
           fits.size() + checks.size();
}

Tasks tasksOf(const Question& question) { return TaskFinder(question).find(); }

std::set<std::string> blockersOf(const Question& question, const Tasks& tasks) {
    std::set<std::string> blockers;
    const Scene after = sceneAfter(question, tasks, true);
    for (const auto& position : after.book.positions) {
        if (isRequired(after, position) && !after.parts.contains(position.key)) {
            blockers.insert("missing " + position.key);
        }
    }
    for (const auto& choice : after.book.choices) {
        for (const auto& key : tasks.checks) {
            for (const auto& needed : after.book.check(key)->needsMatch) {
                const auto& all = choice.positions;
                const bool listed = std::find(all.begin(), all.end(), needed) != all.end();
                if (listed && tasks.removedForChoice.contains(needed)) {
                    blockers.insert("conflict " + choice.key);
                }
            }
        }
    }
    return blockers;
}

}  // namespace plan_reference
