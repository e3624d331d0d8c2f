// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the command line prints, to the letter, about fleet lists, the settings of a
// station, who signs in at it and what was brought in.
#include "cli/transcript.h"

#include <catch2/catch.hpp>

using support::Transcript;

namespace {

void prepareWard(Transcript& transcript) {
    transcript.write("policy.toml", support::smallRulebook());
    transcript.prepare("init ward.logbook --station icu-1 --rulebook policy.toml --manager mt "
                       "--name \"Morgan Thistle\"");
    transcript.prepare(
        "log ward.logbook enrol KB-0142 --model Larch --group adult --commissioned 2026-01-15 "
        "--asset A-142 --location Store --as mt");
}

}  // namespace

TEST_CASE("Enrolling units from a fleet list", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.write("fleet.csv",
                     "\xEF\xBB\xBFSerial,notes,model,groups,commissioned,label,asset,location\r\n"
                     "KB-0201,\"bought,\r\nused\",Larch,adult;neonatal,2026-02-01,Unit 201,A-201,"
                     "Equipment room\r\n"
                     "KB-0202,,Larch,adult,2026-02-01,\"Unit \"\"202\"\"\",,\r\n"
                     "KB-0142,,Larch,adult,2026-02-01,,,\r\n"
                     "KB-0203,,Larch,toddler,2026-13-01,,A-142,\r\n"
                     "KB-0204,,Larch \"3\",adult,2026-02-01,,,\r\n"
                     "KB-0205,,Larch,adult,2026-02-01,Mrs Harebell,,\r\n");
    transcript.run("fleet ward.logbook fleet.csv");
    transcript.run("fleet ward.logbook fleet.csv --take");
    transcript.run("fleet ward.logbook fleet.csv --json");
    transcript.run("fleet ward.logbook fleet.csv --take --as mt");
    transcript.run("fleet ward.logbook fleet.csv --take --as mt");
    transcript.write("rest.csv",
                     "serial,model,groups,commissioned,label\n"
                     "KB-0205,Larch,adult,2026-02-01,Mrs Harebell\n");
    transcript.run("fleet ward.logbook rest.csv --names-no-patient --take --as mt --json");
    transcript.run("fleet ward.logbook none.csv");
    transcript.write("semicolons.csv", "serial;model;groups;commissioned\n");
    transcript.run("fleet ward.logbook semicolons.csv");
    transcript.write("columns.csv", "serial,model,model,groups\n");
    transcript.run("fleet ward.logbook columns.csv");
    transcript.write("latin.csv", "serial,model,groups,commissioned\nKB-1,L\xE4rche,adult,\n");
    transcript.run("fleet ward.logbook latin.csv");
    transcript.run("fleet nowhere.logbook fleet.csv");
    transcript.check("fleet");
}

TEST_CASE("Settings of a station", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.run("settings ward.logbook");
    transcript.run("settings ward.logbook lock-after \"2 min\"");
    transcript.run("settings ward.logbook lock-after \"2 min\" --as mt");
    transcript.run("settings ward.logbook pressure mbar --as mt");
    transcript.run("settings ward.logbook pressure psig --as mt");
    transcript.run("settings ward.logbook lock-after");
    transcript.run("settings ward.logbook lock-after --unset --as mt");
    transcript.run("settings ward.logbook second-backup /nowhere/copies --as mt");
    transcript.run("settings ward.logbook second-backup --unset --as mt");
    transcript.run("settings ward.logbook colour");
    transcript.run("settings ward.logbook --json");
    transcript.check("settings");
}

TEST_CASE("A backup is made once an entry has been in none for a day", "[golden]") {
    support::Transcript transcript;
    support::prepareSmallWard(transcript);
    const auto fault = "log ward.logbook fault KB-0142 --code noisy_fan --as mt";
    transcript.at("2026-03-03T13:59:59Z");
    transcript.run(fault);
    transcript.at("2026-03-03T18:00:00Z");
    transcript.run(fault);
    transcript.run(fault);
    transcript.run("verify ward.logbook.backups/ward-icu-1-20260303T180000Z.logbook");
    transcript.run("settings ward.logbook backups-kept 2 --as mt");
    transcript.run("settings ward.logbook backups-kept many --as mt");
    transcript.run("settings ward.logbook second-backup /nowhere --as mt");
    transcript.at("2026-03-05T06:00:00Z");
    transcript.run(fault);
    transcript.run("migrate ward.logbook");
    transcript.check("backing_up");
}

TEST_CASE("People and imports are listed", "[golden]") {
    Transcript transcript;
    prepareWard(transcript);
    transcript.run("people ward.logbook");
    transcript.prepare("person ward.logbook rs --name \"Robin Sorrel\" --role biomed --role lead "
                       "--until 2026-03-01 --as mt");
    transcript.prepare("person ward.logbook bk --name \"Bo Kestrel\" --role biomed "
                       "--until 2026-12-31 --as mt");
    transcript.prepare("person ward.logbook ar --name \"Ada Rowan\" --as mt");
    transcript.prepare("pin set ward.logbook bk --as mt");
    transcript.prepare("pin set ward.logbook ar --as mt");
    transcript.prepare("badge ward.logbook bk 0042717 --as mt");
    for (const auto* instant : {"2026-03-02T14:10:00Z", "2026-03-02T14:11:00Z"}) {
        transcript.at(instant);
        transcript.terminal.answerSecretly("000001");
        transcript.runCounted("log ward.logbook note KB-0142 --text Seen --as bk");
    }
    transcript.run("people ward.logbook");
    transcript.run("people ward.logbook --json");
    transcript.run("people none.logbook");
    transcript.run("imports ward.logbook");
    transcript.prepare("export ward.logbook --to ward.jsonl");
    transcript.run("imports desk.logbook");
    transcript.prepare("import desk.logbook ward.jsonl --as bk");
    transcript.prepare("import desk.logbook ward.jsonl");
    transcript.run("imports desk.logbook");
    transcript.run("imports desk.logbook --json");
    transcript.run("people desk.logbook");
    transcript.check("people");
}
