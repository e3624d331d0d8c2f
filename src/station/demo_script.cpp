// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The flow of a session: which step comes, who writes it, where and when.
#include "station/demo_script.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>

namespace station::demo {

namespace {

namespace json = logbook::json;

[[noreturn]] void stop(const Step& step, const char* what) {
    std::fprintf(stderr, "demo: step \"%s\": %s\n", step.key().c_str(), what);
    std::abort();
}

Duration durationOf(const Step& step, std::string_view text) {
    const auto duration = logbook::parseDuration(text);
    if (!duration) {
        stop(step, "a duration is wanted");
    }
    return *duration;
}

}  // namespace

Script::Script(World& world, UnitState* unit, Instant start)
    : m_world(world), m_unit(unit), m_now{start.ms / 1000 * 1000} {
    goTo(unit != nullptr && unit->inUse, true);
}

void Script::spend(const Step& step, Duration duration) {
    const std::string_view took = step.option("took");
    if (!took.empty()) {
        m_now = m_now + durationOf(step, took);
        return;
    }
    const std::int64_t seconds = std::max<std::int64_t>(duration.ms / 1000, 1);
    m_now = m_now + Duration{m_world.dice.between(seconds, seconds * 3 / 2 + 4) * 1000};
}

void Script::waitUntil(Instant instant) {
    m_now = std::max(m_now, Instant{instant.ms / 1000 * 1000});
}

void Script::goTo(bool bedside, bool atOnce) {
    if (m_unit == nullptr) {
        m_station = m_world.scenario.wash.station;
        m_by = m_world.scenario.openingBy;
        return;
    }
    m_station = bedside ? m_unit->area->bedside : m_unit->area->prepare;
    const Duration apart = minutes(m_world.scenario.clockToleranceMinutes);
    if (!atOnce && m_unit->lastStation != m_station) {
        waitUntil(m_unit->lastAt + apart);
    }
    std::vector<std::string> roles{"therapist"};
    if (!bedside) {
        roles.emplace_back("technician");
    }
    m_by = m_world.someone(roles, m_station, m_now).key;
    m_batch = m_station + "-" + std::to_string(++m_world.batches);
}

bool Script::knows(std::string_view name) const {
    const bool own = m_unit != nullptr && m_unit->kit->routines.contains(name);
    return own || m_world.scenario.routines.contains(name);
}

void Script::runNamed(std::string_view name) {
    if (m_unit != nullptr) {
        const auto own = m_unit->kit->routines.find(name);
        if (own != m_unit->kit->routines.end()) {
            run(own->second);
            return;
        }
    }
    const auto common = m_world.scenario.routines.find(name);
    if (common != m_world.scenario.routines.end()) {
        run(common->second);
    }
}

void Script::run(const Routine& routine) {
    for (const Step& step : routine) {
        if (!happens(step)) {
            continue;
        }
        if (const Mishap* mishap = mishapAt(step)) {
            m_mishaps = false;  // a mishap has none of its own
            m_unit->flawed = true;
            run(mishap->steps);
            m_mishaps = true;
        } else {
            perform(step);
        }
    }
}

bool Script::happens(const Step& step) const {
    const std::string_view edition = step.option("edition");
    if (!edition.empty() && m_world.editionAt(m_now) < std::atoi(std::string(edition).c_str())) {
        return false;
    }
    const std::string_view condition = step.option("if");
    if (condition == "precautions") {
        return m_unit->precautions;
    }
    return condition != "coaxial" || hasCoaxialCircuit();
}

bool Script::hasCoaxialCircuit() const {
    const auto circuit = m_unit->fitted.find("circuit");
    if (circuit == m_unit->fitted.end()) {
        return false;
    }
    const Part& part = m_world.scenario.parts.find(circuit->second.part)->second;
    const auto layout = part.attributes.find("layout");
    return layout != part.attributes.end() && layout->second == "coaxial";
}

const Mishap* Script::mishapAt(const Step& step) const {
    if (!m_mishaps) {
        return nullptr;
    }
    for (const Mishap& mishap : m_world.scenario.mishaps) {
        const bool meant = mishap.on == step.key() &&
                           (mishap.kit.empty() || mishap.kit == m_unit->plan->kit);
        if (meant && m_world.dice.perMille(mishap.perMille)) {
            return &mishap;
        }
    }
    return nullptr;
}

void Script::perform(const Step& step) {
    if (step.verb == "do") {
        runDo(step);
        return;
    }
    const Verb verb = verbOf(step.verb);
    if (verb == nullptr) {
        stop(step, "there is no such verb");
    }
    verb(*this, step);
}

void Script::runDo(const Step& step) {
    const Duration late = m_late;
    const std::string form = m_form;
    if (!step.option("late").empty()) {
        m_late = durationOf(step, step.option("late"));
    }
    if (!step.option("paper").empty()) {
        m_form = "KB-" + std::to_string(1000 + ++m_world.forms);
    }
    const bool prepares = step.word(0) == "prepare";
    m_unit->flawed = m_unit->flawed && !prepares;
    runNamed(step.word(0));
    m_late = late;
    m_form = form;
    m_unit->prepared = m_unit->prepared || prepares;
    if (prepares || step.word(0) == "recheck") {
        m_unit->lastRecheck = m_now;
    }
}

std::string Script::writerOf(const Step& step, std::string_view kind, Instant at) const {
    if (!step.option("by").empty()) {
        return std::string(step.option("by"));
    }
    if (!step.option("unsigned").empty()) {
        return std::string(step.option("unsigned"));
    }
    std::string role(step.option("as"));
    if (role.empty()) {
        const auto usual = m_world.scenario.writers.find(kind);
        if (usual == m_world.scenario.writers.end()) {
            return m_by;
        }
        role = usual->second;
    }
    return m_world.someone({role}, m_station, at).key;
}

void Script::addExtras(const Step& step, Draft& draft) const {
    if (!m_batch.empty()) {
        draft.more.emplace_back("batch", m_batch);
    }
    if (!step.option("witness").empty()) {
        draft.more.emplace_back("witness", step.option("witness"));
    }
    if (!step.option("unsigned").empty()) {
        draft.more.emplace_back("confirmed", false);
    }
    if (!m_form.empty()) {
        draft.more.emplace_back("form", m_form);
        draft.more.emplace_back("done_by", draft.by);
    }
}

std::size_t Script::writeEntry(const Step& step, Draft draft) {
    Instant at = m_now;
    if (!step.option("after").empty()) {
        at = at + durationOf(step, step.option("after"));
    }
    draft.station = m_station;
    draft.at = at;
    draft.entered = at + m_late + Duration{m_world.dice.between(3, 24) * 1000};
    draft.by = writerOf(step, draft.kind, at);
    addExtras(step, draft);
    if (!step.option("moved_from").empty()) {
        draft.movedFrom = m_names.at(std::string(step.option("moved_from")));
    }
    const std::size_t index = m_world.journal.write(std::move(draft));
    if (!step.option("name").empty()) {
        m_names[std::string(step.option("name"))] = index;
    }
    return index;
}

std::size_t Script::write(const Step& step, std::string_view kind, json::Object body) {
    Draft draft;
    draft.kind = kind;
    draft.body = std::move(body);
    draft.device = step.option("unit").empty() ? m_unit->plan->serial
                                               : std::string(step.option("unit"));
    if (draft.device == m_unit->plan->serial && step.option("after").empty()) {
        m_unit->lastStation = m_station;
        m_unit->lastAt = m_now;
    }
    return writeEntry(step, std::move(draft));
}

std::size_t Script::writeDepartment(const Step& step, std::string_view kind, json::Object body) {
    Draft draft;
    draft.kind = kind;
    draft.body = std::move(body);
    draft.signsHeads = kind == "sign";
    return writeEntry(step, std::move(draft));
}

void Script::writeAbout(const Step& step, std::string_view kind, json::Object body) {
    Draft draft;
    draft.kind = kind;
    draft.body = std::move(body);
    draft.device = step.option("unit").empty() ? m_unit->plan->serial
                                               : std::string(step.option("unit"));
    const auto target = m_names.find(step.word(0));
    if (target == m_names.end()) {
        stop(step, "no earlier step has that name");
    }
    draft.target = target->second;
    writeEntry(step, std::move(draft));
}

void Script::ensure(std::string_view what) {
    const bool mishaps = m_mishaps;
    m_mishaps = false;
    if (what == "stored") {
        if (m_unit->inUse) {
            runNamed("end_use");
            m_now = m_now + hours(2);
        }
        if (!m_unit->prepared || m_unit->flawed) {
            runDo({"do", {"prepare"}, {}, {}});
        } else if (m_now - m_unit->lastRecheck > days(2)) {
            runDo({"do", {"recheck"}, {}, {}});
        }
    } else if (!m_unit->inUse) {
        ensure("stored");
        m_now = m_now + minutes(20);
        runNamed("deploy");
    }
    m_mishaps = mishaps;
}

void Script::swapForAnother() {
    for (UnitState& other : m_world.units) {
        const bool suits = other.stored() && !other.pinned &&
                           other.plan->kit == m_unit->plan->kit &&
                           other.busyUntil <= m_now && other.location == m_unit->area->store;
        if (!suits) {
            continue;
        }
        Script next(m_world, &other, m_now + minutes(7));
        next.runNamed("deploy");
        other.busyUntil = next.now();
        other.useUntil = next.now() + hours(m_world.dice.between(20, 90));
        other.midUse = false;
        return;
    }
}

}  // namespace station::demo
