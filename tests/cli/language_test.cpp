// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program in another language than English: how it is asked for, and what it then prints, to
// the letter.
#include "cli/language_option.h"

#include "cli/transcript.h"

#include <catch2/catch.hpp>

using support::Transcript;

namespace {

station::Result<cli::SpokenCall> taken(const std::vector<std::string>& arguments) {
    return cli::takeLanguage(arguments, *words::Words::builtIn());
}

}  // namespace

TEST_CASE("The language is taken out of a call wherever it stands", "[unit]") {
    using Arguments = std::vector<std::string>;
    for (const Arguments& arguments : {Arguments{"--language", "es", "board", "w"},
                                       Arguments{"board", "w", "--language", "es"},
                                       Arguments{"board", "--language=es", "w"}}) {
        const auto call = taken(arguments);
        REQUIRE(call);
        CHECK(call->words->language() == "es");
        CHECK((call->arguments == Arguments{"board", "w"}));
    }
    const auto none = taken({"board", "w"});
    REQUIRE(none);
    CHECK(none->words->language() == "en");
    const auto behind = taken({"log", "--", "--language", "es"});
    REQUIRE(behind);
    CHECK(behind->words->language() == "en");
    CHECK((behind->arguments == Arguments{"log", "--", "--language", "es"}));
}

TEST_CASE("A language that is not built in, none or two are refused", "[unit]") {
    CHECK(taken({"board", "--language", "qu"}).error().code == "call.bad_value");
    CHECK(taken({"board", "--language"}).error().code == "call.bad_value");
    CHECK(taken({"board", "--language="}).error().code == "call.bad_value");
    CHECK(taken({"--language", "es", "--language=en"}).error().code == "call.option_twice");
    CHECK(taken({"--language", "qu"}).error().notice.action == "Write it as en or es.");
}

TEST_CASE("A day's work in Spanish", "[golden]") {
    Transcript transcript;
    transcript.write("policy.toml", support::smallRulebook());
    const auto run = [&transcript](const std::string& call) {
        transcript.run("--language es " + call);
    };
    run("bord ward.logbook");
    run("board");
    run("board ward.logbook");
    run("rulebook check policy.toml");
    run("init ward.logbook --station icu-1 --rulebook policy.toml --manager mt --name "
        "\"Morgan Thistle\" --department \"Terapia respiratoria\" --facility \"Kestrel Bay\"");
    run("person ward.logbook rs --name \"Robin Sorrel\" --role biomed --as mt");
    run("pin set ward.logbook rs --as mt");
    run("log ward.logbook enrol KB-0142 --model Larch --group adult --commissioned 2026-01-15 "
        "--location Box --as rs");
    run("log ward.logbook enrol KB-0142 --model Larch --group adult --commissioned 2026-01-15 "
        "--location Box --as mt");
    run("log ward.logbook fit KB-0142 --position circuit --lot L7 --group adult --as mt");
    run("log ward.logbook check KB-0142 --check leak --outcome pass --measure \"leak=900 mL/min\" "
        "--as mt");
    run("log ward.logbook use_start KB-0142 --at \"2026-03-02 07:10\" --as mt");
    transcript.terminal.answer("no");
    run("log ward.logbook note KB-0142 --text \"Sra. Harebell, historia clínica 4471\" --as mt");
    transcript.terminal.answer("SÍ");
    run("log ward.logbook note KB-0142 --text \"Bebé Heather\" --as mt");
    run("log ward.logbook use_end KB-0142 --at \"2026-11-01 01:30\" --as mt");
    run("strike ward.logbook icu-1/99 --reason Error --as mt");
    run("board ward.logbook");
    run("explain ward.logbook KB-0142");
    run("verify ward.logbook");
    transcript.check("spanish_day");
}

TEST_CASE("The demo answers in Spanish", "[golden]") {
    Transcript transcript;
    transcript.prepare("demo demo.logbook --end 2026-03-02T14:00:00Z");
    for (const std::string call :
         {"board demo.logbook", "explain demo.logbook KB-0142", "explain demo.logbook KB-0106",
          "explain demo.logbook KB-0129 --at \"2026-03-02 03:00\"", "plan demo.logbook KB-0142",
          "plan demo.logbook KB-0106", "plan demo.logbook KB-0185",
          "horizon demo.logbook --hours 48",
          "muster demo.logbook --group neonatal --units 8 --people 2",
          "trace demo.logbook --notice n26_03", "month demo.logbook 2026-02"}) {
        transcript.run("--language es " + call);
    }
    transcript.check("spanish_demo");
}
