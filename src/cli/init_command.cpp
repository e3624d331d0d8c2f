// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// init: the logbook's own station, and at its first start the rules and the manager.
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/people.h"
#include "words/as_word.h"

namespace cli {

namespace {

using station::Result;

// What is asked on the terminal where the call does not say it; nothing where nobody is there.
class Questions {
public:
    explicit Questions(const station::Surroundings& surroundings)
        : m_terminal(surroundings.terminal), m_words(surroundings.words) {}

    std::optional<std::string> orAsk(std::optional<std::string> given, std::string_view question,
                                     const words::Gaps& gaps = {}) const {
        if (given || m_terminal == nullptr || !m_terminal->isThere()) {
            return given;
        }
        auto typed = m_terminal->ask(m_words.say(question, gaps));
        return typed && !typed->empty() ? typed : std::nullopt;
    }

private:
    station::Terminal* m_terminal;
    const words::Words& m_words;
};

class InitCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "init",
            "Make a logbook, name the station that writes in one, enter its first manager.",
            {shared::logbook},
            {{"--station", "NAME",
              "The name of this station: small letters, figures and hyphens, at most 32.", true},
             {"--rulebook", "FILE", "The rulebook to bring into force, where there is none yet."},
             {"--manager", "PERSON", "Who is the first to sign in here, by the key in the log."},
             {"--name", "NAME", "The manager's name, where the log knows nobody yet."},
             {"--approved-by", "NAME", "Who approved the rulebook."},
             {"--department", "NAME", "The department it is for."},
             {"--facility", "NAME", "The hospital it is for."},
             shared::pinFd, shared::trustLocks},
            "Records are named after the station that wrote them, for ever. Give each computer a "
            "name of its own; a logbook that was copied or restored from a backup goes on under a "
            "new one. It can be said once, also of a logbook made by an import. The manager gets a "
            "PIN here and gives the others theirs; as the first person of a log they hold every "
            "role that the rulebook asks for, else they must be one who may enter persons. A "
            "recovery code is printed once, for when no manager can sign in. On a terminal what is "
            "not given is asked for, once nobody has a PIN.",
            "airmuster-cli init ward.logbook --station icu-1 --rulebook policy.toml "
            "--manager r.halvorsen --name \"Runa Halvorsen\""};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto file = logbookOf(call);
        bool isMade = false;  // by this call: another program may have been faster
        if (!station::system::exists(file.path)) {
            const auto made = found(call, surroundings);
            if (!made) {
                return tl::unexpected(made.error());
            }
            isMade = *made;
        }
        auto answer = start(call, surroundings, *signing);
        if (!answer && isMade) {
            station::removeIfEmpty(file);
        }
        return answer;
    }

private:
    static Result<bool> found(const Call& call, const station::Surroundings& surroundings) {
        return station::foundStation(surroundings, logbookOf(call), call.wanted("--station"));
    }

    static Result<Answer> start(const Call& call, const station::Surroundings& surroundings,
                                const Signing& signing) {
        const auto& words = surroundings.words;
        const auto file = logbookOf(call);
        const auto staffing = station::staffingOf(surroundings, file);
        if (!staffing) {
            return tl::unexpected(staffing.error());
        }
        const words::Gaps gaps{{"station", call.wanted("--station")},
                               {"logbook", words::asWord(file.path.string())}};
        Answer answer{ExitStatus::Done, words.say("done.founded", gaps) + "\n", {}, true};
        const bool asked = call.has("--manager") || call.has("--rulebook");
        auto first = asked || staffing->unopened ? startOf(call, surroundings, *staffing)
                                                 : station::FirstStart{};
        if (first.manager.empty()) {
            if (staffing->unopened) {
                answer.out += words.say("done.first_steps", gaps) + "\n";
            }
            return found(call, surroundings).map([&](bool) { return std::move(answer); });
        }
        first.askPin = signing.newPin();
        const auto begun = station::begin(surroundings, file, first);
        if (!begun) {
            return tl::unexpected(begun.error());
        }
        tell(words, file, *begun, answer);
        return answer;
    }

    static station::FirstStart startOf(const Call& call, const station::Surroundings& surroundings,
                                       const station::Staffing& staffing) {
        const Questions questions(surroundings);
        auto rulebook = call.value("--rulebook");
        if (!staffing.hasEdition) {
            rulebook = questions.orAsk(std::move(rulebook), "question.rulebook");
        }
        station::FirstStart start{call.wanted("--station"), "", call.value("--name")};
        if (!rulebook && !staffing.hasEdition && !call.has("--manager")) {
            return start;
        }
        start.manager = questions.orAsk(call.value("--manager"), "question.manager").value_or("");
        if (start.manager.empty()) {
            return start;
        }
        if (!staffing.hasPersons) {
            start.name = questions.orAsk(start.name, "question.name", {{"person", start.manager}});
        }
        if (rulebook) {
            start.adoption = station::Adoption{start.manager, *rulebook,
                                               call.value("--approved-by"),
                                               call.value("--department"),
                                               call.value("--facility")};
        }
        return start;
    }

    static void tell(const words::Words& words, const station::LogbookFile& file,
                     const station::Begun& begun, Answer& answer) {
        if (begun.edition) {
            answer.out += words.say("done.adopted", {{"edition", *begun.edition},
                                                     {"record", toText(begun.records.front())}}) +
                          "\n";
        }
        answer.out += words.say("done.begun", {{"person", begun.name}}) + "\n" +
                      words.say("done.code", {{"code", std::string(begun.code.text())}}) + "\n" +
                      words.say("done.next_person",
                                {{"logbook", words::asWord(file.path.string())}}) +
                      "\n";
        answer.remarks = begun.warnings;
    }
};

}  // namespace

std::unique_ptr<const Command> makeInitCommand() {
    return std::make_unique<InitCommand>();
}

}  // namespace cli
