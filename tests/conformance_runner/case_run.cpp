// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs cases.
#include "conformance_runner/case_run.h"

#include "conformance_runner/program.h"
#include "conformance_runner/renaming.h"

#include <fstream>
#include <stdexcept>

namespace conformance {

namespace {

namespace json = logbook::json;

void write(const std::filesystem::path& file, const std::string& text) {
    std::ofstream stream(file, std::ios::binary);
    stream << text;
    stream.close();
    if (!stream) {
        throw std::runtime_error("cannot write " + file.string());
    }
}

std::string lines(const Records& records) {
    std::string text;
    for (const Value& record : records) {
        text += record.string() != nullptr ? *record.string() : json::canonical(record);
        text += '\n';
    }
    return text;
}

bool isAsked(const Question& question, const Asked& asked) {
    switch (question.command) {
        case Command::Board: return asked.board;
        case Command::Plan: return asked.plan;
        case Command::Month: return asked.month || asked.starts;
        case Command::Rulebook: return asked.rulebook;
    }
    return false;
}

// One case under way, in a folder of its own.
class Run {
public:
    Run(const Case& given, const Settings& settings) : m_case(given), m_settings(settings) {}

    CaseResult go() {
        if ((m_case.log || m_case.logFile) && !importLog()) {
            return std::move(m_result);
        }
        if (m_settings.asked.import) {
            for (const Records& records : m_case.refused) {
                importRefused(records);
            }
        }
        for (const Question& question : m_case.questions) {
            if (isAsked(question, m_settings.asked)) {
                ask(question);
            } else {
                ++m_result.counts.passedOver[question.command];
            }
        }
        return std::move(m_result);
    }

private:
    [[nodiscard]] std::string place(const char* name) const {
        return (m_folder.path() / name).string();
    }

    [[nodiscard]] Outcome call(std::vector<std::string> words) const {
        words.insert(words.begin(), m_settings.program.string());
        return run({std::move(words), m_folder.path(), m_settings.limit});
    }

    void fail(const std::string& what) { m_result.failures.push_back(what); }

    bool importLog() {
        std::string file = place("log.jsonl");
        if (m_case.log) {
            write(file, lines(*m_case.log));
        } else {
            file = m_case.logFile->string();
        }
        const Outcome outcome = call({"import", place("logbook"), file});
        if (outcome.timedOut || outcome.status != 0) {
            fail("import: exit status " + std::to_string(outcome.status) +
                 (outcome.timedOut ? " (stopped for time)" : "") + ": " +
                 (outcome.errors + outcome.output).substr(0, 300));
            return false;
        }
        return true;
    }

    void importRefused(const Records& records) {
        const std::string number = std::to_string(++m_result.counts.refusedImports);
        const std::string before = readText(place("logbook")).value_or("");
        write(place("refused.jsonl"), lines(records));
        const Outcome outcome = call({"import", place("logbook"), place("refused.jsonl")});
        // A crash ends in another status, or says nothing.
        if (outcome.timedOut || outcome.status != 2 || outcome.errors.empty()) {
            fail("import " + number + " is not refused (exit status " +
                 std::to_string(outcome.status) + "): " + lines(records).substr(0, 300));
        }
        if (readText(place("logbook")).value_or("") != before) {
            fail("import " + number + " is refused but changed the logbook");
        }
    }

    [[nodiscard]] std::vector<std::string> wordsOf(const Question& question) const {
        std::vector<std::string> words;
        switch (question.command) {
            case Command::Board: words = {"board", place("logbook")}; break;
            case Command::Plan: words = {"plan", place("logbook"), question.device}; break;
            case Command::Month: words = {"month", place("logbook"), question.month}; break;
            case Command::Rulebook:
                write(place("rulebook.toml"), question.text);
                words = {"rulebook", "check", place("rulebook.toml")};
                break;
        }
        words.emplace_back("--json");
        const auto option = [&](const char* name, const std::string& value) {
            if (!value.empty()) {
                words.insert(words.end(), {name, value});
            }
        };
        option("--at", question.at);
        option("--known-at", question.knownAt);
        option("--group", question.group);
        return words;
    }

    void ask(const Question& question) {
        ++m_result.counts.asked[question.command];
        const auto words = wordsOf(question);
        const auto scope = m_settings.asked.month ? MonthScope::Whole : MonthScope::Starts;
        const Judgement judgement = judge(question, call(words), scope);
        m_result.counts.monthsInPart += judgement.partly ? 1 : 0;
        for (const std::string& difference : judgement.differences) {
            fail(title(question) + ": " + difference);
        }
    }

    [[nodiscard]] static std::string title(const Question& question) {
        std::string text(commandName(question.command));
        for (const std::string* word : {&question.device, &question.month, &question.at,
                                        &question.knownAt, &question.group}) {
            text += word->empty() ? "" : " " + *word;
        }
        return text;
    }

    const Case& m_case;
    const Settings& m_settings;
    TemporaryFolder m_folder;
    CaseResult m_result;
};

}  // namespace

int Counts::questions() const {
    int sum = 0;
    for (const auto& [command, count] : asked) {
        sum += count;
    }
    return sum;
}

Counts& Counts::operator+=(const Counts& other) {
    for (const auto& [command, count] : other.asked) {
        asked[command] += count;
    }
    for (const auto& [command, count] : other.passedOver) {
        passedOver[command] += count;
    }
    monthsInPart += other.monthsInPart;
    refusedImports += other.refusedImports;
    return *this;
}

CaseResult runCase(const Case& given, const Settings& settings) {
    if (settings.renameSeed) {
        const auto other = renamed(given, *settings.renameSeed);
        if (!other) {
            return {{}, {other.error()}};
        }
        return Run(*other, settings).go();
    }
    return Run(given, settings).go();
}

}  // namespace conformance
