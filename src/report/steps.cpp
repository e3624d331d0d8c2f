// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The timeline of a way to ready; see steps.h.
#include "report/steps.h"

#include "words/record_words.h"

#include <algorithm>

namespace report {

namespace {

using logbook::Duration;
using logbook::Instant;
using words::Context;

// What makes a check wait, and since when.
struct Cause {
    std::string clause;
    Instant until{};
};

class Timeline {
public:
    Timeline(const Context& context, const Steps& steps) : m_context(context), m_steps(steps) {}

    Table table() {
        const auto& words = m_context.words;
        Table table({words.say("plan.time"), words.say("plan.step"), words.say("plan.remarks")});
        if (m_steps.tasks.empty()) return table;
        Instant free = m_steps.from;
        if (mustSwitchOn()) table.add({cell(free), words.say("plan.switch_on"), ""});
        for (const auto& task : m_steps.tasks) {
            if (task.start > free) addWait(table, free, task.start, reasonFor(task));
            table.add({cell(task.start),
                       words::task(m_context, rules::name(task.kind), task.subject, task.samePart),
                       remarksText(task)});
            free = std::max(free, task.attended);
        }
        const auto& last =
            *std::max_element(m_steps.tasks.begin(), m_steps.tasks.end(),
                              [](const auto& a, const auto& b) { return a.finish < b.finish; });
        if (last.finish > free) addWait(table, free, last.finish, untilFinished(last));
        return table;
    }

    std::vector<std::string> remarksOf(const rules::Task& task) const {
        const auto& words = m_context.words;
        std::vector<std::string> remarks;
        const auto takes = task.finish - task.start;
        if (takes.ms > 0) remarks.push_back(words::duration(words, takes));
        const auto alone = task.finish - task.attended;
        if (alone.ms > 0) remarks.push_back(words::unattended(words, alone));
        if (waits(task)) remarks.push_back(notBefore(task));
        return remarks;
    }

    // Whether the unit is off, or not known to be on, and a check waits for that.
    bool mustSwitchOn() const {
        if (!m_context.device || m_context.device->poweredSince) return false;
        const auto waitsForPower = [this](const rules::Task& task) {
            const auto* rule = task.kind == rules::TaskKind::Check
                                   ? m_context.state.rulebook->check(task.subject)
                                   : nullptr;
            return rule && rules::powerUnknown(*m_context.device, *rule);
        };
        return std::any_of(m_steps.tasks.begin(), m_steps.tasks.end(), waitsForPower);
    }

private:
    // The first step is for now; no later one is to be begun before its minute.
    std::string time(Instant instant) const { return m_context.times().time(shown(instant)); }
    std::string cell(Instant instant) const { return m_context.times().inTable(shown(instant)); }
    Instant shown(Instant instant) const {
        return instant <= m_steps.from ? instant : words::wholeMinute(instant);
    }

    void addWait(Table& table, Instant from, Instant to, const std::string& reason) const {
        table.add({cell(from),
                   m_context.words.say(
                       "plan.wait",
                       {{"duration", words::wait(m_context.words, shown(to) - shown(from))}}),
                   reason});
    }

    std::string untilFinished(const rules::Task& task) const {
        const auto& words = m_context.words;
        const bool check = task.kind == rules::TaskKind::Check;
        const auto label = check ? words::checkLabel(m_context, task.subject)
                                 : words::positionLabel(m_context, task.subject);
        const auto key = task.kind == rules::TaskKind::Reprocess ? "plan.until_reprocessed"
                                                                 : "plan.until_finished";
        return words.say(key, {{"what", words.inside(label)}});
    }

    // Why the person is idle before the task: it may not begin yet, or another has to end first.
    std::string reasonFor(const rules::Task& task) const {
        if (waits(task)) {
            const auto label = words::checkLabel(m_context, task.subject);
            return m_context.words.say("plan.wait_for", {{"what", m_context.words.inside(label)}});
        }
        for (const auto& other : m_steps.tasks)
            if (other.finish == task.start && other.attended < other.finish)
                return untilFinished(other);
        return "";
    }

    bool waits(const rules::Task& task) const {
        return task.notBefore && *task.notBefore == task.start && task.start > m_steps.from;
    }

    std::string remarksText(const rules::Task& task) const {
        std::string text;
        for (const auto& remark : remarksOf(task)) text += (text.empty() ? "" : "; ") + remark;
        return text;
    }

    std::string notBefore(const rules::Task& task) const {
        const auto cause = causeOf(task);
        if (!cause || cause->until != *task.notBefore)
            return m_context.words.say("plan.not_before", {{"time", time(*task.notBefore)}});
        return m_context.words.say("plan.not_before_cause",
                                   {{"time", time(*task.notBefore)}, {"cause", cause->clause}});
    }

    // The latest of what the check has to wait for.
    std::optional<Cause> causeOf(const rules::Task& task) const {
        const auto* rule = m_context.state.rulebook->check(task.subject);
        std::optional<Cause> latest;
        if (!rule || task.kind != rules::TaskKind::Check) return latest;
        for (const auto& entry : rule->notBefore) {
            const bool fit = entry.event.kind == rules::EventKind::Fit;
            auto cause = fit ? causeOfFit(task, entry) : causeOfPower(entry);
            if (cause && (!latest || cause->until > latest->until)) latest = std::move(cause);
        }
        return latest;
    }

    std::optional<Cause> causeOfFit(const rules::Task& check, const rules::NotBefore& entry) const {
        const auto& position = entry.event.subject;
        const words::Gaps gaps{
            {"position", m_context.words.inside(words::positionLabel(m_context, position))}};
        for (const auto& task : m_steps.tasks) {
            const bool before = task.finish <= check.start;
            if (task.kind == rules::TaskKind::Fit && task.subject == position && before)
                return causeAt("plan.goes_in", gaps, task.finish, entry.wait);
        }
        const auto* part = m_context.fitted(position);
        if (!part) return std::nullopt;
        return causeAt("plan.went_in", gaps, part->fit.at, entry.wait);
    }

    std::optional<Cause> causeOfPower(const rules::NotBefore& entry) const {
        if (!m_context.device) return std::nullopt;
        const auto& since = m_context.device->poweredSince;
        return since ? causeAt("plan.was_on", {}, *since, entry.wait)
                     : causeAt("plan.goes_on", {}, m_steps.from, entry.wait);
    }

    Cause causeAt(std::string_view key, words::Gaps gaps, Instant at, Duration wait) const {
        gaps["when"] = m_context.times().when(shown(at));
        return {m_context.words.say(key, gaps), at + wait};
    }

    const Context& m_context;
    const Steps& m_steps;
};

}  // namespace

Table stepsTable(const Context& context, const Steps& steps) {
    return Timeline(context, steps).table();
}

std::vector<std::string> stepRemarks(const Context& context, const Steps& steps,
                                     const rules::Task& task) {
    return Timeline(context, steps).remarksOf(task);
}

bool mustSwitchOn(const Context& context, const Steps& steps) {
    return Timeline(context, steps).mustSwitchOn();
}

std::string takenOutFor(const words::Context& context, const Steps& steps,
                        const std::string& position) {
    const auto names = [&](const rules::NotWith& with) { return with.position == position; };
    std::vector<std::string> checks;
    for (const auto& task : steps.tasks) {
        const auto* check = task.kind == rules::TaskKind::Check
                                ? context.state.rulebook->check(task.subject)
                                : nullptr;
        if (check && std::ranges::any_of(check->notWith, names))
            checks.push_back(context.words.inside(words::checkLabel(context, task.subject)));
    }
    if (checks.empty()) return "";
    return context.words.say("bedside.taken_out_for", {{"checks", context.words.all(checks)}});
}

}  // namespace report
