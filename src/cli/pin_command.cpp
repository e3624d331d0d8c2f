// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// pin set, pin code, pin recover, badge: how people sign in at this station.
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/people.h"

namespace cli {

namespace {

using station::Result;

constexpr Argument person{"PERSON", "Whose it is, by the key in the log."};

Answer told(const words::Words& words, std::string_view key, const std::string& name) {
    return {ExitStatus::Done, words.say(key, {{"person", name}}) + "\n", {}, true};
}

class PinSetCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "pin set",
            "Give a person a PIN at this station, or change one's own.",
            {shared::logbook, person},
            {shared::as, shared::pinFd, shared::trustLocks},
            "A PIN has 6 digits or more, not all the same and not in sequence. Everybody changes "
            "their own; a manager, who may enter persons, sets anybody's, which also unlocks it. "
            "From a file descriptor the first line is the PIN of who sets it, the second the new "
            "one. PINs belong to this logbook file and are in no record, export or backup.",
            "airmuster-cli pin set ward.logbook m.toller --as r.halvorsen"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        return station::setPin(surroundings, logbookOf(call),
                               {signing->writer(call), call.wanted("PERSON"), signing->newPin()})
            .map([&](const std::string& name) {
                return told(surroundings.words, "done.pin_set", name);
            });
    }
};

class PinCodeCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "pin code",
            "Get a new recovery code; the one before it is worth nothing any more.",
            {shared::logbook},
            {shared::as, shared::pinFd, shared::trustLocks},
            "For a manager, who may enter persons, when the code is lost or somebody else has seen "
            "it. It is printed once: write it down and keep it locked away.",
            "airmuster-cli pin code ward.logbook --as r.halvorsen"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto code =
            station::renewCode(surroundings, logbookOf(call), signing->writer(call));
        if (!code) {
            return tl::unexpected(code.error());
        }
        const auto& words = surroundings.words;
        return Answer{ExitStatus::Done,
                      words.say("done.code_renewed") + "\n" +
                          words.say("done.code", {{"code", std::string(code->text())}}) + "\n",
                      {},
                      true};
    }
};

class PinRecoverCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "pin recover",
            "Give a manager a new PIN by the recovery code, when no manager can sign in.",
            {shared::logbook, person},
            {shared::pinFd, shared::trustLocks},
            "The code was printed when the first manager was entered here. It works once, and "
            "another is printed. From a file descriptor the first line is the code, the second the "
            "new PIN.",
            "airmuster-cli pin recover ward.logbook r.halvorsen"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto recovered =
            station::recover(surroundings, logbookOf(call),
                             {call.wanted("PERSON"), signing->code(), signing->newPin()});
        if (!recovered) {
            return tl::unexpected(recovered.error());
        }
        auto answer = told(surroundings.words, "done.recovered", recovered->name);
        answer.out += surroundings.words.say(
                          "done.code", {{"code", std::string(recovered->code.text())}}) +
                      "\n";
        return answer;
    }
};

class BadgeCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "badge",
            "Let what a scanner reads from a badge stand for a person at this station.",
            {shared::logbook, person,
             {"BADGE", "What the scanner reads; none takes the badge away.", true}},
            {shared::as, shared::pinFd, shared::trustLocks},
            "A badge says who somebody is, never that it is they: the PIN is asked for all the "
            "same. Only a manager, who may enter persons, sets it.",
            "airmuster-cli badge ward.logbook m.toller 0042717 --as r.halvorsen"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto badge = call.value("BADGE");
        return station::setBadge(surroundings, logbookOf(call),
                                 {signing->writer(call), call.wanted("PERSON"), badge})
            .map([&](const std::string& name) {
                return told(surroundings.words,
                            badge ? "done.badge_set" : "done.badge_taken_away", name);
            });
    }
};

}  // namespace

std::unique_ptr<const Command> makePinSetCommand() {
    return std::make_unique<PinSetCommand>();
}

std::unique_ptr<const Command> makePinCodeCommand() {
    return std::make_unique<PinCodeCommand>();
}

std::unique_ptr<const Command> makePinRecoverCommand() {
    return std::make_unique<PinRecoverCommand>();
}

std::unique_ptr<const Command> makeBadgeCommand() {
    return std::make_unique<BadgeCommand>();
}

}  // namespace cli
