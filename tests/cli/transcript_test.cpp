// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the command line prints, to the letter, for a day's work: founding, entering, asking,
// exchanging and keeping.
#include "cli/transcript.h"

#include <catch2/catch.hpp>

using support::prepareSmallWard;
using support::Transcript;

TEST_CASE("Founding a logbook and a department", "[golden]") {
    Transcript transcript;
    transcript.write("policy.toml", support::smallRulebook());
    transcript.run("init ward.logbook --station icu-1");
    transcript.run("init ward.logbook --station icu-1");
    transcript.run("init ward.logbook --station icu-2");
    transcript.run("init other.logbook --station \"ICU 1\"");
    transcript.run("board ward.logbook");
    transcript.run("init ward.logbook --station icu-1 --manager mt --name \"Morgan Thistle\"");
    transcript.run("init ward.logbook --station icu-1 --rulebook policy.toml --manager mt "
                   "--name \"Morgan Thistle\" --department \"Respiratory care\" "
                   "--facility \"Kestrel Bay Hospital\" --approved-by \"Dr. Rowan\"");
    transcript.run("init ward.logbook --station icu-1");
    transcript.run("init ward.logbook --station icu-1 --manager rs");
    transcript.run("person ward.logbook rs --name \"Robin Sorrel\" --role biomed "
                   "--until 2026-12-31 --as mt");
    transcript.run("pin set ward.logbook rs --as mt");
    transcript.run("person ward.logbook xx --name Nobody --as rs");
    transcript.run("board ward.logbook");
    transcript.check("founding");
}

TEST_CASE("Founding on a terminal asks for what is lacking", "[golden]") {
    Transcript transcript;
    transcript.write("policy.toml", support::smallRulebook());
    for (const auto* answer : {"policy.toml", "mt", "Morgan Thistle"}) {
        transcript.terminal.answer(answer);
    }
    for (const auto* pin : {"402951", "402915", "402951", "402951"}) {
        transcript.terminal.answerSecretly(pin);
    }
    transcript.run("init ward.logbook --station icu-1");
    transcript.run("adopt none.logbook policy.toml --as mt");
    transcript.prepare("export ward.logbook --to ward.jsonl");
    transcript.prepare("import desk.logbook ward.jsonl");
    transcript.terminal.answer("mt");
    transcript.run("init desk.logbook --station er-2");
    transcript.check("asking");
}

TEST_CASE("Entering what happened, and asking", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.at("2026-03-02T14:10:00Z");
    transcript.run("board ward.logbook");
    transcript.run("log ward.logbook check KB-0142 --check leak --outcome pass "
                   "--measure \"leak=42 mL/min\" --as mt");
    transcript.run("log ward.logbook check KB-0142 --check leak --outcome pass "
                   "--measure \"leak=0.042 L/min\" --condition mains_power --as mt "
                   "--at 2026-03-02T14:08:00Z --done-by mt --witness rs --form 17 --batch b1");
    transcript.run("board ward.logbook");
    transcript.run("board ward.logbook --group neonatal --json");
    transcript.run("board ward.logbook --csv");
    transcript.run("board ward.logbook --csv --json");
    transcript.run("explain ward.logbook KB-0142");
    transcript.run("explain ward.logbook KB-0142 --json --at 2026-03-02T14:05:00Z");
    transcript.run("log ward.logbook use_start KB-0142 --location \"Bed 4\" --as mt");
    transcript.run("log ward.logbook use_end KB-0142 --json \"{}\" --as mt");
    transcript.at("2026-03-02T15:00:00Z");
    transcript.run("log ward.logbook withdraw KB-0142 --hold incident --reason \"Fell\" --as mt");
    transcript.run("board ward.logbook");
    transcript.run("month ward.logbook 2026-03");
    transcript.run("month ward.logbook 2026-03 --json");
    transcript.run("month ward.logbook 2026-03 --at 2026-03-02T14:30:00Z "
                   "--known-at 2026-03-02T14:05:00Z --json");
    transcript.check("entering");
}

TEST_CASE("Looking ahead", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.at("2026-03-02T14:10:00Z");
    transcript.run("horizon ward.logbook");
    transcript.run("horizon ward.logbook --hours 24 --at 2026-03-02T15:00:00Z --json");
    transcript.run("horizon ward.logbook --hours 0");
    transcript.run("horizon ward.logbook --hours 745");
    transcript.run("horizon ward.logbook --hours 1.5");
    transcript.run("horizon ward.logbook --hours -3");
    transcript.run("horizon nowhere.logbook");
    transcript.run("horizon ward.logbook --at 2025-03-02T15:00:00Z");
    transcript.check("ahead");
}

TEST_CASE("Looking back", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("log ward.logbook check KB-0142 --check leak --outcome pass "
                       "--measure \"leak=42 mL/min\" --condition mains_power --as mt");
    transcript.at("2026-03-02T16:00:00Z");
    transcript.prepare("log ward.logbook soil KB-0142 --reason \"Isolation room\" "
                       "--at 2026-03-02T14:30:00Z --as mt");
    transcript.prepare("strike ward.logbook icu-1/7 --reason \"Wrong unit\" --as mt");
    transcript.run("explain ward.logbook KB-0142 --at 2026-03-02T15:00:00Z");
    transcript.run("explain ward.logbook KB-0142 --at 2026-03-02T15:00:00Z "
                   "--known-at 2026-03-02T14:15:00Z --json");
    transcript.run("explain ward.logbook KB-0999 --at 2026-03-02T15:00:00Z");
    transcript.check("looking_back");
}

TEST_CASE("Correcting an entry", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("strike ward.logbook icu-1/7 --reason \"Wrong position\" --as mt");
    transcript.run("strike ward.logbook icu-1/7 --reason \"Wrong position\" --as mt");
    transcript.run("strike ward.logbook icu-1/1 --reason \"Wrong edition\" --as mt");
    transcript.run("strike ward.logbook icu-1/99 --reason \"Not there\" --as mt");
    transcript.run("strike ward.logbook 60 --reason \"No name\" --as mt");
    transcript.run("strike ward.logbook icu-1/5 --reason \"Not mine\" --as rs");
    transcript.prepare("log ward.logbook fault KB-0142 --code display --as rs");
    transcript.prepare("log ward.logbook withdraw KB-0142 --hold incident --as mt");
    transcript.run("strike ward.logbook icu-1/9 --reason \"Nothing seen\" --as mt");
    transcript.run("export ward.logbook --since 2026-03-02T14:00:00Z --station icu-1 "
                   "--to all.jsonl");
    transcript.check("correcting");
}

TEST_CASE("Exchanging and keeping", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("export ward.logbook --to ward.jsonl");
    transcript.run("export ward.logbook --to ward.jsonl");
    transcript.run("export ward.logbook --to nowhere/ward.jsonl");
    transcript.run("export ward.logbook --station er-2");
    transcript.run("export ward.logbook --since 2027-01-01T00:00:00Z");
    transcript.run("import desk.logbook ward.jsonl --as bk");
    transcript.run("import desk.logbook ward.jsonl");
    transcript.run("log desk.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.run("init desk.logbook --station icu-1");
    transcript.run("init desk.logbook --station desk");
    transcript.run("log desk.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.run("init desk.logbook --station desk --manager mt");
    transcript.run("import desk.logbook ward.jsonl");
    transcript.run("import desk.logbook ward.jsonl --as mt");
    transcript.run("log desk.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.run("export desk.logbook --station desk");
    transcript.run("verify ward.logbook");
    transcript.run("verify ward.logbook --json");
    transcript.run("backup ward.logbook copy.logbook");
    transcript.run("backup ward.logbook copy.logbook");
    transcript.run("backup ward.logbook nowhere/copy.logbook");
    transcript.run("log copy.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.write("nothing.jsonl", "");
    transcript.run("import --as mt -- desk.logbook nothing.jsonl");
    transcript.run("init \"our desk.logbook\" --station er-9");
    transcript.check("exchanging");
}

TEST_CASE("Mustering units", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare(
        "log ward.logbook enrol KB-0143 --model Larch --group adult --commissioned 2026-01-15 "
        "--location \"Bed 2\" --as mt");
    transcript.at("2026-03-02T14:10:00Z");
    transcript.run("muster ward.logbook --group adult --units 1 --people 1");
    transcript.run("muster ward.logbook --group adult --units 2 --people 2");
    transcript.run("muster ward.logbook --group adult --units 2 --people 2 --json");
    transcript.run("muster ward.logbook --group adult --units 1 --people 2 "
                   "--at 2026-03-02T14:05:00Z --known-at 2026-03-02T14:05:00Z --json");
    transcript.run("muster ward.logbook --group neonatal --units 1 --people 1");
    transcript.run("muster ward.logbook --group adults --units 1 --people 1");
    transcript.run("muster ward.logbook --units 1 --people 1");
    transcript.run("muster ward.logbook --group adult --units 0 --people 1");
    transcript.run("muster ward.logbook --group adult --units 1000 --people 1");
    transcript.run("muster ward.logbook --group adult --units 1 --people two");
    transcript.run("muster ward.logbook --group adult --units 1 --people 1.5");
    transcript.check("mustering");
}

TEST_CASE("Tracing parts", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("trace ward.logbook --lot L7");
    transcript.run("trace ward.logbook --lot L7 --json");
    transcript.run("trace ward.logbook --serial L7");
    transcript.run("trace ward.logbook --notice n1");
    transcript.run("trace ward.logbook");
    transcript.run("trace ward.logbook --lot L7 --serial S1");
    transcript.run("trace ward.logbook --lot \"\"");
    transcript.run("trace ward.logbook --lot l-7");
    transcript.check("tracing");
}

TEST_CASE("Forms for a time without a computer, and what was written on one", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("forms ward.logbook --count 0");
    transcript.run("forms ward.logbook --count many");
    transcript.run("forms ward.logbook --count 2 --to downtime.txt");
    transcript.run("forms ward.logbook --to downtime.txt");
    transcript.run("forms ward.logbook --to nowhere/downtime.txt");
    transcript.run("forms ward.logbook --count 1");
    transcript.at("2026-03-02T18:00:00Z");
    transcript.run("log ward.logbook check KB-0142 --check leak --outcome pass "
                   "--measure \"leak=42 mL/min\" --condition mains_power --at 10:15 "
                   "--done-by rs --form icu-1-F2 --as mt");
    transcript.run("explain ward.logbook KB-0142");
    transcript.check("forms");
}

TEST_CASE("Trying a draft writes nothing", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.write("draft.toml", support::smallRulebook("2026-2") +
                                       "[checks.handle]\ntakes = \"PT1M\"\n");
    transcript.write("faulty.toml", "format = 1\n[checks.leak]\ntakes = \"long\"\n");
    const auto before = transcript.bytesOf("ward.logbook");
    transcript.at("2026-03-02T15:00:00Z");
    transcript.run("try ward.logbook draft.toml");
    transcript.run("try ward.logbook draft.toml --months 1 --json");
    transcript.run("try ward.logbook faulty.toml");
    transcript.run("try ward.logbook none.toml");
    for (const std::string months : {"0", "121", "1.5", "-1", "many", "12x"}) {
        transcript.run("try ward.logbook draft.toml --months " + months);
    }
    CHECK(transcript.bytesOf("ward.logbook") == before);
    transcript.check("trying");
}

TEST_CASE("Moving what was entered on the wrong unit", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare(
        "log ward.logbook enrol KB-0143 --model Larch --group adult --commissioned 2026-01-15 "
        "--location Store --as mt");
    transcript.prepare(
        "log ward.logbook service KB-0143 --service acceptance --outcome pass --as rs");
    transcript.at("2026-03-02T14:10:00Z");
    transcript.run("log ward.logbook fit KB-0142 --position circuit --lot L8 --group adult "
                   "--batch b1 --as mt");
    transcript.run("log ward.logbook check KB-0142 --check leak --outcome pass "
                   "--measure \"leak=42 mL/min\" --condition mains_power --batch b1 --as mt");
    transcript.at("2026-03-02T14:20:00Z");
    transcript.run("transfer ward.logbook icu-1/99 --to KB-0143 --reason \"Wrong unit\" --as mt");
    transcript.run("transfer ward.logbook icu-1/10 --to KB-0199 --reason \"Wrong unit\" --as mt");
    transcript.run("transfer ward.logbook icu-1/10 --to KB-0143 --with-batch "
                   "--reason \"Wrong unit scanned\" --as mt");
    transcript.run("explain ward.logbook KB-0143");
    transcript.run("strike ward.logbook icu-1/14 --with-batch --reason \"Never done\" --as mt");
    transcript.run("strike ward.logbook icu-1/8 --with-batch --reason \"Alone\" --as mt");
    transcript.check("moving");
}

TEST_CASE("Texts that seem to name a patient", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.terminal.answer("no");
    transcript.run("log ward.logbook note KB-0142 --text \"MRN 4471203\" --as mt");
    transcript.terminal.answer("yes");
    transcript.run("log ward.logbook note KB-0142 --text \"Panel 4471203 of Larch\" --as mt");
    transcript.terminal.leave();
    transcript.run("log ward.logbook withdraw KB-0142 --hold incident "
                   "--reason \"Mrs Harebell fell on it\" --as mt");
    transcript.check("patient_texts");
}

TEST_CASE("A clock that was set back is told", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.at("2026-03-02T13:00:00Z");
    transcript.run("board ward.logbook --json");
    transcript.run("log ward.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.run("month ward.logbook 2026-03 --json");
    transcript.run("month ward.logbook 2026-03 --json --at 2026-03-02T13:00:00Z");
    transcript.check("clock");
}

TEST_CASE("What a text from elsewhere hides is shown", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("log ward.logbook fault KB-0142 --code display --as mt "
                   "--text \"dark\x1b[31m\xe2\x80\xaegone\"");
    transcript.run("explain ward.logbook KB-0142");
    transcript.check("hidden");
}

TEST_CASE("A logbook that was changed is told, and no unit in it is ready", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.prepare("log ward.logbook check KB-0142 --check leak --outcome pass "
                       "--measure \"leak=42 mL/min\" --condition mains_power --as mt");
    transcript.run("board ward.logbook --json");
    auto bytes = transcript.bytesOf("ward.logbook");
    const auto place = bytes.find(R"("lot":"L7")");
    REQUIRE(place != std::string::npos);
    bytes[place + 8] = '8';
    transcript.write("ward.logbook", bytes);
    CHECK(transcript.run("verify ward.logbook").status == 1);
    CHECK(transcript.run("verify ward.logbook --json").status == 1);
    transcript.run("board ward.logbook");
    transcript.run("backup ward.logbook copy.logbook");
    CHECK(transcript.run("export ward.logbook --to left.jsonl").status == 1);
    transcript.run("import new.logbook left.jsonl");
    transcript.check("changed");
}

TEST_CASE("Salvaging, restoring, and holding against earlier heads", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    transcript.run("backup ward.logbook early.logbook");
    transcript.prepare("log ward.logbook note KB-0142 --text \"Seen\" --as mt");
    transcript.prepare("log ward.logbook note KB-0142 --text \"Heard\" --as mt");
    transcript.run("verify ward.logbook --heads early.logbook");
    transcript.prepare("backup ward.logbook late.logbook");
    CHECK(transcript.run("verify early.logbook --heads late.logbook").status == 1);
    transcript.write("month.json", transcript.run("month ward.logbook 2026-03 --json").out);
    CHECK(transcript.run("verify early.logbook --heads month.json").status == 1);
    transcript.write("letter", "Dear Rowan");
    transcript.run("verify ward.logbook --heads letter");
    transcript.run("verify ward.logbook --heads nothing");
    auto bytes = transcript.bytesOf("ward.logbook");
    const auto place = bytes.find(R"("text":"Seen")");
    REQUIRE(place != std::string::npos);
    bytes[place + 8] = 's';
    transcript.write("ward.logbook", bytes);
    CHECK(transcript.run("salvage ward.logbook whole.logbook").status == 1);
    transcript.run("salvage ward.logbook whole.logbook");
    transcript.run("salvage letter other.logbook");
    transcript.run("salvage . other.logbook");
    auto harmed = transcript.bytesOf("late.logbook");
    const auto lot = harmed.find(R"("kind":"adopt")");
    REQUIRE(lot != std::string::npos);
    harmed[lot + 8] = 'A';
    transcript.write("harmed.logbook", harmed);
    transcript.run("salvage harmed.logbook other.logbook");
    transcript.run("verify harmed.logbook --heads early.logbook");
    transcript.run("salvage late.logbook other.logbook");
    transcript.run("restore late.logbook ward.logbook --station icu-1");
    transcript.run("restore late.logbook late.logbook --station icu-2");
    transcript.run("restore early.logbook ward.logbook --station icu-2");
    transcript.at("2026-03-02T14:05:00Z");
    transcript.run("restore late.logbook ward.logbook --station icu-2");
    // A name that the one put aside before has used.
    transcript.prepare("log ward.logbook soil KB-0142 --reason dropped --as mt");
    transcript.at("2026-03-02T14:06:00Z");
    transcript.prepare("restore late.logbook ward.logbook --station icu-4");
    CHECK(transcript.run("restore late.logbook ward.logbook --station icu-2").status != 0);
    transcript.write("gone.logbook.before-20260302T140000Z", bytes);
    transcript.write("gone.logbook.unfinished-7", bytes);
    transcript.run("board gone.logbook");
    CHECK(transcript.run("init gone.logbook --station icu-9").status == 3);
    transcript.write("lost.logbook.unfinished-7", bytes);
    transcript.run("verify lost.logbook");
    transcript.run("restore ward.logbook.before-20260302T140000Z new.logbook --station icu-3");
    transcript.run("verify ward.logbook");
    transcript.run("verify ward.logbook --json --heads early.logbook");
    transcript.check("rescuing");
}

TEST_CASE("A demo is made, replaced only by a demo, and answers", "[golden]") {
    Transcript transcript;
    const auto entriesOf = [&](std::string_view options) {
        transcript.prepare("demo demo.logbook --end 2026-03-02T14:00:00Z " + std::string(options));
        return transcript.run("export demo.logbook").out;
    };
    const auto first = entriesOf("--seed 26");
    CHECK(first.size() > 1'000'000);
    CHECK((entriesOf("--seed 26 --fresh") == first));
    CHECK((entriesOf("--seed 27 --fresh") != first));
    transcript.prepare("verify demo.logbook");
    transcript.prepare("board demo.logbook");
    transcript.prepare("month demo.logbook 2026-02");
    transcript.terminal.answerSecretly("260302");
    transcript.prepare("log demo.logbook note KB-0101 --text Seen --as v.guest");
    transcript.terminal.answerSecretly("414376");
    transcript.prepare("log demo.logbook note KB-0101 --text Seen --as m.toller");
}
