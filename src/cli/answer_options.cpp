// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Options of the commands that ask the log; see answer_options.h.
#include "cli/answer_options.h"
#include "words/as_word.h"

#include <charconv>

namespace cli {

namespace {

constexpr std::size_t mostNamed = 10;

}  // namespace

station::Result<station::Asked> askedOf(const Call& call,
                                        const station::Surroundings& surroundings) {
    const auto at = instantOf(call, shared::at.name, surroundings);
    if (!at) {
        return tl::unexpected(at.error());
    }
    const auto knownAt = instantOf(call, shared::knownAt.name, surroundings);
    if (!knownAt) {
        return tl::unexpected(knownAt.error());
    }
    return station::Asked{*at, *knownAt, call.value(shared::group.name)};
}

station::Result<int> wholeNumberOf(const Call& call, const WholeNumber& number,
                                   const words::Words& words) {
    const auto text = call.value(number.option);
    if (!text && number.usual) {
        return *number.usual;
    }
    int value = 0;
    const auto given = text.value_or("");
    const auto* last = given.data() + given.size();
    const auto read = std::from_chars(given.data(), last, value);
    if (read.ec != std::errc{} || read.ptr != last || value < 1 || value > number.most) {
        const auto wanted = words.say(number.sentence, {{"most", std::to_string(number.most)}});
        return tl::unexpected(station::problemOf(
            words, "call.bad_value",
            {{"option", std::string(number.option)}, {"text", given}, {"wanted", wanted}}));
    }
    return value;
}

station::Result<station::Standing> standingOf(const Call& call,
                                              const station::Surroundings& surroundings) {
    const auto asked = askedOf(call, surroundings);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    return station::standing(surroundings, logbookOf(call), *asked);
}

station::Result<station::WholeStanding> wholeStandingOf(
    const Call& call, const station::Surroundings& surroundings) {
    const auto asked = askedOf(call, surroundings);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    return station::wholeStanding(surroundings, logbookOf(call), *asked);
}

Answer answerOf(const Call& call, const station::Written& written, const words::Words& words) {
    const words::Gaps gaps{{"record", toText(written.record)},
                           {"person", written.by},
                           {"logbook", words::asWord(call.wanted(shared::logbook.name))},
                           {"key", call.value(shared::as.name).value_or("")}};
    Answer answer{ExitStatus::Done,
                  words.say(written.confirmed ? "done.recorded" : "done.recorded_unconfirmed",
                            gaps) +
                      "\n",
                  written.warnings, true};
    if (!written.confirmed && written.byKnown) {
        answer.out += words.say("done.to_confirm", gaps) + "\n";
    }
    for (const auto& sentence : written.meaning) {
        answer.out += sentence + "\n";
    }
    return answer;
}

std::string namesOf(const words::Words& words, const std::vector<logbook::RecordName>& records) {
    std::vector<std::string> names;
    for (const auto& record : records) {
        names.push_back(toText(record));
    }
    return words.all(names);
}

std::vector<std::string> doubtRemarks(std::vector<std::string> doubts,
                                      const words::Words& words) {
    if (!doubts.empty()) {
        doubts.push_back(words.say("verify.may_be_unread"));
    }
    return doubts;
}

station::Problem problemOfNewFile(const words::Words& words,
                                  station::system::FileTrouble trouble,
                                  const std::string& path) {
    if (trouble == station::system::FileTrouble::NotFound) {
        return station::problemOf(words, "file.no_folder", {{"path", path}});
    }
    auto problem = station::problemOf(words, trouble, path);
    if (trouble != station::system::FileTrouble::Exists) {
        problem.weight = station::Problem::Weight::Logbook;  // as for a backup
    }
    return problem;
}

std::string jsonText(const logbook::json::Value& value) {
    return logbook::json::pretty(value) + "\n";
}

std::vector<std::string> laterRemarks(const station::Standing& standing,
                                      const words::Words& words) {
    if (standing.later.empty()) {
        return {};
    }
    std::vector<std::string> remarks{
        words.say("done.later", {{"count", std::to_string(standing.later.size())},
                                 {"time", toText(standing.at)}})};
    for (const auto& record : standing.later) {
        if (remarks.size() > mostNamed) {
            remarks.push_back("  ...");
            break;
        }
        remarks.push_back("  " + words.say("done.later_record",
                                           {{"record", toText(record.name)},
                                            {"time", toText(record.entered)}}));
    }
    return remarks;
}

}  // namespace cli
