// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps about a unit as a whole: where it stands, its use, its alarms, faults, holds and services.
#include "station/demo_verbs.h"

namespace station::demo {

namespace {

namespace json = logbook::json;

json::Array textsOf(const std::vector<std::string>& texts) {
    return {texts.begin(), texts.end()};
}

void enrol(Script& script, const Step& step) {
    World& world = script.world();
    UnitState& unit = *script.unit();
    const Unit& plan = *unit.plan;
    const Model& model = world.scenario.models.find(plan.model)->second;
    const logbook::Day last = world.calendar.dayOf(world.calendar.end());
    const std::string asset = std::to_string(40'000 + 13 * (&unit - world.units.data()));
    json::Object body{
        {"model", model.name}, {"maker", model.maker}, {"groups", textsOf(model.groups)},
        {"features", textsOf(model.features)},
        {"commissioned", logbook::toText(last - std::chrono::days(plan.age))},
        {"asset", asset}, {"location", unit.area->store}};
    if (!plan.owner.empty()) {
        body.emplace_back("owner", plan.owner);
        body.emplace_back("return_by", logbook::toText(last + std::chrono::days(plan.returnIn)));
    }
    script.write(step, "enrol", std::move(body));
    unit.enrolled = true;
    unit.maintenanceDue = world.calendar.end() - days(plan.age - 365);
    script.waitUntil(script.now() + minutes(1));
    script.write(step, "software", {{"version", model.software}});
}

void retire(Script& script, const Step& step) {
    script.spend(step, minutes(2));
    script.write(step, "retire", {{"reason", step.text}});
    script.unit()->retired = true;
}

void group(Script& script, const Step& step) {
    UnitState& unit = *script.unit();
    const std::string wanted = step.words.empty() ? unit.kit->group : std::string(step.word(0));
    if (unit.group == wanted) {
        return;
    }
    script.spend(step, Duration{15'000});
    script.write(step, "group", {{"group", wanted}});
    unit.group = wanted;
}

void power(Script& script, const Step& step) {
    const bool on = step.word(0) == "on";
    if (script.unit()->on == on) {
        return;
    }
    script.spend(step, Duration{20'000});
    script.write(step, "power", {{"on", on}});
    script.unit()->on = on;
}

void move(Script& script, const Step& step) {
    UnitState& unit = *script.unit();
    std::string location = step.text;
    if (step.word(0) == "store") {
        location = unit.area->store;
    } else if (step.word(0) == "room") {
        const bool back = unit.inUse && !unit.room.empty();
        unit.room = back ? unit.room : script.world().dice.pick(unit.area->rooms);
        location = unit.room;
    }
    script.spend(step, minutes(5));
    script.write(step, "move", {{"location", location}});
    unit.location = location;
}

void sighted(Script& script, const Step& step) {
    script.spend(step, Duration{20'000});
    script.write(step, "sighted", {{"location", script.unit()->location}});
}

void software(Script& script, const Step& step) {
    script.spend(step, minutes(20));
    script.write(step, "software", {{"version", step.word(0)}});
}

void withReason(Script& script, const Step& step, std::string_view kind) {
    script.spend(step, Duration{40'000});
    script.write(step, kind, {{"reason", step.text}});
}

void soil(Script& script, const Step& step) {
    withReason(script, step, "soil");
    script.unit()->prepared = false;
}

void alarm(Script& script, const Step& step) {
    script.spend(step, Duration{20'000});
    script.write(step, "alarm", {{"code", step.word(0)}});
}

void fault(Script& script, const Step& step) {
    json::Object body{{"code", step.word(0)}, {"text", step.text}};
    if (!step.option("blocking").empty()) {
        body.emplace_back("blocking", step.option("blocking") == "yes");
    }
    script.spend(step, Duration{50'000});
    script.write(step, "fault", std::move(body));
}

void clear(Script& script, const Step& step) {
    script.spend(step, minutes(2));
    script.write(step, "clear", {{"code", step.word(0)}});
    script.unit()->prepared = false;
}

void withdraw(Script& script, const Step& step) {
    script.spend(step, Duration{45'000});
    script.write(step, "withdraw", {{"hold", step.word(0)}, {"reason", step.text}});
    script.unit()->prepared = false;
}

void release(Script& script, const Step& step) {
    script.spend(step, minutes(1));
    script.write(step, "release", {{"hold", step.word(0)}});
}

void service(Script& script, const Step& step) {
    const std::string_view outcome = step.word(1);
    script.spend(step, minutes(outcome == "pass" || outcome == "fail" ? 40 : 3));
    script.write(step, "service", {{"service", step.word(0)}, {"outcome", outcome}});
    if (outcome == "pass" || outcome == "fail") {
        script.unit()->prepared = false;
    }
}

void start(Script& script, const Step& step) {
    UnitState& unit = *script.unit();
    json::Object body{{"group", unit.group}, {"location", unit.room}};
    const bool samePatient = step.word(0) == "same_patient";
    const bool emergency = step.word(0) == "emergency";
    World& world = script.world();
    const bool precautions = world.dice.perMille(world.scenario.chances.precautions);
    if (emergency) {
        body.emplace_back("emergency", true);
    }
    if (samePatient) {
        body.emplace_back("same_patient", true);
    } else if (precautions) {
        body.emplace_back("precautions", true);
    }
    if (!step.text.empty()) {
        body.emplace_back("reason", step.text);
    }
    script.spend(step, minutes(2));
    script.write(step, "use_start", std::move(body));
    unit.precautions = samePatient ? unit.precautions : precautions;
    unit.inUse = true;
    unit.prepared = false;
}

void pause(Script& script, const Step& step) {
    withReason(script, step, "use_pause");
    script.unit()->paused = true;
}

void resume(Script& script, const Step& step) {
    script.spend(step, minutes(1));
    script.write(step, "use_resume", {});
    script.unit()->paused = false;
}

void end(Script& script, const Step& step) {
    script.spend(step, minutes(2));
    script.write(step, "use_end", {});
    script.unit()->inUse = false;
    script.unit()->paused = false;
    script.unit()->prepared = false;
}

}  // namespace

const Verbs& deviceVerbs() {
    static const Verbs verbs{
        {"enrol", enrol},       {"retire", retire},   {"group", group},     {"power", power},
        {"move", move},         {"sighted", sighted}, {"software", software}, {"soil", soil},
        {"alarm", alarm},       {"fault", fault},     {"clear", clear},     {"withdraw", withdraw},
        {"release", release},   {"service", service}, {"start", start},     {"pause", pause},
        {"resume", resume},     {"end", end},
    };
    return verbs;
}

}  // namespace station::demo
