// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps that are for people or for the whole department: notes, reviews, strikes, waivers, notices,
// persons, signatures.
#include "station/demo_verbs.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

namespace station::demo {

namespace {

namespace json = logbook::json;

json::Array listOf(std::string_view text) {
    json::Array list;
    while (!text.empty()) {
        const auto comma = text.find(',');
        std::string item(text.substr(0, comma));
        std::ranges::replace(item, '_', ' ');  // a step's words are parted by blanks
        list.emplace_back(std::move(item));
        text = comma == std::string_view::npos ? std::string_view() : text.substr(comma + 1);
    }
    return list;
}

void note(Script& script, const Step& step) {
    script.spend(step, minutes(1));
    script.write(step, "note", {{"text", step.text}});
}

void review(Script& script, const Step& step) {
    script.writeAbout(step, "review", {{"disposition", step.word(1)}, {"text", step.text}});
}

void strike(Script& script, const Step& step) {
    script.spend(step, minutes(1));
    script.writeAbout(step, "strike", {{"reason", step.text}});
}

void waive(Script& script, const Step& step) {
    const int count = std::atoi(std::string(step.option("days")).c_str());
    script.spend(step, minutes(1));
    script.write(step, "waive",
                 {{"finding", step.word(0)}, {"subject", step.word(1)}, {"reason", step.text},
                  {"until", logbook::toText(script.now() + days(count))}});
}

void notice(Script& script, const Step& step) {
    json::Object match;
    if (!step.option("position").empty()) {
        match.emplace_back("position", step.option("position"));
    }
    constexpr std::array<std::pair<const char*, const char*>, 3> lists{
        {{"lots", "lots"}, {"software", "software"}, {"models", "device_models"}}};
    for (const auto& [option, field] : lists) {
        if (!step.option(option).empty()) {
            match.emplace_back(field, listOf(step.option(option)));
        }
    }
    json::Object body{{"key", step.word(0)}, {"title", step.text},
                      {"action", step.option("action")}, {"match", std::move(match)}};
    if (!step.option("cancelled").empty()) {
        body.emplace_back("cancelled", true);
    }
    script.writeDepartment(step, "notice", std::move(body));
}

void noticeDone(Script& script, const Step& step) {
    script.spend(step, minutes(1));
    json::Object body{{"key", step.word(0)}};
    if (!step.text.empty()) {
        body.emplace_back("text", step.text);
    }
    script.write(step, "notice_done", std::move(body));
}

void person(Script& script, const Step& step) {
    json::Object body{{"person", step.word(0)}, {"name", step.text},
                      {"roles", listOf(step.option("roles"))}};
    if (!step.option("until").empty()) {
        body.emplace_back("until", step.option("until"));
    }
    script.writeDepartment(step, "person", std::move(body));
}

void sign(Script& script, const Step& step) {
    script.writeDepartment(step, "sign", {{"scope", step.word(0)}});
}

}  // namespace

const Verbs& paperVerbs() {
    static const Verbs verbs{
        {"note", note},     {"review", review},           {"strike", strike}, {"waive", waive},
        {"notice", notice}, {"notice_done", noticeDone},  {"person", person}, {"sign", sign},
    };
    return verbs;
}

}  // namespace station::demo
