// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Compares answers.
#include "conformance_runner/comparison.h"

#include "logbook/instant.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace conformance {

namespace {

namespace json = logbook::json;

std::string shown(const Value& value) {
    constexpr std::size_t most = 160;
    std::string text = json::canonical(value);
    if (text.size() > most) {
        text.resize(most);
        text += "…";
    }
    return text;
}

bool sameScalar(const Value& expected, const Value& found) {
    if (expected.number() != nullptr && found.number() != nullptr) {
        const double size = std::max(1.0, std::abs(*expected.number()));
        return std::abs(*expected.number() - *found.number()) <= 1e-6 * size;
    }
    if (expected.string() != nullptr && found.string() != nullptr) {
        const auto one = logbook::parseInstant(*expected.string());
        const auto other = logbook::parseInstant(*found.string());
        return one && other ? *one == *other : *expected.string() == *found.string();
    }
    return expected == found;
}

void compare(const std::string& path, const Value& expected, const Value& found, Differences& out);

void compareObjects(const std::string& path, const json::Object& expected, const Value& found,
                    Differences& out) {
    if (found.object() == nullptr) {
        out.push_back(path + ": want an object, got " + shown(found));
        return;
    }
    for (const auto& [name, value] : expected) {
        const std::string inner = path + "." + name;
        if (const Value* member = found.find(name)) {
            compare(inner, value, *member, out);
        } else {
            out.push_back(inner + ": missing, want " + shown(value));
        }
    }
}

// Runs-out lists may come in any order.
json::Array sorted(json::Array list) {
    std::sort(list.begin(), list.end(), [](const Value& one, const Value& other) {
        return json::canonical(one) < json::canonical(other);
    });
    return list;
}

void compareLists(const std::string& path, const json::Array& expected, const json::Array& found,
                  Differences& out) {
    if (expected.size() != found.size()) {
        out.push_back(path + ": want " + std::to_string(expected.size()) + ", got " +
                      std::to_string(found.size()) + ": want " + shown(expected) + ", got " +
                      shown(found));
        return;
    }
    for (std::size_t place = 0; place < expected.size(); ++place) {
        compare(path + "[" + std::to_string(place) + "]", expected[place], found[place], out);
    }
}

void compare(const std::string& path, const Value& expected, const Value& found, Differences& out) {
    if (const json::Object* object = expected.object()) {
        compareObjects(path, *object, found, out);
    } else if (const json::Array* list = expected.array()) {
        if (found.array() == nullptr) {
            out.push_back(path + ": want a list, got " + shown(found));
        } else if (path == "plan.runs_out") {
            compareLists(path, sorted(*list), sorted(*found.array()), out);
        } else {
            compareLists(path, *list, *found.array(), out);
        }
    } else if (!sameScalar(expected, found)) {
        out.push_back(path + ": want " + shown(expected) + ", got " + shown(found));
    }
}

// The members of `found` that `expected` does not name, where both are objects.
void compareNames(const std::string& path, const Value* expected, const Value* found,
                  Differences& out) {
    if (expected == nullptr || found == nullptr || found->object() == nullptr) {
        return;
    }
    for (const auto& [name, value] : *found->object()) {
        if (expected->find(name) == nullptr) {
            out.push_back(path + "." + name + ": not expected, got " + shown(value));
        }
    }
}

Differences judgeRulebook(const Question& question, const Outcome& outcome) {
    Differences out;
    const Value* refusedValue = question.expected.find("refused");
    if (refusedValue == nullptr || refusedValue->boolean() == nullptr) {
        return {"the case does not say whether the rulebook is refused"};
    }
    const bool refused = *refusedValue->boolean();
    if (outcome.status != (refused ? 1 : 0)) {
        out.push_back("exit status " + std::to_string(outcome.status) +
                      (refused ? ", want 1 (refused)" : ", want 0 (sound)"));
    }
    const auto answer = json::parse(outcome.output);
    const Value* faults = answer ? answer->find("faults") : nullptr;
    if (faults == nullptr || faults->array() == nullptr) {
        out.push_back("no JSON with a list of faults: " + outcome.output.substr(0, 160));
        return out;
    }
    if (faults->array()->empty() == refused) {
        out.push_back(refused ? "want a fault, got none" : "want no fault, got " + shown(*faults));
    }
    const Value* warned = question.expected.find("warned");
    if (!refused && warned != nullptr && warned->boolean() != nullptr) {
        const Value* warnings = answer->find("warnings");
        const bool some =
            warnings != nullptr && warnings->array() != nullptr && !warnings->array()->empty();
        if (some != *warned->boolean()) {
            out.push_back(some ? "want no warning, got " + shown(*warnings)
                               : "want a warning, got none");
        }
    }
    return out;
}

int wantedStatus(const Question& question) {
    if (question.status) {
        return *question.status;
    }
    if (question.expected.isNull()) {
        return 2;
    }
    const Value* readyAt = question.expected.find("ready_at");
    const bool noPlan =
        question.command == Command::Plan && readyAt != nullptr && readyAt->isNull();
    return noPlan ? 1 : 0;
}

// What is compared of a month of which only the starts are asked. The rest that the answer has
// not falls away.
Value withoutTheRest(const Value& expected, const Value& answer, bool& partly) {
    static constexpr std::array<std::string_view, 6> always{"month",    "starts",     "compliance",
                                                            "wilson95", "exceptions", "anomalies"};
    json::Object kept;
    for (const auto& [name, value] : *expected.object()) {
        if (std::find(always.begin(), always.end(), name) != always.end() ||
            answer.find(name) != nullptr) {
            kept.emplace_back(name, value);
        } else {
            partly = true;
        }
    }
    return kept;
}

void judgeNames(const Question& question, const Value& answer, Differences& out) {
    if (question.command == Command::Month) {
        compareNames("month.groups", question.expected.find("groups"), answer.find("groups"), out);
    }
    const json::Array* expected = question.expected.array();
    const json::Array* found = answer.array();
    if (question.command == Command::Board && expected != nullptr && found != nullptr) {
        for (std::size_t place = 0; place < std::min(expected->size(), found->size()); ++place) {
            compareNames("board[" + std::to_string(place) + "].checks",
                         (*expected)[place].find("checks"), (*found)[place].find("checks"), out);
        }
    }
}

}  // namespace

Differences differences(const std::string& path, const Value& expected, const Value& found) {
    Differences out;
    compare(path, expected, found, out);
    return out;
}

Judgement judge(const Question& question, const Outcome& outcome, MonthScope scope) {
    Judgement judgement;
    Differences& out = judgement.differences;
    if (outcome.timedOut) {
        out.emplace_back("no answer in the time allowed");
        return judgement;
    }
    if (question.command == Command::Rulebook) {
        out = judgeRulebook(question, outcome);
        return judgement;
    }
    if (const int wanted = wantedStatus(question); outcome.status != wanted) {
        out.push_back("exit status " + std::to_string(outcome.status) + ", want " +
                      std::to_string(wanted) + ": " + outcome.errors.substr(0, 300));
    }
    if (question.expected.isNull() || (!out.empty() && outcome.output.empty())) {
        return judgement;
    }
    const auto answer = json::parse(outcome.output);
    if (!answer) {
        out.push_back("no JSON: " + outcome.output.substr(0, 160));
        return judgement;
    }
    const bool onlyStarts = question.command == Command::Month && scope == MonthScope::Starts &&
                            question.expected.object() != nullptr;
    const Value expected = onlyStarts ? withoutTheRest(question.expected, *answer, judgement.partly)
                                      : question.expected;
    compare(std::string(commandName(question.command)), expected, *answer, out);
    judgeNames(question, *answer, out);
    return judgement;
}

}  // namespace conformance
