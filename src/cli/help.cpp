// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help texts for a terminal; see help.h.
#include "cli/help.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace cli {

namespace {

constexpr std::size_t lineWidth = 80;

// Breaks the text at blanks; every line but the first begins with `indent` blanks.
std::string wrapped(std::string_view text, std::size_t indent) {
    std::string lines;
    std::size_t column = indent;
    while (!text.empty()) {
        const auto word = text.substr(0, text.find(' '));
        if (column > indent && column + 1 + word.size() > lineWidth) {
            lines += "\n" + std::string(indent, ' ');
            column = indent;
        }
        if (column > indent) {
            lines += ' ';
            ++column;
        }
        lines += word;
        column += word.size();
        text.remove_prefix(std::min(word.size() + 1, text.size()));
    }
    return lines;
}

using Row = std::pair<std::string, std::string>;

// A term and its sentence on a line, or the sentence below a term that is long.
std::string table(const std::vector<Row>& rows, std::size_t width) {
    std::string text;
    for (const auto& [term, sentence] : rows) {
        text += "  " + term;
        text += term.size() + 4 > width ? "\n" + std::string(width, ' ')
                                        : std::string(width - term.size() - 2, ' ');
        text += wrapped(sentence, width) + "\n";
    }
    return text;
}

std::string argumentForm(const Argument& argument) {
    const auto name = std::string(argument.name) + (argument.repeats ? " ..." : "");
    return argument.optional ? "[" + name + "]" : name;
}

std::string optionTerm(const Option& option) {
    return std::string(option.name) +
           (option.value.empty() ? "" : " " + std::string(option.value));
}

std::string optionForm(const Option& option) {
    const auto term = optionTerm(option) + (option.repeats ? " ..." : "");
    return option.required ? term : "[" + term + "]";
}

std::string callForm(const Description& description) {
    std::string form = "airmuster-cli " + std::string(description.name);
    for (const auto& argument : description.arguments) {
        form += " " + argumentForm(argument);
    }
    for (const auto& option : description.options) {
        if (option.required) {
            form += " " + optionForm(option);
        }
    }
    return form + " [options]";
}

std::string optionSentence(const Option& option) {
    return std::string(option.sentence) +
           (option.repeats ? " May be given more than once." : "");
}

}  // namespace

std::string generalHelp(const Commands& commands) {
    std::vector<Row> rows;
    for (const auto& command : commands) {
        rows.emplace_back(command->description().name, command->description().sentence);
    }
    return "Usage: airmuster-cli COMMAND [arguments and options]\n\n"
           "Keeps the readiness logbook of a department's ventilators and answers from it.\n\n"
           "Commands:\n" +
           table(rows, 18) +
           "\n"
           "Each command says how it is called: airmuster-cli COMMAND --help\n"
           "The version of the program: airmuster-cli --version\n"
           "Answers in Spanish or English: airmuster-cli --language es COMMAND (or en); without\n"
           "it in the language that the computer is set to, if it is one of these.\n\n"
           "Exit status: 0 done; 1 the answer is \"no\"; 2 the call or its input is wrong;\n"
           "3 the logbook cannot be opened, or not read as far as the command needs;\n"
           "4 done, but the answer could not be written.\n";
}

std::string commandHelp(const Description& description) {
    std::string text = "Usage: " + wrapped(callForm(description), 7) + "\n\n" +
                       wrapped(description.sentence, 0) + "\n";
    if (!description.details.empty()) {
        text += "\n" + wrapped(description.details, 0) + "\n";
    }
    std::vector<Row> rows;
    for (const auto& argument : description.arguments) {
        rows.emplace_back(argument.name, argument.sentence);
    }
    if (!rows.empty()) {
        text += "\nArguments:\n" + table(rows, 24);
    }
    rows.clear();
    for (const auto& option : description.options) {
        rows.emplace_back(optionTerm(option), optionSentence(option));
    }
    rows.emplace_back(shared::help.name, shared::help.sentence);
    text += "\nOptions:\n" + table(rows, 24);
    if (!description.example.empty()) {
        text += "\nExample:\n  " + std::string(description.example) + "\n";
    }
    return text;
}

std::string versionText() {
    return "airmuster-cli " AIRMUSTER_VERSION "\n";
}

}  // namespace cli
