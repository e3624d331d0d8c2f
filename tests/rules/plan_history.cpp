// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Histories of a device, and plans carried out on it; see plan_history.h.
#include "rules/plan_history.h"

#include <algorithm>
#include <set>

namespace support {
namespace {

template <class Items>
Texts keysOf(const Items& items) {
    Texts keys;
    for (const auto& each : items) keys.push_back(each.key);
    return keys;
}

template <class Items>
Texts namesIn(const Items& labels) {
    Texts names;
    for (const auto& [name, label] : labels) names.push_back(name);
    return names;
}

// The values that conditions of the book ask for, by attribute, of the part in a position.
std::map<std::string, Texts> attributesAskedFor(const rules::Rulebook& book,
                                                const std::string& position) {
    std::map<std::string, Texts> asked;
    const auto read = [&](const rules::Condition& condition) {
        for (const auto& entry : condition) {
            if (entry.kind != rules::PathKind::Attribute || entry.name != position) continue;
            for (const auto& value : entry.values) {
                if (const auto* text = std::get_if<std::string>(&value)) {
                    asked[entry.attribute].push_back(*text);
                }
            }
        }
    };
    for (const auto& check : book.checks) {
        read(check.appliesWhen);
        for (const auto& rule : check.notWith) read(rule.when.value_or(rules::Condition{}));
        for (const auto& rule : check.voidedBy) read(rule.unless.value_or(rules::Condition{}));
    }
    for (auto& [attribute, values] : asked) values.emplace_back("another");
    return asked;
}

std::optional<double> limitFor(const std::optional<rules::Limit>& limit, const std::string& group) {
    if (!limit) return std::nullopt;
    const auto found = limit->byGroup.find(group);
    return found == limit->byGroup.end() ? limit->forAll : found->second;
}

}  // namespace

RandomHistory::RandomHistory(std::uint32_t seed, const std::string& text, Book book)
    : m_random(seed), m_book(std::move(book)) {
    begin(text);
    equip();
    const int steps = m_random.below(25);
    for (int count = 0; count < steps; ++count) step();
    next().useEnd();
    for (const auto& service : m_book->services) next().service(service.key);
    if (m_random.chance(30)) next().power(m_random.chance(60));
    const int last = m_random.below(4);
    for (int count = 0; count < last; ++count) attempt(m_random.pick(keysOf(m_book->checks)), true);
    m_at = m_at + minutes(m_random.below(30));
    if (m_random.chance(30)) waiveForMinutes();
}

std::string RandomHistory::anyGroup() { return m_random.pick(keysOf(m_book->groups)); }

rules::State RandomHistory::state() const {
    rules::State state;
    state.rulebook = m_book;
    const rules::Editions editions{{m_log.records().front().name, m_book}};
    for (const auto& record : m_log.records()) rules::fold(state, record, editions);
    return state;
}

// Always of the same station, in order of time.
Entry RandomHistory::next(int mostMinutes) {
    const int gap = m_random.chance(5) ? 3 * 24 * 60 : mostMinutes;
    m_at = m_at + minutes(m_random.below(gap));
    Entry entry = m_log.on(device);
    entry.at(m_at);
    return entry;
}

void RandomHistory::begin(const std::string& text) {
    std::set<std::string> roles;
    for (const auto& [kind, allowed] : m_book->authority) {
        roles.insert(allowed.begin(), allowed.end());
    }
    m_log.department().at(m_at).adopt(text);
    m_log.department().at(m_at).person("Robin", {roles.begin(), roles.end()});
    m_log.department().at(m_at).person("Sam", {*roles.begin()});
    Texts features;
    for (const auto& feature : namesIn(m_book->featureLabels)) {
        if (m_random.chance(60)) features.push_back(feature);
    }
    next().enrol(keysOf(m_book->groups), features);
    next().group(anyGroup());
}

void RandomHistory::equip() {
    std::set<std::string> leftOut;
    for (const auto& choice : m_book->choices) {
        const auto& kept = m_random.pick(choice.positions);
        for (const auto& position : choice.positions) {
            if (position != kept && m_random.chance(80)) leftOut.insert(position);
        }
    }
    for (const auto& position : keysOf(m_book->positions)) {
        if (!leftOut.contains(position) && m_random.chance(85)) fitAny(position);
    }
    if (m_random.chance(60)) next().power(true);
}

json::Array RandomHistory::someGroups() {
    Texts groups = keysOf(m_book->groups);
    if (m_random.chance(30)) groups.resize(1);
    return list(groups);
}

json::Object RandomHistory::part(const std::string& position) {
    json::Object part;
    if (m_random.chance(50)) {
        part.emplace_back("serial", position + " " + std::to_string(m_random.below(3)));
    }
    for (const auto& [attribute, values] : attributesAskedFor(*m_book, position)) {
        if (attribute != "reuse" && m_random.chance(85)) {
            part.emplace_back(attribute, m_random.pick(values));
        }
    }
    if (m_random.chance(20)) {
        part.emplace_back("reuse", m_random.pick(Texts{"single_use", "reusable"}));
    }
    if (m_random.chance(15)) part.emplace_back("expires", "2026-03-04");
    if (m_random.chance(90)) part.emplace_back("groups", someGroups());
    return part;
}

void RandomHistory::fitAny(const std::string& position) {
    auto stated = part(position);
    next().fit(position, std::move(stated));
}

void RandomHistory::step() {
    const std::string position = m_random.pick(keysOf(m_book->positions));
    switch (m_random.below(10)) {
    case 0: return fitAny(position);
    case 1: next().remove(position); return;
    case 2: next().reprocess(keysOf(m_book->positions)); return;
    case 3: case 4: case 5:
        return attempt(m_random.pick(keysOf(m_book->checks)), m_random.chance(80));
    case 6: case 7: return stepOfUse();
    case 8: return stepOfTrouble();
    default: next().group(anyGroup()); return;
    }
}

void RandomHistory::attempt(const std::string& check, bool good) {
    Entry entry = next(8);
    const auto group = state().device(device)->group();
    addMeasures(entry, *m_book->check(check), group.value_or(""));
    entry.check(check, good ? "pass" : m_random.pick(Texts{"fail", "incomplete"}));
}

void RandomHistory::stepOfUse() {
    if (m_random.chance(50)) {
        next().useEnd();
    } else {
        next().useStart({{"precautions", m_random.chance(30)}});
    }
}

void RandomHistory::stepOfTrouble() {
    switch (m_random.below(7)) {
    case 0: case 6: next().soil(); return;
    case 1: next().alarm(m_random.pick(namesIn(m_book->alarmLabels))); return;
    case 2: next().power(m_random.chance(50)); return;
    case 3: next().move("Store"); return;
    case 4: next().software("2"); return;
    default: next().withdraw(m_random.pick(keysOf(m_book->holds))); return;
    }
}

// So that it ends before the plan is carried out.
void RandomHistory::waiveForMinutes() {
    for (const auto& check : m_book->checks) {
        const auto finding = m_random.pick(Texts{"due", "lapsed"});
        if (check.waivable) next(1).waive(finding, check.key, m_at + minutes(3));
    }
}

// All that the check asks for, with measures within their limits.
void RandomHistory::addMeasures(Entry& entry, const rules::Check& check, const std::string& group) {
    for (const auto& condition : check.needs) entry.stating(condition);
    for (const auto& rule : check.measures) {
        if (!rule.required && m_random.chance(50)) continue;
        const auto least = limitFor(rule.min, group);
        const auto most = limitFor(rule.max, group);
        if ((rule.min && !least) || (rule.max && !most)) continue;
        const double low = least ? *least : most.value_or(1) - 1;
        const double high = most ? *most : low + 1;
        entry.measuring(rule.key, m_random.pick(std::vector<double>{low, (low + high) / 2, high}),
                        rule.unit);
    }
    if (check.needsSecond) entry.witness("Sam");
}

void RandomHistory::carryOut(const rules::Plan& plan) {
    const auto before = state();
    const bool waits =
        std::any_of(plan.tasks.begin(), plan.tasks.end(), [this](const rules::Task& task) {
            if (task.kind != rules::TaskKind::Check) return false;
            const auto& rules = m_book->check(task.subject)->notBefore;
            return std::any_of(rules.begin(), rules.end(), [](const rules::NotBefore& rule) {
                return rule.event.kind == rules::EventKind::PowerOn;
            });
        });
    if (waits && !before.device(device)->poweredSince) m_log.on(device).at(plan.from).power(true);
    auto tasks = plan.tasks;
    std::stable_sort(tasks.begin(), tasks.end(), [](const rules::Task& a, const rules::Task& b) {
        return a.finish < b.finish;
    });
    for (const auto& task : tasks) carryOut(task, before, *plan.group);
}

void RandomHistory::carryOut(const rules::Task& task, const rules::State& before,
                             const std::string& group) {
    Entry entry = m_log.on(device);
    entry.at(task.finish);
    switch (task.kind) {
    case rules::TaskKind::Group: entry.group(task.subject); return;
    case rules::TaskKind::Remove: entry.remove(task.subject); return;
    case rules::TaskKind::Reprocess: {
        const auto level = m_book->position(task.subject)->reprocessLevel;
        entry.reprocess({task.subject}, std::string(logbook::name(level)));
        return;
    }
    case rules::TaskKind::Fit: entry.fit(task.subject, partFor(task, before, group)); return;
    case rules::TaskKind::Check:
        addMeasures(entry, *m_book->check(task.subject), group);
        entry.pass(task.subject);
    }
}

// The same part as was there, or a new one like the last: without serial, lot and expiry, and for
// this group if the last was not.
json::Object RandomHistory::partFor(const rules::Task& task, const rules::State& before,
                                    const std::string& group) const {
    const auto& held = before.device(device)->lastHeld;
    const auto last = held.find(task.subject);
    json::Object part;
    rules::PartAttributes attributes;
    if (last != held.end()) attributes = last->second;
    for (const auto& [key, value] : attributes.texts) {
        const bool own = key == "serial" || key == "lot" || key == "expires";
        if (task.samePart || !own) part.emplace_back(key, value);
    }
    const bool stated = json::Value(part).find("reuse") != nullptr;
    if (attributes.reuse && !stated) {
        part.emplace_back("reuse", std::string(logbook::name(*attributes.reuse)));
    }
    if (task.samePart && attributes.expires) {
        part.emplace_back("expires", logbook::toText(*attributes.expires));
    }
    auto groups = attributes.groups.value_or(Texts{});
    const bool suits = std::find(groups.begin(), groups.end(), group) != groups.end();
    if (!task.samePart && !suits) groups = {group};
    if (!groups.empty()) part.emplace_back("groups", list(groups));
    return part;
}

}  // namespace support
