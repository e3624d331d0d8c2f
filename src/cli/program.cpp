// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finds the command, reads its call, runs it and prints what it says; see program.h.
#include "cli/program.h"

#include "cli/commands.h"
#include "cli/help.h"
#include "cli/language_option.h"
#include "cli/parser.h"
#include "station/automatic_backup.h"
#include "station/snapshots.h"

#include <array>
#include <cerrno>
#include <ostream>
#include <sstream>
#include <string_view>
#include <utility>

namespace cli {

namespace {

using station::Problem;
using station::Result;

// As a shell tells of a program that the closed pipe has ended.
constexpr int readerGone = 128 + 13;

struct Chosen {
    const Command* command = nullptr;
    std::vector<std::string> rest;
};

std::vector<std::string_view> commandNames() {
    std::vector<std::string_view> names;
    for (const auto& command : allCommands()) {
        names.push_back(command->description().name);
    }
    return names;
}

Problem problemOfUnknown(const words::Words& words, const std::string& word,
                         const std::string& nearest) {
    return station::problemOf(words, "call.unknown_command_like",
                              {{"word", word}, {"nearest", nearest}});
}

// A command's name is one word or two.
Result<Chosen> choose(const std::vector<std::string>& arguments, const words::Words& words) {
    if (arguments.empty()) {
        return tl::unexpected(station::problemOf(words, "call.no_command"));
    }
    std::string name;
    for (std::size_t count = 1; count <= 2 && count <= arguments.size(); ++count) {
        name += (count == 1 ? "" : " ") + arguments[count - 1];
        if (const auto* command = findCommand(name)) {
            return Chosen{command, {arguments.begin() + static_cast<std::ptrdiff_t>(count),
                                    arguments.end()}};
        }
    }
    for (const auto& word : {arguments.front(), name}) {
        for (const auto known : commandNames()) {
            if (known.starts_with(word + " ")) {
                return tl::unexpected(
                    problemOfUnknown(words, arguments.front(), std::string(known)));
            }
        }
        if (const auto like = nearest(word, commandNames()); !like.empty()) {
            return tl::unexpected(problemOfUnknown(words, word, like));
        }
    }
    return tl::unexpected(
        station::problemOf(words, "call.unknown_command", {{"word", arguments.front()}}));
}

Result<Answer> answer(const std::vector<std::string>& arguments,
                      const station::Surroundings& surroundings) {
    if (!arguments.empty() && (arguments.front() == "--help" || arguments.front() == "-h")) {
        return Answer{ExitStatus::Done, generalHelp(allCommands())};
    }
    if (!arguments.empty() && arguments.front() == "--version") {
        return Answer{ExitStatus::Done, versionText()};
    }
    const auto chosen = choose(arguments, surroundings.words);
    if (!chosen) {
        return tl::unexpected(chosen.error());
    }
    const auto& description = chosen->command->description();
    const auto call = parse(description, chosen->rest, surroundings.words);
    if (!call) {
        return tl::unexpected(call.error());
    }
    if (call->has(shared::help.name)) {
        return Answer{ExitStatus::Done, commandHelp(description)};
    }
    auto said = chosen->command->run(*call, surroundings);
    if (said && said->isKept && description.writesEntries) {
        said->entriesIn = logbookOf(*call);
        said->longer = said->entriesIn;
    }
    return said;
}

// Once the answer is out: nobody waits for it, and the status stays what it is.
void backUp(const station::LogbookFile& file, const station::Surroundings& surroundings,
            std::ostream& error) {
    const auto tell = [&error](const std::string& line) { error << line << std::endl; };
    const auto backup = station::backUpAutomatically(surroundings, file,
                                                     station::Occasion::CommandDone, tell);
    for (const auto& line : backup.told) {
        tell(line);
    }
}

// By which option a person says what the sentence speaks of, which the window says as well.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> sayings{
    {{"entry.patient_text", "--names-no-patient"},
     {"entry.impossible_value", "--as-measured"},
     {"entry.strike_without_reason", "--reason TEXT"},
     {"trouble.network_file_system", "--trust-locks"},
     {"demo.exists", "--fresh"}}};

void print(const Problem& problem, const words::Words& words, std::ostream& error) {
    error << "airmuster-cli: " << problem.notice.says << '\n';
    for (const auto& detail : problem.details) {
        error << "  " << detail << '\n';
    }
    error << problem.notice.safe << '\n' << problem.notice.action << '\n';
    for (const auto& [code, option] : sayings) {
        if (code == problem.code) {
            error << words.say("call.say_so", {{"option", std::string(option)}}) << '\n';
        }
    }
}

// What was done is told all the same: it may hold what is shown once only.
Problem lostAnswer(const words::Words& words, const std::string& answer) {
    auto problem = station::problemOf(words, "safeguard.answer_lost");
    std::istringstream lines(answer);
    for (std::string line; std::getline(lines, line);) {
        problem.details.push_back(line);
    }
    return problem;
}

ExitStatus statusOf(const Problem& problem) {
    return problem.weight == Problem::Weight::Logbook ? ExitStatus::NoLogbook
                                                      : ExitStatus::WrongCall;
}

}  // namespace

int run(const std::vector<std::string>& arguments, const station::Surroundings& surroundings,
        const Streams& streams) {
    const auto refused = [&streams](const Problem& problem, const words::Words& words) {
        print(problem, words, streams.error);
        return static_cast<int>(statusOf(problem));
    };
    const auto call = takeLanguage(arguments, surroundings.words);
    if (!call) {
        return refused(call.error(), surroundings.words);
    }
    const station::Surroundings spoken{surroundings.clock, surroundings.zones, *call->words,
                                       surroundings.login, surroundings.terminal};
    const auto said = answer(call->arguments, spoken);
    if (!said) {
        return refused(said.error(), *call->words);
    }
    for (const auto& remark : said->remarks) {
        streams.error << remark << '\n';
    }
    errno = 0;
    streams.out << said->out << std::flush;
    if (!streams.out && said->isKept) {
        print(lostAnswer(*call->words, said->out), *call->words, streams.error);
        return static_cast<int>(ExitStatus::NotTold);
    }
    if (!streams.out && errno == EPIPE) {
        return readerGone;
    }
    if (!streams.out) {
        print(station::problemOf(*call->words, "call.output"), *call->words, streams.error);
        return static_cast<int>(ExitStatus::WrongCall);
    }
    if (streams.told) {
        streams.told(static_cast<int>(said->status));
    }
    if (said->entriesIn) {
        backUp(*said->entriesIn, spoken, streams.error);
    }
    if (said->longer) {
        station::renewSnapshots(spoken, *said->longer);
    }
    return static_cast<int>(said->status);
}

}  // namespace cli
