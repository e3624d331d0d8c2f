// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The order of a change, and a line that is clear for a check; see bedside_order.h.
#include "report/bedside_order.h"

#include "report/gravity.h"
#include "report/resume_row.h"
#include "rules/change.h"
#include "rules/evaluate.h"
#include "words/record_words.h"

#include <algorithm>
#include <iterator>
#include <map>

namespace report {

namespace {

using rules::Task;
using rules::TaskKind;
using words::Context;

bool isInterrupted(const Context& context, const std::vector<Task>& tasks) {
    return std::ranges::any_of(tasks, [&](const Task& task) {
        return task.kind == TaskKind::Check &&
               !context.state.rulebook->check(task.subject)->duringUse;
    });
}

std::string stepOf(const Context& context, const Task& task) {
    const auto& words = context.words;
    if (task.kind == TaskKind::Check)
        return words.inside(words::checkLabel(context, task.subject));
    const std::string key = task.kind == TaskKind::Remove ? "bedside.order_take_out"
                            : task.samePart               ? "bedside.order_put_back"
                            : context.fitted(task.subject) ? "bedside.order_change"
                                                           : "bedside.order_fit";
    return words.say(
        key, {{"position", words.inside(words::positionLabel(context, task.subject))}});
}

std::string toldInOrder(const Context& context, bool isPaused, const std::vector<Task>& tasks) {
    const bool interrupts = isPaused || isInterrupted(context, tasks);
    std::vector<std::string> steps;
    if (interrupts && !isPaused) steps.push_back(context.words.say("bedside.order_pause"));
    for (const auto& task : tasks) steps.push_back(stepOf(context, task));
    if (interrupts) steps.push_back(context.words.say("bedside.order_resume"));
    return context.words.say("bedside.order", {{"steps", context.words.all(steps)}});
}

std::vector<Task> tasksFor(const Context& context, const rules::Change& change) {
    return rules::tasksOf(context.state, *context.device, context.asked, change);
}

// Whether the check is spoilt by a part in that position.
bool isSpoilt(const Context& context, const std::string& check, const std::string& position) {
    const auto& rulebook = *context.state.rulebook;
    return std::ranges::any_of(rulebook.check(check)->notWith, [&](const rules::NotWith& rule) {
        return rule.position == position &&
               (!rule.when || rules::holds(*rule.when, *context.device, rulebook,
                                           rules::Unknown::Holds));
    });
}

// What is in line of the checks that are to be carried out, or would be once it is fitted: of those
// that block now, and in a pause also of those that a change makes due.
class Line {
public:
    Line(const Context& context, const rules::Assessment& found) : m_context(context) {
        rules::Change change{{}, {}, true};
        for (const auto& finding : found.findings)
            if (isOfCheck(finding) && finding.blocking() == rules::Blocks::Yes)
                change.checks.insert(finding.subject);
        if (change.checks.empty() && !found.paused) return;
        m_tasks = tasksFor(context, change);
        for (const auto& task : m_tasks)
            if (task.kind == TaskKind::Fit && task.closing) addSpoilt(task.subject);
    }

    [[nodiscard]] bool isClear() const { return m_spoilt.empty(); }
    [[nodiscard]] const std::vector<Task>& tasks() const { return m_tasks; }

    [[nodiscard]] bool isSpoilt(const BedsideRow& row) const {
        return std::ranges::any_of(m_spoilt, [&](const auto& each) {
            return std::ranges::any_of(each.second, [&](const auto& check) {
                return row.key == "due " + check || row.key == "failed " + check ||
                       row.key == "lapsed " + check;
            });
        });
    }

    // Whether the row fits what the checks are carried out without.
    [[nodiscard]] bool waits(const BedsideRow& row) const {
        const auto* fit = std::get_if<FitToLog>(&row.act);
        return fit && m_spoilt.contains(fit->position);
    }

    // Whether it is over before that.
    [[nodiscard]] bool goesBefore(const BedsideRow& row) const {
        return isSpoilt(row) || (std::holds_alternative<FitToLog>(row.act) && !waits(row));
    }

    // What is to be taken out.
    [[nodiscard]] std::vector<BedsideRow> rows(const std::string& order) const {
        std::vector<BedsideRow> rows;
        for (const auto& task : m_tasks) {
            if (task.kind != TaskKind::Remove || !m_spoilt.contains(task.subject)) continue;
            BedsideRow row;
            row.part = RowPart::Finding;
            row.key = rules::toText(task);
            row.title = words::task(m_context, rules::name(task.kind), task.subject, false);
            row.why = m_context.words.say(
                "bedside.take_out_why", {{"checks", labelsOf(m_spoilt.at(task.subject))}});
            row.order = order;
            row.act = removeToLog(m_context, task.subject);
            rows.push_back(std::move(row));
        }
        return rows;
    }

private:
    void addSpoilt(const std::string& position) {
        for (const auto& task : m_tasks)
            if (task.kind == TaskKind::Check && report::isSpoilt(m_context, task.subject, position))
                m_spoilt[position].push_back(task.subject);
    }

    [[nodiscard]] std::string labelsOf(const std::vector<std::string>& checks) const {
        std::vector<std::string> labels;
        for (const auto& key : checks)
            labels.push_back(m_context.words.inside(words::checkLabel(m_context, key)));
        return m_context.words.all(labels);
    }

    const Context& m_context;
    std::vector<Task> m_tasks;
    std::map<std::string, std::vector<std::string>> m_spoilt;  // by position in line: checks
};

bool isToBeDone(const BedsideRow& row) {
    return row.part == RowPart::Finding && !std::holds_alternative<std::monostate>(row.act);
}

// What is fitted after the checks comes after the last row of what comes before them.
void moveBack(const Line& line, std::vector<BedsideRow>& rows) {
    const auto isBefore = [&](const auto& row) { return line.goesBefore(row); };
    const auto last = std::find_if(rows.rbegin(), rows.rend(), isBefore).base();
    std::stable_partition(rows.begin(), last, [&](const auto& row) { return !line.waits(row); });
}

void clear(const Line& line, const std::string& order, bool isPaused,
           std::vector<BedsideRow>& rows) {
    auto takenOut = line.rows(order);
    if (isPaused) {
        moveBack(line, rows);
        for (auto& row : rows)
            if (!takenOut.empty() && row.order == order) row.order.clear();
        rows.insert(std::ranges::find_if(rows, isToBeDone),
                    std::make_move_iterator(takenOut.begin()),
                    std::make_move_iterator(takenOut.end()));
    } else if (!takenOut.empty()) {
        const auto first =
            std::ranges::find_if(rows, [&](const auto& row) { return line.isSpoilt(row); });
        if (first != rows.end()) first->order = order;
    }
}

// What is put right at the unit and blocks; a service is not.
bool isDoneBeforeResuming(const rules::Assessment& found, const BedsideRow& row) {
    if (std::holds_alternative<RemoveToLog>(row.act)) return true;
    if (!isToBeDone(row) || std::holds_alternative<ServiceToLog>(row.act)) return false;
    return std::ranges::any_of(found.findings, [&](const rules::Finding& finding) {
        return rules::toText(finding) == row.key && finding.blocking() == rules::Blocks::Yes;
    });
}

void addResume(const Context& context, const rules::Assessment& found,
               std::vector<BedsideRow>& rows) {
    const bool isNext = std::ranges::none_of(
        rows, [&](const auto& row) { return isDoneBeforeResuming(found, row); });
    BedsideRow row;
    row.part = RowPart::Finding;
    row.key = resumeRow;
    row.title = context.words.say("bedside.resume");
    if (isNext)
        row.act = ResumeToLog{};
    else
        row.why = context.words.say("bedside.resume_last");
    rows.push_back(std::move(row));
}

}  // namespace

ChangeOrder changeInOrder(const Context& context, const rules::Assessment& found,
                          const std::string& position) {
    const auto tasks = tasksFor(context, {{position}, {}, false});
    const bool hasCheck = std::ranges::any_of(
        tasks, [](const Task& task) { return task.kind == TaskKind::Check; });
    if (!hasCheck) return {};
    const bool pauses = !found.paused && isInterrupted(context, tasks);
    const auto label = context.words.inside(words::positionLabel(context, position));
    const auto change = context.words.say(
        context.fitted(position) ? "bedside.order_change" : "bedside.order_fit",
        {{"position", label}});
    return {toldInOrder(context, found.paused, tasks), pauses ? words::capitalized(change) : ""};
}

void putInOrder(const Context& context, const rules::Assessment& found,
                std::vector<BedsideRow>& rows) {
    const Line line(context, found);
    if (!line.isClear())
        clear(line, toldInOrder(context, found.paused, line.tasks()), found.paused, rows);
    if (found.paused) addResume(context, found, rows);
}

}  // namespace report
