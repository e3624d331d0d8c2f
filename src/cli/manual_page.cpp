// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The manual page as roff; see help.h.
#include "cli/help.h"

namespace cli {

namespace {

// Text in which no character is a command to roff.
std::string escaped(std::string_view text) {
    std::string result;
    for (const char letter : text) {
        switch (letter) {
            case '\\': result += "\\e"; break;
            case '-': result += "\\-"; break;
            case '\'': result += "\\(aq"; break;
            default: result += letter;
        }
    }
    // A full stop that begins a line would be read as a command.
    return result.starts_with('.') ? "\\&" + result : result;
}

std::string bold(std::string_view text) {
    return "\\fB" + escaped(text) + "\\fR";
}

std::string italic(std::string_view text) {
    return "\\fI" + escaped(text) + "\\fR";
}

std::string term(const std::string& head, std::string_view sentence) {
    return ".TP\n" + head + "\n" + escaped(sentence) + "\n";
}

std::string synopsis(const Description& description) {
    std::string line = bold("airmuster-cli") + " " + bold(description.name);
    for (const auto& argument : description.arguments) {
        const auto name = italic(argument.name) + (argument.repeats ? " ..." : "");
        line += " " + (argument.optional ? "[" + name + "]" : name);
    }
    for (const auto& option : description.options) {
        if (option.required) {
            line += " " + bold(option.name) + " " + italic(option.value);
        }
    }
    return line + " [options]\n";
}

std::string section(const Description& description) {
    std::string text = ".SS " + escaped(description.name) + "\n" + synopsis(description) +
                       ".PP\n" + escaped(description.sentence) + "\n";
    if (!description.details.empty()) {
        text += ".PP\n" + escaped(description.details) + "\n";
    }
    for (const auto& argument : description.arguments) {
        text += term(italic(argument.name), argument.sentence);
    }
    for (const auto& option : description.options) {
        const auto value = option.value.empty() ? "" : " " + italic(option.value);
        text += term(bold(option.name) + value,
                     std::string(option.sentence) +
                         (option.repeats ? " May be given more than once." : ""));
    }
    if (!description.example.empty()) {
        text += ".PP\n.EX\n" + escaped(description.example) + "\n.EE\n";
    }
    return text;
}

}  // namespace

std::string manualPage(const Commands& commands) {
    std::string page =
        ".\\\" SPDX-FileCopyrightText: 2026 The Airmuster developers\n"
        ".\\\" SPDX-License-Identifier: GPL-3.0-or-later\n"
        ".\\\" Made by: airmuster-cli help --man\n"
        ".TH AIRMUSTER\\-CLI 1 \"\" \"Airmuster " AIRMUSTER_VERSION "\" \"User commands\"\n"
        ".SH NAME\n"
        "airmuster\\-cli \\- keep a ventilator readiness logbook and answer from it\n"
        ".SH SYNOPSIS\n" +
        bold("airmuster-cli") + " " + italic("COMMAND") + " [arguments and options]\n" +
        ".br\n" + bold("airmuster-cli") + " " + bold("--version") + "\n" +
        ".SH DESCRIPTION\n"
        "Keeps the dated records that show whether a unit is ready for a patient group, by the "
        "rules of the department, and answers from them. Every command takes the logbook file "
        "first. Each understands\n" +
        bold(shared::help.name) + ".\nWith\n" + bold("--language") + " " + italic("CODE") +
        ",\nbefore or after the command, it answers in that language: en or es.\n"
        ".SH COMMANDS\n";
    for (const auto& command : commands) {
        page += section(command->description());
    }
    page +=
        ".SH ENVIRONMENT\n"
        ".TP\nLANGUAGE, LC_ALL, LC_MESSAGES, LANG\n"
        "The language of the answers where none is asked for; English if it is not built in. Help "
        "and this page are in English.\n"
        ".SH EXIT STATUS\n"
        ".TP\n0\nDone.\n"
        ".TP\n1\nThe answer is \"no\".\n"
        ".TP\n2\nThe call or its input is wrong; standard error says what, where, and what to "
        "do.\n"
        ".TP\n3\nThe logbook cannot be opened, or not read as far as the command needs.\n"
        ".TP\n4\nDone, but the answer could not be written; standard error holds it.\n";
    return page;
}

}  // namespace cli
