// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The verbs by name, and those that write nothing themselves.
#include "station/demo_verbs.h"

#include <cstdlib>

namespace station::demo {

namespace {

void go(Script& script, const Step& step) {
    script.goTo(step.word(0) == "bedside", false);
}

void cross(Script& script, const Step& step) {
    script.waitUntil(script.now() + minutes(2));
    script.goTo(step.word(0) == "bedside", true);
}

void wait(Script& script, const Step& step) {
    const auto duration = logbook::parseDuration(step.word(0));
    script.waitUntil(script.now() + duration.value_or(Duration{}));
}

void before(Script& script, const Step& step) {
    const auto duration = logbook::parseDuration(step.word(0));
    script.waitUntil(script.world().calendar.end() - duration.value_or(Duration{}));
}

void next(Script& script, const Step& step) {
    const std::string time(step.word(0));
    const std::int64_t hour = std::atoi(time.substr(0, 2).c_str());
    const std::int64_t minute = std::atoi(time.substr(3).c_str());
    const Duration timeOfDay{hours(hour).ms + minutes(minute).ms};
    script.waitUntil(script.world().calendar.nextOffice(script.now() + hours(2), timeOfDay));
}

void ensure(Script& script, const Step& step) {
    script.ensure(step.word(0));
}

void swap(Script& script, const Step&) {
    script.swapForAnother();
}

void unprepare(Script& script, const Step&) {
    script.unit()->prepared = false;
}

}  // namespace

Verb verbOf(std::string_view name) {
    static const std::map<std::string_view, Verb> flow{
        {"go", go},     {"cross", cross},   {"wait", wait}, {"before", before},
        {"next", next}, {"ensure", ensure}, {"swap", swap}, {"unprepare", unprepare},
    };
    for (const auto* verbs : {&flow, &deviceVerbs(), &partVerbs(), &paperVerbs()}) {
        const auto found = verbs->find(name);
        if (found != verbs->end()) {
            return found->second;
        }
    }
    return nullptr;
}

}  // namespace station::demo
