// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the command line prints, to the letter, where people sign in: PINs, badges, codes, and the
// entries that wait for their word.
#include "cli/transcript.h"

#include <catch2/catch.hpp>

using support::prepareSmallWard;
using support::Transcript;

TEST_CASE("Signing in, and what does not wait for it", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    auto& terminal = transcript.terminal;
    transcript.run("log ward.logbook use_start KB-0142 --as rs");
    transcript.run("log ward.logbook fault KB-0142 --code screen --as agency");
    transcript.run("log ward.logbook soil KB-0142 --reason Splash --as rs --pin-fd 3");
    terminal.answerSecretly("000001");
    transcript.runCounted("log ward.logbook soil KB-0142 --reason Splash --as rs --pin-fd 3");
    transcript.run("log ward.logbook withdraw KB-0142 --hold incident --as mt");
    transcript.run("log ward.logbook soil KB-0142 --as mt");
    transcript.run("confirm ward.logbook --as rs");
    transcript.run("confirm ward.logbook");
    transcript.run("confirm ward.logbook --all");
    transcript.runCounted("confirm ward.logbook --all --as rs");
    transcript.at("2026-03-02T14:00:01Z");
    transcript.runCounted("confirm ward.logbook icu-1/7 --as rs");
    transcript.run("confirm ward.logbook icu-1/8 icu-1/9 --as rs");
    transcript.run("confirm ward.logbook --all --as rs");
    transcript.run("confirm ward.logbook --as rs");
    transcript.run("explain ward.logbook KB-0142");
    transcript.run("confirm ward.logbook eight --as rs");
    terminal.leave();
    transcript.run("log ward.logbook note KB-0142 --text Seen --as rs");
    transcript.run("strike ward.logbook icu-1/8 --reason Wrong --as rs");
    transcript.run("person ward.logbook bk --name Bo --as mt");
    transcript.run("adopt ward.logbook policy.toml --as mt");
    transcript.write("er.jsonl", "");
    transcript.run("import ward.logbook er.jsonl");
    transcript.run("import ward.logbook er.jsonl --as mt");
    transcript.run("log ward.logbook use_end KB-0142 --as rs");
    transcript.run("log ward.logbook note KB-0142 --text Seen --as rs --pin-fd 3");
    transcript.run("log ward.logbook note KB-0142 --text Seen --as rs --pin-fd three");
    transcript.check("signing");
}

TEST_CASE("PINs, badges and the way back in", "[golden]") {
    Transcript transcript;
    prepareSmallWard(transcript);
    auto& terminal = transcript.terminal;
    for (const auto* pin : {"12345", "402951a", "777777", "345678"}) {
        terminal.answerSecretly(support::testPin);
        terminal.answerSecretly(pin);
        transcript.run("pin set ward.logbook mt --as mt");
        terminal.answerSecretly(support::testPin);
        terminal.answerSecretly(pin);
        transcript.run("pin set ward.logbook mt --as mt --pin-fd 3");
    }
    transcript.run("pin set ward.logbook mt --as rs");
    transcript.run("pin set ward.logbook nobody --as mt");
    transcript.run("person ward.logbook bk --name \"Bo Kestrel\" --as mt");
    transcript.run("log ward.logbook note KB-0142 --text Seen --as bk");
    transcript.run("badge ward.logbook rs 0042717 --as mt");
    transcript.run("log ward.logbook note KB-0142 --text Seen --as 0042717");
    transcript.run("badge ward.logbook mt 0042717 --as mt");
    transcript.run("badge ward.logbook rs --as mt");
    transcript.run("log ward.logbook note KB-0142 --text Seen --as 0042717");
    transcript.run("pin code ward.logbook --as rs");
    transcript.run("pin code ward.logbook --as mt");
    for (int minute = 10; minute < 20; ++minute) {
        transcript.at("2026-03-02T14:" + std::to_string(minute) + ":00Z");
        terminal.answerSecretly("000001");
        transcript.runCounted("log ward.logbook note KB-0142 --text Seen --as mt");
    }
    transcript.run("log ward.logbook note KB-0142 --text Seen --as mt");
    transcript.run("people ward.logbook");
    terminal.answerSecretly("AAAA-AAAA-AAAA-AAAA-AAAA");
    transcript.runCounted("pin recover ward.logbook mt");
    transcript.runCounted("pin recover ward.logbook mt");
    transcript.run("pin recover ward.logbook rs");
    terminal.leave();
    transcript.run("pin recover ward.logbook mt");
    transcript.run("pin set ward.logbook rs --as rs");
    transcript.check("pins");
}
