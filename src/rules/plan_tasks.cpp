// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding the tasks of a plan: read what blocks, add what remedies it, read again until nothing is
// added; see plan_tasks.h.
#include "rules/plan_tasks.h"

#include "rules/evaluate.h"
#include "rules/findings.h"

#include <algorithm>

namespace rules {
namespace {

class TaskFinder {
public:
    explicit TaskFinder(const PlanQuestion& question)
        : m_question(question), m_rulebook(*question.state.rulebook) {
        const Device& device = *question.state.device(question.device);
        m_tasks.group = question.group && device.group() != question.group;
        m_tasks.fits = question.changing;
    }

    TaskSet find() {
        // Each round adds to sets of positions and checks of the edition, so it comes to an end;
        // the checks may fall away again, which the count of rounds bounds.
        const std::size_t rounds = 4 * (m_rulebook.positions.size() + m_rulebook.checks.size() + 2);
        for (std::size_t round = 0; round < rounds; ++round) {
            do {
                read();
                m_changed = false;
                if (m_question.mindsParts) addForParts();
            } while (m_changed);
            const auto checks = m_tasks.checks;
            m_tasks.checks = checksToCarryOut();
            for (const auto& key : m_tasks.checks) addForCheck(*m_rulebook.check(key));
            if (!m_changed && checks == m_tasks.checks) break;
        }
        return m_tasks;
    }

private:
    const Device& device() const { return *m_after.device(m_question.device); }
    const Device& deviceNow() const { return *m_question.state.device(m_question.device); }

    void read() {
        const auto asked = [this](TaskKind, const std::string&) { return m_question.at; };
        m_after = carryOut(m_question, m_tasks, asked).after;
    }

    // A position that a choice takes out gets nothing else.
    void add(std::set<std::string>& set, const std::string& key) {
        if (m_tasks.removes.contains(key)) return;
        m_changed |= set.insert(key).second;
    }

    void addFit(const std::string& position) {
        add(m_tasks.fits, position);
        m_tasks.reprocess.erase(position);
    }

    void addForParts() {
        addForFindings();
        addForNotices();
        addForChoices();
    }

    void addForFindings() {
        const auto assessment =
            assess(m_after, device(), {m_question.at, m_question.group, false, false});
        for (const Finding& finding : assessment.findings) {
            const Position* position = m_rulebook.position(finding.subject);
            if (!position || finding.blocking() != Blocks::Yes) continue;
            switch (finding.code) {
                case FindingCode::Missing:
                case FindingCode::Mismatch:
                case FindingCode::Expired:
                case FindingCode::ChangeDue:
                case FindingCode::WornOut:
                case FindingCode::Spent: addFit(position->key); break;
                case FindingCode::Unprocessed:
                    if (position->spare) {
                        addFit(position->key);
                    } else if (!m_tasks.fits.contains(position->key)) {
                        add(m_tasks.reprocess, position->key);
                    }
                    break;
                default: break;
            }
        }
    }

    void addForNotices() {
        const FindingContext context{m_after,       m_rulebook,       device(),
                                     m_question.at, m_question.group, device().group()};
        for (const auto& [key, known] : m_after.notices) {
            if (known.notice.action != logbook::NoticeAction::StopUse) continue;
            for (const auto& position : positionsUnder(context, known)) addFit(position);
        }
    }

    void addForChoices() {
        for (const Choice& choice : m_rulebook.choices) {
            std::vector<std::string> occupied;
            for (const auto& position : choice.positions) {
                const bool planned = m_tasks.fits.contains(position);
                if (planned || device().fitted.contains(position)) occupied.push_back(position);
            }
            if (occupied.empty()) addFit(choice.positions.front());
            for (std::size_t extra = 1; extra < occupied.size(); ++extra)
                takeOutOf(occupied[extra]);
        }
    }

    void takeOutOf(const std::string& position) {
        m_changed |= m_tasks.removes.insert(position).second;
        m_tasks.fits.erase(position);
        m_tasks.reprocess.erase(position);
        m_tasks.closing.erase(position);
        m_tasks.openings.erase(position);
    }

    // Those whose finding blocks the verdict, and what they are to come after, as far as it is not
    // current.
    std::set<std::string> checksToCarryOut() const {
        const auto assessment =
            assess(m_after, device(), {m_question.at, m_question.group, false, false});
        std::vector<std::string> open;
        for (const Finding& finding : assessment.findings) {
            const bool ofCheck = finding.code == FindingCode::Due ||
                                 finding.code == FindingCode::Failed ||
                                 finding.code == FindingCode::Lapsed;
            if (ofCheck && finding.blocking() == Blocks::Yes) open.push_back(finding.subject);
        }
        std::set<std::string> checks;
        while (!open.empty()) {
            const std::string key = open.back();
            open.pop_back();
            if (!checks.insert(key).second) continue;
            for (const auto& before : m_rulebook.check(key)->after) {
                const auto status =
                    statusOf(m_after, device(), *m_rulebook.check(before), m_question.at);
                const bool stands = status == CheckStatus::Current || status == CheckStatus::Exempt;
                if (!stands) open.push_back(before);
            }
        }
        return checks;
    }

    void addForCheck(const Check& check) {
        for (const auto& position : check.needsMatch) {
            const auto& group = m_question.group;
            if (!group || !fittedSuits(device(), position, *group)) addFit(position);
        }
        for (const NotWith& rule : check.notWith) {
            if (!device().fitted.contains(rule.position)) continue;
            if (!forbids(m_after, device(), check, rule.position)) continue;
            add(m_tasks.closing, rule.position);
            const bool occupied = deviceNow().fitted.contains(rule.position);
            if (occupied) add(m_tasks.openings, rule.position);
        }
        const bool waitsForPower = powerUnknown(deviceNow(), check);
        if (waitsForPower && !m_tasks.powerOn) m_tasks.powerOn = m_changed = true;
    }

    const PlanQuestion& m_question;
    const Rulebook& m_rulebook;
    TaskSet m_tasks;
    State m_after;
    bool m_changed = false;
};

// A choice whose surplus part is taken out although a check needs it in.
void addTornChoices(const Rulebook& rulebook, const TaskSet& tasks,
                    std::set<std::string>& blockers) {
    for (const Choice& choice : rulebook.choices) {
        for (const auto& position : choice.positions) {
            if (!tasks.removes.contains(position)) continue;
            const bool needed =
                std::any_of(tasks.checks.begin(), tasks.checks.end(), [&](const std::string& key) {
                    const auto& needs = rulebook.check(key)->needsMatch;
                    return std::find(needs.begin(), needs.end(), position) != needs.end();
                });
            if (needed) blockers.insert("conflict " + choice.key);
        }
    }
}

}  // namespace

bool forbids(const State& all, const Device& device, const Check& check,
             const std::string& position) {
    return std::any_of(check.notWith.begin(), check.notWith.end(), [&](const NotWith& rule) {
        return rule.position == position &&
               (!rule.when || holds(*rule.when, device, *all.rulebook, Unknown::Holds));
    });
}

TaskSet findTasks(const PlanQuestion& question) {
    return TaskFinder(question).find();
}

std::vector<std::string> blockersAfter(const PlanQuestion& question, const TaskSet& tasks) {
    const auto asked = [&question](TaskKind, const std::string&) { return question.at; };
    const State finished = carryOut(question, tasks, asked).finished;
    const Device& device = *finished.device(question.device);
    std::set<std::string> blockers;
    if (device.use) blockers.insert("in_use");
    const auto assessment = assess(finished, device, {question.at, question.group, false, false});
    for (const Finding& finding : assessment.findings) {
        if (finding.blocking() == Blocks::Yes) blockers.insert(toText(finding));
    }
    addTornChoices(*finished.rulebook, tasks, blockers);
    return {blockers.begin(), blockers.end()};
}

}  // namespace rules
