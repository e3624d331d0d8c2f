// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// verify: whether every entry is as it was written.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/rescue.h"
#include "station/upkeep.h"

#include <utility>

namespace cli {

namespace {

namespace json = logbook::json;

json::Array textArray(const std::vector<std::string>& texts) {
    return {texts.begin(), texts.end()};
}

using Earlier = std::vector<std::pair<std::string, std::vector<store::Heads>>>;  // by file

station::Result<Earlier> earlierHeads(const Call& call,
                                      const station::Surroundings& surroundings) {
    Earlier earlier;
    for (const auto& path : call.values("--heads")) {
        auto heads = station::headsIn(surroundings, path);
        if (!heads) {
            return tl::unexpected(heads.error());
        }
        earlier.emplace_back(path, *std::move(heads));
    }
    return earlier;
}

struct Against {
    const station::Surroundings& surroundings;
    station::LogbookFile file;
};

// What does not fit the heads of each file given with --heads; added to the report.
station::Result<std::vector<std::string>> holdAgainst(const Against& held, const Earlier& earlier,
                                                      store::VerifyReport& report) {
    const auto& surroundings = held.surroundings;
    const bool isSound = report.ok();
    std::vector<std::string> lines;
    for (const auto& [path, heads] : earlier) {
        const auto breaks = station::breaksAgainst(surroundings, held.file, heads);
        if (!breaks) {
            return tl::unexpected(breaks.error());
        }
        const auto* key = !breaks->empty() ? "rescue.not_against"
                          : isSound        ? "rescue.held_against"
                                           : "rescue.seals_only";
        lines.push_back(surroundings.words.say(key, {{"path", path}}));
        store::VerifyReport against;
        against.breaks = *breaks;
        for (const auto& finding : station::findingsOf(surroundings.words, against)) {
            lines.push_back("  " + finding);
        }
        report.breaks.insert(report.breaks.end(), breaks->begin(), breaks->end());
    }
    return lines;
}

std::string jsonOf(const station::VerifyAnswer& answer,
                   const std::vector<std::string>& findings) {
    json::Array breaks;
    for (const auto& found : answer.report.breaks) {
        breaks.push_back(json::Object{{"record", toText(found.record)},
                                      {"reason", name(found.reason)},
                                      {"detail", found.detail}});
    }
    json::Array wrong;
    for (const auto& place : answer.snapshots.wrong) {
        wrong.emplace_back(toText(place.name));
    }
    json::Object snapshots{{"checked", static_cast<double>(answer.snapshots.checked)},
                           {"wrong", std::move(wrong)}};
    return json::pretty(json::Object{{"ok", answer.ok()},
                                     {"checked", static_cast<double>(answer.report.checked)},
                                     {"breaks", std::move(breaks)},
                                     {"found", textArray(findings)},
                                     {"heads", toJson(answer.report.heads)},
                                     {"noted", answer.noted},
                                     {"snapshots", std::move(snapshots)}}) +
           "\n";
}

// Why nothing is noted, and where something was found what that means for boards.
std::vector<std::string> notNoted(const words::Words& words,
                                  const station::VerifyAnswer& answer) {
    const auto& report = answer.report;
    std::vector<std::string> told{words.say(report.diskFailed ? "done.not_noted_disk"
                                            : answer.wasBusy  ? "done.not_noted_busy"
                                            : report.integrity.empty()
                                                ? "done.not_noted"
                                                : "done.not_noted_damaged")};
    if (answer.isOnNoBoard()) {
        told.push_back(words.say("done.boards_unaware"));
    }
    return told;
}

class VerifyCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "verify",
            "Read every entry and hold it against its seal.",
            {shared::logbook},
            {{"--heads", "FILE",
              "Hold it also against the heads in that file: a backup, a month's report, or what "
              "backup or verify printed.",
              false, true},
             shared::json, shared::trustLocks},
            "Exit status 1 if something is found. Kept states of the units are made again from the "
            "entries and compared; one that is not the same is thrown away. The chain heads are "
            "printed: compare them with those on the last report on paper. With --heads also what "
            "the file alone cannot show is found: a tail that was cut off, or a chain written "
            "anew.",
            "airmuster-cli verify ward.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto earlier = earlierHeads(call, surroundings);
        if (!earlier) {
            return tl::unexpected(earlier.error());
        }
        auto answer = station::verify(surroundings, logbookOf(call));
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        const bool sound = answer->report.ok();
        auto findings = station::findingsOf(words, *answer);
        const auto against = holdAgainst({surroundings, logbookOf(call)}, *earlier, answer->report);
        if (!against) {
            return tl::unexpected(against.error());
        }
        Answer said{answer->ok() ? ExitStatus::Done : ExitStatus::AnswerIsNo, ""};
        if (!answer->noted) {
            said.remarks = notNoted(words, *answer);
        }
        if (call.has("--json")) {
            findings = station::findingsOf(words, *answer);
            said.out = jsonOf(*answer, findings);
            return said;
        }
        said.out = words.say(sound ? "done.verified" : "done.not_verified",
                             {{"count", std::to_string(answer->report.checked)}}) +
                   "\n";
        for (const auto& finding : findings) {
            said.out += "  " + finding + "\n";
        }
        if (answer->snapshots.checked > 0 && answer->snapshots.wrong.empty()) {
            said.out += words.say("snapshots.agree",
                                  {{"count", std::to_string(answer->snapshots.checked)}}) +
                        "\n";
        }
        for (const auto& line : *against) {
            said.out += line + "\n";
        }
        said.out += json::canonical(toJson(answer->report.heads)) + "\n";
        return said;
    }
};

}  // namespace

std::unique_ptr<const Command> makeVerifyCommand() {
    return std::make_unique<VerifyCommand>();
}

}  // namespace cli
