// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// verify: whether every entry is as it was written.
#include "cli/commands.h"

#include "logbook/json.h"
#include "station/rescue.h"
#include "station/upkeep.h"

#include <algorithm>
#include <utility>

namespace cli {

namespace {

namespace json = logbook::json;

json::Array textArray(const std::vector<std::string>& texts) {
    return {texts.begin(), texts.end()};
}

using Earlier = std::vector<std::pair<std::string, station::EarlierHeads>>;  // by file

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

bool areAllRead(const Earlier& earlier) {
    return std::ranges::all_of(earlier,
                               [](const auto& each) { return each.second.unread.empty(); });
}

// How many heads were compared, and of which stations; and of which of the log none was.
std::vector<std::string> comparedTold(const words::Words& words,
                                      const station::EarlierHeads& earlier,
                                      const store::Heads& heads) {
    const auto stations = earlier.stations();
    const auto named = words.all({stations.begin(), stations.end()});
    std::vector<std::string> lines{
        words.say("rescue.compared",
                  {{"count", std::to_string(earlier.count())}, {"stations", named}})};
    std::vector<std::string> others;
    for (const auto& [station, head] : heads) {
        if (!stations.contains(station)) {
            others.push_back(station);
        }
    }
    if (!others.empty()) {
        lines.push_back(words.say("rescue.not_compared", {{"stations", words.all(others)}}));
    }
    return lines;
}

// What is said of the entries, which may all be whole in a file that is not.
const char* keyOfEntries(const store::VerifyReport& report) {
    return report.ok()              ? "done.verified"
           : report.areEntriesWhole ? "done.verified_file_not"
           : report.breaks.empty()  ? "done.verified_in_part"
                                    : "done.not_verified";
}

// The same where the seals that it is held against stand in it.
const char* keyOfStanding(const store::VerifyReport& report) {
    return report.ok()              ? "rescue.held_against"
           : report.areEntriesWhole ? "rescue.held_file_not"
           : report.breaks.empty()  ? "rescue.held_in_part"
                                    : "rescue.seals_only";
}

struct Against {
    const station::Surroundings& surroundings;
    station::LogbookFile file;
};

// What does not fit the heads of each file given with --heads; added to the report.
station::Result<std::vector<std::string>> holdAgainst(const Against& held, const Earlier& earlier,
                                                      store::VerifyReport& report) {
    const auto& words = held.surroundings.words;
    const auto* const standing = keyOfStanding(report);
    std::vector<std::string> lines;
    const auto addUnder = [&lines](const std::vector<std::string>& told) {
        for (const auto& line : told) {
            lines.push_back("  " + line);
        }
    };
    for (const auto& [path, heads] : earlier) {
        const auto breaks = station::breaksAgainst(held.surroundings, held.file, heads.heads);
        if (!breaks) {
            return tl::unexpected(breaks.error());
        }
        store::VerifyReport against;
        against.breaks = *breaks;
        if (!breaks->empty()) {
            lines.push_back(words.say("rescue.not_against", {{"path", path}}));
            addUnder(station::findingsOf(words, against));
        } else if (heads.unread.empty()) {
            lines.push_back(words.say(standing, {{"path", path}}));
        }
        if (!heads.unread.empty()) {
            lines.push_back(words.say("rescue.unread_heads", {{"path", path}}));
            addUnder(heads.unread);
        }
        addUnder(comparedTold(words, heads, report.heads));
        report.breaks.insert(report.breaks.end(), breaks->begin(), breaks->end());
    }
    return lines;
}

// Of each file given with --heads, what was compared and what could not be read.
json::Array againstJson(const Earlier& earlier) {
    json::Array files;
    for (const auto& [path, heads] : earlier) {
        const auto stations = heads.stations();
        files.push_back(json::Object{{"file", path},
                                     {"heads", static_cast<double>(heads.count())},
                                     {"stations", textArray({stations.begin(), stations.end()})},
                                     {"unread", textArray(heads.unread)}});
    }
    return files;
}

std::string jsonOf(const station::VerifyAnswer& answer, const std::vector<std::string>& findings,
                   const Earlier& earlier) {
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
    json::Object said{{"ok", answer.ok() && areAllRead(earlier)},
                      {"checked", static_cast<double>(answer.report.checked)},
                      {"breaks", std::move(breaks)},
                      {"found", textArray(findings)},
                      {"heads", toJson(answer.report.heads)},
                      {"noted", answer.noted},
                      {"snapshots", std::move(snapshots)}};
    if (!earlier.empty()) {
        said.emplace_back("against", againstJson(earlier));
    }
    return json::pretty(said) + "\n";
}

// Why nothing is noted, and where something was found what that means for boards.
std::vector<std::string> notNoted(const words::Words& words,
                                  const station::VerifyAnswer& answer) {
    const auto& report = answer.report;
    if (answer.twoNames && report.ok()) {
        return {words.say("done.not_noted_names")};
    }
    std::vector<std::string> told{words.say(report.diskFailed ? "done.not_noted_disk"
                                            : answer.wasBusy  ? "done.not_noted_busy"
                                            : answer.wasFull  ? "done.not_noted_full"
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
            "Exit status 1 if something is found, or a head in a file cannot be read. Kept states "
            "of the units are made again from the entries and compared; one that is not the same "
            "is thrown away. The chain heads are printed: compare them with those on the last "
            "report on paper. With --heads also what the file alone cannot show is found: a tail "
            "that was cut off, or a chain written anew.",
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
        const auto* const entries = keyOfEntries(answer->report);
        auto findings = station::findingsOf(words, *answer);
        const auto against = holdAgainst({surroundings, logbookOf(call)}, *earlier, answer->report);
        if (!against) {
            return tl::unexpected(against.error());
        }
        const bool isYes = answer->ok() && areAllRead(*earlier);
        Answer said{isYes ? ExitStatus::Done : ExitStatus::AnswerIsNo, ""};
        if (!answer->noted) {
            said.remarks = notNoted(words, *answer);
        }
        if (const auto told = station::twoNamesTold(words, *answer)) {
            said.remarks.insert(said.remarks.begin(), *told);
        }
        if (call.has("--json")) {
            findings = station::findingsOf(words, *answer);
            for (const auto& [path, heads] : *earlier) {
                findings.insert(findings.end(), heads.unread.begin(), heads.unread.end());
            }
            said.out = jsonOf(*answer, findings, *earlier);
            return said;
        }
        said.out =
            words.say(entries, {{"count", std::to_string(answer->report.checked)}}) + "\n";
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
