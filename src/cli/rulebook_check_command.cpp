// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// rulebook check: a rulebook before it is adopted.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/rulebook_check.h"

namespace cli {

namespace {

namespace json = logbook::json;
using rules::RulebookRemark;

json::Array remarksJson(const words::Words& words, const std::vector<RulebookRemark>& remarks,
                        const char* name) {
    json::Array array;
    for (const auto& remark : remarks) {
        array.push_back(json::Object{{"path", remark.path},
                                     {"line", remark.line},
                                     {"column", remark.column},
                                     {name, station::remarkSentence(words, remark).text()}});
    }
    return array;
}

std::string asText(const words::Words& words, const rules::RulebookReading& reading) {
    std::string text;
    for (const auto& line : station::remarkLines(words, reading.faults)) {
        text += line + "\n";
    }
    if (!reading.warnings.empty()) {
        text += words.say("done.warnings", {{"count", std::to_string(reading.warnings.size())}}) +
                "\n";
    }
    for (const auto& line : station::remarkLines(words, reading.warnings)) {
        text += line + "\n";
    }
    text += reading.rulebook
                ? words.say("done.rulebook_sound", {{"edition", reading.rulebook->edition},
                                                    {"title", reading.rulebook->title}})
                : words.say("done.rulebook_faulty",
                            {{"count", std::to_string(reading.faults.size())}});
    return text + "\n";
}

class RulebookCheckCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "rulebook check",
            "Look a rulebook over before it is adopted, and list all that is wrong with it.",
            {{"FILE", "The rulebook, a TOML file."}},
            {shared::json},
            "Exit status 1 if it has a fault. Warnings are things to think about; they do not "
            "stand in the way.",
            "airmuster-cli rulebook check policy.toml"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto reading = station::checkRulebook(surroundings, call.wanted("FILE"));
        if (!reading) {
            return tl::unexpected(reading.error());
        }
        Answer said{reading->rulebook ? ExitStatus::Done : ExitStatus::AnswerIsNo, ""};
        said.out = call.has("--json")
                       ? json::pretty(json::Object{
                             {"faults", remarksJson(words, reading->faults, "fault")},
                             {"warnings", remarksJson(words, reading->warnings, "warning")}}) +
                             "\n"
                       : asText(words, *reading);
        return said;
    }
};

}  // namespace

std::unique_ptr<const Command> makeRulebookCheckCommand() {
    return std::make_unique<RulebookCheckCommand>();
}

}  // namespace cli
