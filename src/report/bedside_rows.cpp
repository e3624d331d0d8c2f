// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is done, what is next, what stands: the rows of one unit; see bedside_rows.h.
#include "report/bedside_rows.h"

#include "report/bedside_order.h"
#include "report/blockers.h"
#include "report/gravity.h"
#include "report/steps.h"
#include "rules/finding_positions.h"
#include "words/bedside_words.h"
#include "words/finding_words.h"
#include "words/lifters.h"
#include "words/record_words.h"

#include <algorithm>
#include <set>

namespace report {

namespace {

using rules::Finding;
using rules::FindingCode;
using words::Context;

std::string markOf(const Context& context, const Finding& finding) {
    if (finding.waivedUntil) return context.words.say("plain.permitted");
    switch (finding.blocks) {
        case rules::Blocks::No: return context.words.say("plain.advisory");
        case rules::Blocks::Start: return context.words.say("plain.at_start");
        case rules::Blocks::Yes: break;
    }
    return "";
}

class Rows {
public:
    explicit Rows(const RowsAsked& asked)
        : m_context(asked.context), m_way(asked.way), m_takenOut(asked.takenOut),
          m_found(asked.way.board.rows.front().assessment),
          m_onSheet(words::sheetHoldStands(asked.context)) {}

    std::vector<BedsideRow> make() {
        if (m_found.verdict == rules::Verdict::Retired) {
            addBlockers();
            return std::move(m_rows);
        }
        addDone();
        if (m_found.inUse) {
            addFindings();
            if (!m_onSheet) putInOrder(m_context, m_found, m_rows);
        } else if (m_way.plan.readyAt) {
            addSteps();
            addFindings();
        } else {
            addBlockers();
            addFindings();
        }
        return std::move(m_rows);
    }

private:
    // What was done last stands last, next to what comes. What a step repeats is not done.
    void addDone() {
        std::vector<BedsideRow> done;
        for (const auto& [key, status] : m_found.checks) {
            const auto state = m_context.device->checks.find(key);
            const bool isDone = status == rules::CheckStatus::Current &&
                                state != m_context.device->checks.end() && state->second.last;
            if (isDone && !isRepeated(key)) done.push_back(doneRow(key, *state->second.last));
        }
        std::stable_sort(done.begin(), done.end(),
                         [](const auto& a, const auto& b) { return a.doneAt < b.doneAt; });
        m_rows = std::move(done);
    }

    bool isRepeated(const std::string& check) const {
        const auto& tasks = m_way.plan.tasks;
        return std::any_of(tasks.begin(), tasks.end(), [&](const rules::Task& task) {
            return task.kind == rules::TaskKind::Check && task.subject == check;
        });
    }

    BedsideRow doneRow(const std::string& check, const rules::RecordRef& pass) const {
        BedsideRow row;
        row.part = RowPart::Done;
        row.key = "done " + check;
        row.title = words::checkLabel(m_context, check);
        setStatus(row, rules::CheckStatus::Current);
        row.record = pass.name;
        row.doneAt = pass.at;
        row.whenDone = m_context.times().time(pass.at);
        const auto* record = m_context.record(pass.name);
        row.who = record ? words::personName(m_context, record->doneBy.value_or(record->by))
                         : m_context.words.say("plain.unknown");
        return row;
    }

    void setStatus(BedsideRow& row, rules::CheckStatus status) const {
        row.status = status;
        row.statusWord = words::statusWord(m_context.words, status);
    }

    void setStatusOf(BedsideRow& row, const std::string& check) const {
        const auto found = m_found.checks.find(check);
        if (found != m_found.checks.end()) setStatus(row, found->second);
    }

    void addSteps() {
        const auto& plan = m_way.plan;
        const Steps steps{plan.tasks, plan.from};
        if (mustSwitchOn(m_context, steps)) m_rows.push_back(switchOnRow());
        for (const auto& task : plan.tasks) m_rows.push_back(stepRow(steps, task));
    }

    BedsideRow switchOnRow() const {
        BedsideRow row;
        row.part = RowPart::Step;
        row.key = "power on";
        row.title = m_context.words.say("plan.switch_on");
        row.why = m_context.words.say("bedside.switch_on_why");
        row.start = row.attendedUntil = row.finish = m_way.plan.from;
        row.startText = m_context.words.say("bedside.now");
        row.act = PowerToLog{true};
        return row;
    }

    BedsideRow stepRow(const Steps& steps, const rules::Task& task) const {
        BedsideRow row;
        row.part = RowPart::Step;
        row.key = rules::toText(task);
        row.title =
            words::task(m_context, rules::name(task.kind), task.subject, task.samePart);
        row.remarks = stepRemarks(m_context, steps, task);
        row.start = task.start;
        row.attendedUntil = task.attended;
        row.finish = task.finish;
        row.notBefore = task.notBefore;
        row.startText = words::startsAt(m_context.words, m_context.times(), task.start);
        row.unattended = task.attended < task.finish;
        if (task.kind == rules::TaskKind::Check) setStatusOf(row, task.subject);
        explain(row, findingFor(task));
        if (row.why.empty() && row.status == rules::CheckStatus::Current)
            row.why = m_context.words.say("bedside.repeated");
        if (row.why.empty() && task.kind == rules::TaskKind::Remove)
            row.why = takenOutFor(m_context, steps, task.subject);
        row.act = actOf(task);
        return row;
    }

    // What the step is to put right; null if it only serves another step.
    const Finding* findingFor(const rules::Task& task) const {
        const auto concerns = [&](const Finding& finding) {
            switch (task.kind) {
                case rules::TaskKind::Check:
                    return isOfCheck(finding) && finding.subject == task.subject;
                case rules::TaskKind::Group:
                    return finding.code == FindingCode::GroupDiffers ||
                           finding.code == FindingCode::GroupUnset;
                default: break;
            }
            if (task.samePart || finding.blocking() != rules::Blocks::Yes) return false;
            const auto positions = rules::positionsOf(finding, m_context.state,
                                                      *m_context.device, m_context.asked);
            return std::find(positions.begin(), positions.end(), task.subject) != positions.end();
        };
        const auto found =
            std::find_if(m_found.findings.begin(), m_found.findings.end(), concerns);
        return found == m_found.findings.end() ? nullptr : &*found;
    }

    // Why the row is there. That a due check is to be carried out is its title already.
    void explain(BedsideRow& row, const Finding* finding) const {
        if (!finding) return;
        const auto sentence = words::sentence(m_context, *finding);
        row.doesNotCount = finding->discounted.has_value();
        const bool plain = isOfCheck(*finding) && finding->code != FindingCode::Failed &&
                           !finding->discounted && !finding->waivedUntil;
        row.why = plain ? sentence.says : sentence.text();
    }

    ActToLog actOf(const rules::Task& task) const {
        const auto& rulebook = *m_context.state.rulebook;
        switch (task.kind) {
            case rules::TaskKind::Group:
                return GroupToLog{task.subject, words::groupLabel(m_context, task.subject)};
            case rules::TaskKind::Remove: return removeToLog(m_context, task.subject);
            case rules::TaskKind::Reprocess:
                return reprocessToLog(m_context, *rulebook.position(task.subject));
            case rules::TaskKind::Fit: return fit(task.subject, task.samePart);
            case rules::TaskKind::Check: break;
        }
        return checkToLog(m_context, *rulebook.check(task.subject), selecting());
    }

    // The group that the way begins with.
    std::optional<std::string> selecting() const {
        const auto& group = m_way.plan.group;
        return group && m_context.device->group() != group ? group : std::nullopt;
    }

    ActToLog fit(const std::string& position, bool samePart) const {
        auto log = fitToLog(m_context, position, m_found.group);
        const auto* part = m_context.fitted(position);
        const auto taken = m_takenOut.find(position);
        if (samePart && part) {
            log.putBack = putBackProposal(m_context, position, part->attributes, part->fit.at);
        } else if (taken != m_takenOut.end()) {
            log.putBack = putBackProposal(m_context, position, taken->second.attributes,
                                          taken->second.fitted);
        }
        return log;
    }

    void addBlockers() {
        auto blockers = m_way.plan.blockers;
        std::stable_sort(blockers.begin(), blockers.end(), [&](const auto& a, const auto& b) {
            return words::isSheetHold(m_context, a) > words::isSheetHold(m_context, b);
        });
        for (const auto& blocker : blockers) {
            BedsideRow row;
            row.part = RowPart::Blocker;
            row.key = blocker;
            row.why = blockerText(m_context, m_found, blocker);
            row.lifters = words::lifters(m_context, blocker);
            const auto word = blocker.substr(0, blocker.find(' '));
            if (rules::findingCodeOf(word)) {
                const auto finding = findingNamed(m_found, blocker);
                row.title = words::capitalized(words::brief(m_context, finding));
                if (!m_onSheet) row.act = actOf(finding);
            } else {
                const auto told = words::blocker(m_context, blocker);
                row.title = told.says;
                row.why = told.action;
            }
            m_told.insert(blocker);
            m_rows.push_back(std::move(row));
        }
    }

    // What no step or blocker has told yet.
    void addFindings() {
        for (const auto& row : m_rows) m_told.insert(row.key);
        auto findings = m_found.findings;
        const auto& rulebook = *m_context.state.rulebook;
        const auto order = checksInOrder(rulebook);
        const auto place = [&](const Finding& finding) {
            const auto found = std::find(order.begin(), order.end(), finding.subject);
            return isOfCheck(finding) ? found - order.begin() : -1;
        };
        const auto weight = [&](const Finding& finding) {
            return std::pair(gravity(m_context, finding), place(finding));
        };
        std::stable_sort(findings.begin(), findings.end(),
                         [&](const auto& a, const auto& b) { return weight(a) < weight(b); });
        for (const auto& finding : findings)
            if (!isTold(finding)) m_rows.push_back(findingRow(finding));
    }

    // With a way to ready, what blocks is put right by its steps.
    bool isTold(const Finding& finding) const {
        if (m_told.contains(rules::toText(finding))) return true;
        if (m_found.inUse || !m_way.plan.readyAt) return false;
        return finding.blocking() == rules::Blocks::Yes ||
               (isOfCheck(finding) && m_told.contains("check " + finding.subject));
    }

    BedsideRow findingRow(const Finding& finding) const {
        BedsideRow row;
        const bool atStart =
            finding.blocking() == rules::Blocks::Start && !m_found.inUse && m_way.plan.readyAt;
        row.part = atStart ? RowPart::AtStart : RowPart::Finding;
        row.key = rules::toText(finding);
        row.title = words::capitalized(words::brief(m_context, finding));
        row.mark = markOf(m_context, finding);
        row.notBefore = finding.notBefore;
        if (finding.notBefore)
            row.startText =
                words::startsAt(m_context.words, m_context.times(), *finding.notBefore);
        explain(row, &finding);
        if (isOfCheck(finding)) setStatusOf(row, finding.subject);
        if (standsUntilLifted(finding))
            row.lifters = words::lifters(m_context, rules::toText(finding));
        if (m_onSheet) return row;
        row.act = actOf(finding);
        if (m_found.inUse) beginOrder(row);
        if (isOfCheck(finding) && !mayBeCarriedOut(finding.subject))
            row.remarks.push_back(m_context.words.say("bedside.in_use_no_check"));
        return row;
    }

    // What is offered of a change on a patient is the first of what it takes.
    void beginOrder(BedsideRow& row) const {
        const auto* fit = std::get_if<FitToLog>(&row.act);
        if (!fit) return;
        auto order = changeInOrder(m_context, m_found, fit->position);
        row.order = std::move(order.told);
        if (!order.pause.empty()) row.act = PauseToLog{std::move(order.pause)};
    }

    // The part that is to be another, where the notice is about one.
    ActToLog actOfNotice(const Finding& finding) const {
        if (!m_found.inUse || finding.blocking() != rules::Blocks::Yes) return {};
        const auto positions = rules::positionsOf(finding, m_context.state, *m_context.device,
                                                  m_context.asked);
        return positions.empty() ? ActToLog() : fit(positions.front(), false);
    }

    // What no work at the unit puts right.
    bool standsUntilLifted(const Finding& finding) const {
        if (finding.blocking() != rules::Blocks::Yes || isOfCheck(finding)) return false;
        return rules::positionsOf(finding, m_context.state, *m_context.device, m_context.asked)
            .empty();
    }

    // An attempt while the unit is in use does not count unless the edition says so.
    bool mayBeCarriedOut(const std::string& check) const {
        const auto* rule = m_context.state.rulebook->check(check);
        return rule && (!m_found.inUse || m_found.paused || rule->duringUse);
    }

    ActToLog actOf(const Finding& finding) const {
        const auto& rulebook = *m_context.state.rulebook;
        switch (finding.code) {
            case FindingCode::Due:
            case FindingCode::Failed:
            case FindingCode::Lapsed:
                if (!mayBeCarriedOut(finding.subject)) return {};
                return checkToLog(m_context, *rulebook.check(finding.subject));
            case FindingCode::ServiceFailed:
            case FindingCode::ServiceOutstanding:
            case FindingCode::ServiceOverdue:
                // What is permitted meanwhile is no next step.
                if (finding.blocking() != rules::Blocks::Yes) return {};
                return ServiceToLog{finding.subject,
                                    words::serviceLabel(m_context, finding.subject)};
            case FindingCode::GroupDiffers:
                return GroupToLog{finding.subject,
                                  words::groupLabel(m_context, finding.subject)};
            case FindingCode::Missing:
                // Of a choice its first, as a plan would; the set-up offers the others.
                if (const auto* choice = rulebook.choice(finding.subject))
                    return fit(choice->positions.front(), false);
                return fit(finding.subject, false);
            case FindingCode::ChangeDue:
            case FindingCode::Expired:
            case FindingCode::Mismatch:
            case FindingCode::Spent:
            case FindingCode::WornOut: return fit(finding.subject, false);
            case FindingCode::Unprocessed: return renewal(*rulebook.position(finding.subject));
            case FindingCode::Notice: return actOfNotice(finding);
            default: return {};
        }
    }

    ActToLog renewal(const rules::Position& position) const {
        if (position.spare) return fit(position.key, false);
        return reprocessToLog(m_context, position);
    }

    const Context& m_context;
    const WayToReady& m_way;
    const std::map<std::string, TakenOut>& m_takenOut;
    const rules::Assessment& m_found;
    bool m_onSheet;
    std::set<std::string> m_told;
    std::vector<BedsideRow> m_rows;
};

}  // namespace

std::vector<BedsideRow> makeRows(const RowsAsked& asked) {
    return Rows(asked).make();
}

}  // namespace report
