// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every way in which a call, a file or an entry can be wrong, with what is said about it. That
// nothing is changed and no answer is printed then is checked at every call of a transcript.
#include "cli/transcript.h"

#include <catch2/catch.hpp>

using support::Transcript;

namespace {

void prepareWard(Transcript& transcript) {
    transcript.write("policy.toml", support::smallRulebook());
    transcript.prepare("init ward.logbook --station icu-1 --rulebook policy.toml --manager mt "
                       "--name \"Morgan Thistle\"");
    transcript.prepare("person ward.logbook mt --name \"Morgan Thistle\" --role lead --as mt");
    transcript.prepare(
        "log ward.logbook enrol KB-0142 --model Larch --group adult --commissioned 2026-01-15 "
        "--as mt");
}

std::string note(int seq, std::string_view station, std::string_view text) {
    return R"({"at":"2026-03-02T14:00:00Z","body":{"text":")" + std::string(text) +
           R"("},"by":"mt","device":"KB-0001","entered":"2026-03-02T14:00:05Z","kind":"note",)"
           R"("seq":)" +
           std::to_string(seq) + R"(,"station":")" + std::string(station) + "\"}\n";
}

std::string replaced(std::string text, std::string_view old, std::string_view replacement) {
    const auto place = text.find(old);
    REQUIRE(place != std::string::npos);
    return text.replace(place, old.size(), replacement);
}

std::string adoptLine(std::string_view instant, std::string_view edition, std::string_view text) {
    return R"({"at":")" + std::string(instant) + R"(","body":{"edition":")" +
           std::string(edition) + R"(","text":")" + std::string(text) +
           R"("},"by":"zz","device":"","entered":")" + std::string(instant) +
           R"(","kind":"adopt","seq":1,"station":"er-2"})" "\n";
}

}  // namespace

TEST_CASE("Calls that cannot be understood", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    for (const auto* call :
         {"", "bord ward.logbook", "levitate", "rulebook", "rulebook chek policy.toml", "board",
          "board ward.logbook --grup adult", "board ward.logbook --levitate",
          "board ward.logbook more", "board ward.logbook --at", "board ward.logbook --json=yes",
          "board ward.logbook --at 2026-03-02T14:00:00Z --at 2026-03-02T15:00:00Z",
          "board ward.logbook --at yesterday", "board ward.logbook --known-at 2026-03-02",
          "board ward.logbook --group pediatric", "explain ward.logbook KB-0999",
          "month ward.logbook March", "month ward.logbook 2026-13",
          "init ward.logbook", "person ward.logbook rs --as mt",
          "strike ward.logbook icu-1/1 --as mt", "demo ward.logbook", "demo ward.logbook --fresh",
          "demo demo.logbook --seed many", "demo demo.logbook --end tomorrow",
          "demo nowhere/demo.logbook", "plan ward.logbook KB-0999"}) {
        transcript.run(call);
    }
    transcript.check("calls");
}

TEST_CASE("Entries that are refused", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.prepare("person ward.logbook bk --name \"Bo Kestrel\" --role biomed --as mt");
    transcript.prepare("pin set ward.logbook bk --as mt");
    for (const auto* call :
         {"log ward.logbook levitate KB-0142 --as mt",
          "log ward.logbook adopt --as mt",
          "log ward.logbook note KB-0142 --text Seen",
          "log ward.logbook note KB-0142 --json \"[1]\" --as mt",
          "log ward.logbook note KB-0142 --json \"{\" --as mt",
          "log ward.logbook note KB-0142 --as mt",
          "log ward.logbook retire KB-0142 --as mt",
          "log ward.logbook withdraw KB-0142 --as mt",
          "log ward.logbook reprocess KB-0142 --as mt",
          "log ward.logbook note --text Seen --as mt",
          "log ward.logbook note KB-0142 --text Seen --lot L7 --as mt",
          "log ward.logbook note KB-0142 --text Seen --as \"\"",
          "log ward.logbook note KB-0142 --text Seen --as mt --at 2026-03-02T14:00:01Z",
          "log ward.logbook waive KB-0142 --finding due --subject leak --reason Trial "
          "--until 2026-03-03T14:00:00Z --as mt",
          "log ward.logbook waive KB-0142 --finding service_overdue --subject acceptance "
          "--reason Trial --until 2026-03-03T14:00:00Z --as mt --at 2026-03-02T13:00:00Z",
          "log ward.logbook fit KB-0142 --position valve --as mt",
          "log ward.logbook fit KB-0142 --position circuit --position flow_sensor --as mt",
          "log ward.logbook fit KB-0142 --position circuit --attribute coaxial --as mt",
          "log ward.logbook fit KB-0142 --position circuit --reuse often --as mt",
          "log ward.logbook remove KB-0142 --position valve --as mt",
          "log ward.logbook reprocess KB-0142 --position valve --level high --as mt",
          "log ward.logbook check KB-0142 --check leek --outcome pass --as mt",
          "log ward.logbook check KB-0142 --check leak --outcome good --as mt",
          "log ward.logbook check KB-0142 --check leak --outcome pass --measure leak --as mt",
          "log ward.logbook check KB-0142 --check leak --outcome pass "
          "--measure \"leak=42 hPa\" --as mt",
          "log ward.logbook check KB-0142 --check leak --outcome pass "
          "--measure \"leak=42 cups\" --as mt",
          "log ward.logbook service KB-0142 --service yearly --outcome pass --as bk",
          "log ward.logbook service KB-0142 --service acceptance --outcome pass --as mt",
          "log ward.logbook group KB-0142 --group pediatric --as mt",
          "log ward.logbook power KB-0999 --on --as mt",
          "log ward.logbook fault KB-0142 --code display --blocking maybe --as mt",
          "log ward.logbook clear KB-0142 --code display --as rs",
          "log ward.logbook release KB-0142 --hold incident --as mt",
          "person ward.logbook rs --name Robin --until never --as mt",
          "person ward.logbook rs --name Robin --role Biomed --as mt"}) {
        transcript.run(call);
    }
    transcript.prepare("log ward.logbook retire KB-0142 --reason Sold --as mt");
    transcript.run("log ward.logbook power KB-0142 --on --as mt");
    transcript.run("log ward.logbook use_start KB-0999 --as mt");
    transcript.check("entries");
}

TEST_CASE("Letters that could not be read again are refused at the call", "[unit]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.terminal.leave();
    for (const auto* call :
         {"log ward.logbook fault KB-0142 --code display --text caf\xe9 --as nobody.at.all",
          "log ward.logbook soil KB-0142 --reason caf\xe9 --as mt",
          "log ward.logbook fault KB-0142 --code display --batch caf\xe9 --as mt",
          "log ward.logbook fault KB-0142 --code display --form caf\xe9 --as mt",
          "log ward.logbook fault KB-0142 --code display --as caf\xe9",
          "log ward.logbook fault caf\xe9 --code display --as mt",
          "strike ward.logbook icu-1/3 --reason caf\xe9 --as mt",
          "person ward.logbook rs --name caf\xe9 --as mt",
          "adopt ward.logbook policy.toml --approved-by caf\xe9 --as mt"}) {
        const auto printed = transcript.run(call);
        CHECK(printed.status == 2);
        CHECK_THAT(printed.error, Catch::Contains("is not written in UTF-8"));
    }
    CHECK(transcript.run("log ward.logbook fault KB-0142 --code display --text caf\xc3\xa9 --as mt")
              .status == 0);
    transcript.prepare("export ward.logbook --to caf\xe9.jsonl");
    CHECK(transcript.run("verify ward.logbook").status == 0);
}

TEST_CASE("Record files that are refused", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    const auto good = note(1, "er-2", "Seen");
    const auto first = adoptLine("2026-03-01T00:00:00Z", "1", "");
    const std::vector<std::pair<std::string, std::string>> files{
        {"lines", good + "no record\n" + note(0, "er-2", "Seen") + note(3, "ER 2", "Seen")},
        {"cut-off", good.substr(0, 40)},
        {"twice", replaced(good, R"("by":"mt")", R"("by":"mt","by":"rs")")},
        {"bytes", replaced(good, "Seen", "\xFF")},
        {"mark", "\xEF\xBB\xBF" + good},
        {"future", replaced(good, "14:00:00Z", "15:00:00Z")},
        {"kind", replaced(good, R"("note")", R"("levitate")")},
        {"gap", note(2, "er-2", "Seen")},
        {"fork", good + note(1, "er-2", "Heard")},
        {"own", note(9, "icu-1", "Seen")},
        {"own-changed", note(1, "icu-1", "Seen")},
        {"rulebook", replaced(first, R"("text":"")", R"("text":"format = 1")")},
        {"edition", replaced(first, R"("text":"")",
                             R"("text":"format = 1\ntitle = \"T\"\nedition = \"2\"\n)"
                             R"(time_zone = \"America/Chicago\"\n[groups.adult]")")},
        {"first", replaced(first, R"("text":"")",
                           R"("text":"format = 1\ntitle = \"T\"\nedition = \"1\"\n)"
                           R"(time_zone = \"America/Chicago\"\n[groups.adult]")")},
    };
    for (const auto& [name, bytes] : files) {
        transcript.write(name + ".jsonl", bytes);
        CHECK(transcript.run("import ward.logbook " + name + ".jsonl --as mt").status == 2);
        if (name != "own" && name != "own-changed" && name != "first") {
            CHECK(transcript.run("import none.logbook " + name + ".jsonl").status == 2);
        }
    }
    transcript.write("good.jsonl", good);
    transcript.run("import ward.logbook good.jsonl lines.jsonl --as mt");
    transcript.run("import ward.logbook none.jsonl --as mt");
    transcript.run("import ward.logbook . --as mt");
    transcript.run("import ward.logbook --as mt");
    transcript.check("record_files");
}

TEST_CASE("Rulebooks that are refused or warned about", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.write("faulty.toml", "format = 1\ntitle = \"Faulty\"\nedition = \"3\"\n"
                                    "time_zone = \"America/Nowhere\"\n[groups.adult]\n"
                                    "[checks.leak]\ntakes = \"2 minutes\"\ncolour = \"blue\"\n");
    transcript.write("syntax.toml", "format = = 1\n");
    transcript.write("bytes.toml", "format = 1\ntitle = \"\xFF\"\n");
    for (const auto* call :
         {"rulebook check policy.toml", "rulebook check policy.toml --json",
          "rulebook check faulty.toml", "rulebook check faulty.toml --json",
          "rulebook check syntax.toml", "rulebook check bytes.toml", "rulebook check none.toml",
          "rulebook check .", "adopt ward.logbook faulty.toml --as mt",
          "adopt ward.logbook none.toml --as mt", "adopt ward.logbook policy.toml --as rs"}) {
        transcript.run(call);
    }
    transcript.check("rulebooks");
}

TEST_CASE("Logbooks that cannot be opened", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.write("policy.logbook", support::smallRulebook());
    for (const auto* call :
         {"board none.logbook", "explain none.logbook KB-0142", "month none.logbook 2026-03",
          "verify none.logbook", "export none.logbook", "backup none.logbook copy.logbook",
          "log none.logbook note KB-0142 --text Seen --as mt",
          "strike none.logbook icu-1/4 --reason Wrong --as mt",
          "adopt none.logbook policy.toml --as mt", "board policy.logbook",
          "init policy.logbook --station icu-1", "verify policy.logbook", "board .",
          "init nowhere/ward.logbook --station icu-1"}) {
        CHECK(transcript.run(call).status == 3);
    }
    transcript.write("none.jsonl", "");
    // Names that the logbook takes for its own.
    for (const auto* call :
         {"backup ward.logbook ward.logbook-journal", "backup ward.logbook ward.logbook.holder",
          "export ward.logbook --to ward.logbook-wal",
          "forms ward.logbook --to ward.logbook-shm", "backup ward.logbook ward.logbook.backups",
          "init ward.logbook.holder --station icu-2", "import ward.logbook-journal none.jsonl",
          "salvage ward.logbook ward.logbook.holder",
          "restore ward.logbook ward.logbook-journal --station icu-2"}) {
        CHECK(transcript.run(call).status == 2);
    }
    transcript.check("logbooks");
}
