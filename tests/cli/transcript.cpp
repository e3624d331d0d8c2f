// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Running, noting and comparing calls; see transcript.h.
#include "cli/transcript.h"

#include "cli/program.h"
#include "support/zones.h"
#include "words/shown.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <map>
#include <regex>
#include <sstream>

namespace support {

namespace {

std::vector<std::string> wordsOf(std::string_view call) {
    std::vector<std::string> words;
    bool inWord = false;
    bool quoted = false;
    for (std::size_t i = 0; i < call.size(); ++i) {
        const char letter = call[i];
        if (letter == ' ' && !quoted) {
            inWord = false;
            continue;
        }
        if (!inWord) {
            words.emplace_back();
            inWord = true;
        }
        if (letter == '"') {
            quoted = !quoted;
        } else {
            words.back() += letter == '\\' && i + 1 < call.size() ? call[++i] : letter;
        }
    }
    return words;
}

using Files = std::map<std::string, std::string>;

Files filesIn(const std::filesystem::path& folder) {
    Files files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            files.emplace(entry.path().filename().string(), bytesOf(entry.path()));
        }
    }
    return files;
}

std::filesystem::path approvedFile(std::string_view name) {
    return std::filesystem::path(AIRMUSTER_SOURCE_DIR) / "tests" / "cli" / "approved" /
           (std::string(name) + ".txt");
}

}  // namespace

Transcript::Transcript()
    : m_before(std::filesystem::current_path()), m_clock(utc(2026, 3, 2, 14)) {
    std::filesystem::current_path(m_folder.path());
}

Transcript::~Transcript() {
    std::error_code error;
    std::filesystem::current_path(m_before, error);
}

Printed Transcript::call(std::string_view text, bool counted) {
    const auto before = filesIn(m_folder.path());
    std::ostringstream out;
    std::ostringstream error;
    const station::Surroundings surroundings{m_clock, zones(), *words::Words::builtIn(), "desk",
                                             &terminal};
    const auto status = cli::run(wordsOf(text), surroundings, {out, error});
    if (status > 1) {
        CAPTURE(std::string(text));
        CHECK((counted || filesIn(m_folder.path()) == before));
        CHECK(out.str().empty());
        CHECK_FALSE(error.str().empty());
    }
    return {status, out.str(), error.str()};
}

Printed Transcript::run(std::string_view text) {
    return told(text, call(text));
}

Printed Transcript::runCounted(std::string_view text) {
    return told(text, call(text, true));
}

Printed Transcript::told(std::string_view text, const Printed& printed) {
    m_text += "$ airmuster-cli " + words::shown(text) + "\n";
    for (const auto& question : terminal.takeQuestions()) {
        m_text += "? " + question + "\n";
    }
    m_text += withoutFolder(printed.out);
    std::istringstream errors(withoutFolder(printed.error));
    for (std::string line; std::getline(errors, line);) {
        m_text += "! " + line + "\n";
    }
    m_text += "[" + std::to_string(printed.status) + "]\n\n";
    return printed;
}

// The folder has another name each time, and a recovery code is another each time.
std::string Transcript::withoutFolder(std::string text) const {
    static const std::regex code("[0-9A-Z]{4}(-[0-9A-Z]{4}){4}");
    text = std::regex_replace(text, code, "XXXX-XXXX-XXXX-XXXX-XXXX");
    const auto folder = m_folder.path().string() + "/";
    for (auto place = text.find(folder); place != std::string::npos; place = text.find(folder)) {
        text.erase(place, folder.size());
    }
    return text;
}

void Transcript::prepare(std::string_view text) {
    const auto printed = call(text);
    terminal.takeQuestions();
    INFO(printed.error);
    CAPTURE(std::string(text));
    REQUIRE(printed.status == 0);
}

void Transcript::at(std::string_view instant) {
    m_clock.moveTo(*logbook::parseInstant(instant));
    m_text += "# " + std::string(instant) + "\n";
}

void Transcript::write(std::string_view name, std::string_view bytes) {
    m_folder.write(name, bytes);
}

std::string Transcript::bytesOf(std::string_view name) const {
    return support::bytesOf(m_folder.file(name));
}

void Transcript::check(std::string_view name) const {
    const auto path = approvedFile(name);
    if (const auto* approve = std::getenv("AIRMUSTER_APPROVE");
        approve != nullptr && std::string_view(approve) == "1") {
        std::ofstream(path, std::ios::binary) << m_text;
    }
    CAPTURE(path.string());
    CHECK(m_text == support::bytesOf(path));
}

std::string smallRulebook(std::string_view edition) {
    return "format = 1\n"
           "title = \"Kestrel Bay, small\"\n"
           "edition = \"" +
           std::string(edition) +
           "\"\n"
           "time_zone = \"America/Chicago\"\n"
           "[groups.adult]\nlabel = \"Adult\"\npar = 1\n"
           "[groups.neonatal]\nlabel = \"Neonatal\"\n"
           "[positions.circuit]\nlabel = \"Breathing circuit\"\nrequired = true\n"
           "match_group = true\nreuse = \"single_patient\"\n"
           "[positions.flow_sensor]\nlabel = \"Flow sensor\"\nreuse = \"reusable\"\n"
           "[checks.leak]\nlabel = \"Leak test\"\ntakes = \"PT2M\"\n"
           "needs = [\"mains_power\"]\n"
           "voided_by = [{ event = \"use_end\" }, { event = \"change circuit\" },"
           " { event = \"clear *\" }]\n"
           "[checks.leak.measures.leak]\nlabel = \"Leak\"\nunit = \"mL/min\"\n"
           "max = { adult = 200, neonatal = 50 }\n"
           "[services.acceptance]\nlabel = \"Acceptance test\"\nbefore_first_use = true\n"
           "[holds.incident]\nlabel = \"Held after an incident\"\n"
           "release_by = [\"risk_manager\"]\n"
           "[authority]\nadopt = [\"lead\"]\nperson = [\"lead\"]\nclear = [\"biomed\"]\n"
           "service = [\"biomed\"]\nwaive = [\"lead\"]\nstrike = [\"lead\"]\n"
           "[labels.roles]\nbiomed = \"Biomedical engineer\"\nlead = \"Lead therapist\"\n";
}

void prepareSmallWard(Transcript& transcript) {
    transcript.write("policy.toml", support::smallRulebook());
    transcript.prepare("init ward.logbook --station icu-1 --rulebook policy.toml --manager mt "
                       "--name \"Morgan Thistle\"");
    transcript.prepare("person ward.logbook mt --name \"Morgan Thistle\" --role lead --as mt");
    transcript.prepare("person ward.logbook rs --name \"Robin Sorrel\" --role biomed --as mt");
    transcript.prepare("pin set ward.logbook rs --as mt");
    transcript.prepare(
        "log ward.logbook enrol KB-0142 --model Larch --group adult --commissioned 2026-01-15 "
        "--location Store --as mt");
    transcript.prepare(
        "log ward.logbook service KB-0142 --service acceptance --outcome pass --as rs");
    transcript.prepare(
        "log ward.logbook fit KB-0142 --position circuit --lot L7 --group adult --as mt");
}

}  // namespace support
