// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// confirm: what was taken under one's name is one's own.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/confirmation.h"
#include "words/as_word.h"

#include <algorithm>

namespace cli {

namespace {

using station::Result;

class ConfirmCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "confirm",
            "List or confirm the entries that were taken under a name without its PIN.",
            {shared::logbook,
             {"RECORD", "An entry to confirm, as in icu-1/60; none: they are listed.", true, true}},
            {{"--as", "PERSON",
              "Whose entries, by the key in the log or the badge; none: list those of all."},
             {"--all", "", "Confirm all that are listed."},
             {"--not-mine", "",
              "Say instead that it was somebody else. The entries go on standing."},
             shared::pinFd, shared::trustLocks},
            "What must not wait for a PIN is taken under the name given. The person whose name it "
            "is confirms it here, with their PIN: a review of the entry is written. To list them "
            "asks for no PIN; without --as they are listed for everybody, unknown names too.",
            "airmuster-cli confirm ward.logbook --all --as m.toller",
            true};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto names = call.values("RECORD");
        const bool isNamed = call.has(shared::as.name);
        if (names.empty() && !call.has("--all")) {
            return isNamed ? list(call, surroundings) : listAll(call, surroundings);
        }
        if (!isNamed) {
            return tl::unexpected(station::problemOf(surroundings.words, "safeguard.who_confirms"));
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::Confirmation confirmation{signing->writer(call), {}, !call.has("--not-mine")};
        for (const auto& name : names) {
            const auto record = logbook::parseRecordName(name);
            if (!record) {
                return tl::unexpected(station::problemOf(
                    surroundings.words, "call.bad_value",
                    {{"option", "RECORD"}, {"text", name}, {"wanted", "icu-1/60"}}));
            }
            confirmation.records.push_back(*record);
        }
        const auto confirmed = station::confirm(surroundings, logbookOf(call), confirmation);
        if (!confirmed) {
            return tl::unexpected(confirmed.error());
        }
        const words::Gaps gaps{{"count", std::to_string(confirmed->size())}};
        const auto told = surroundings.words.say(
            confirmation.isMine ? "done.confirmed" : "done.disowned", gaps);
        return Answer{ExitStatus::Done,
                      told + "\n" + linesOf(*confirmed),
                      {},
                      true};
    }

private:
    static std::string linesOf(const std::vector<station::Unconfirmed>& entries) {
        std::string lines;
        for (const auto& entry : entries) {
            lines += "  " + entry.line + "\n";
        }
        return lines;
    }

    // Where not all can be read, that none was found does not say that there is none.
    static Answer noneOf(const station::Waiting& waiting, const std::string& none,
                         const words::Words& words) {
        return {ExitStatus::Done,
                (waiting.doubts.empty() ? none : words.say("safeguard.none_read_waits")) + "\n",
                doubtRemarks(waiting.doubts, words)};
    }

    // By the names under which they stand, in the order of the first of each.
    static Result<Answer> listAll(const Call& call, const station::Surroundings& surroundings) {
        const auto& words = surroundings.words;
        const auto waiting = station::waiting(surroundings, logbookOf(call));
        if (!waiting) {
            return tl::unexpected(waiting.error());
        }
        const auto& entries = waiting->entries;
        if (entries.empty()) {
            return noneOf(*waiting, words.say("safeguard.nothing_waits"), words);
        }
        std::vector<std::vector<station::Unconfirmed>> byName;
        for (const auto& entry : entries) {
            const auto same = std::ranges::find_if(byName, [&](const auto& group) {
                return group.front().person == entry.person;
            });
            (same == byName.end() ? byName.emplace_back() : *same).push_back(entry);
        }
        Answer answer{ExitStatus::Done,
                      words.say("safeguard.waiting",
                                {{"count", std::to_string(entries.size())}}) +
                          "\n",
                      doubtRemarks(waiting->doubts, words)};
        for (const auto& group : byName) {
            answer.out += "\n" + nameLine(words, group) + "\n" + linesOf(group);
        }
        answer.out += "\n" + howToGoOn(call, words, entries);
        return answer;
    }

    static std::string nameLine(const words::Words& words,
                                const std::vector<station::Unconfirmed>& entries) {
        const auto& first = entries.front();
        words::Gaps gaps{{"person", first.name}, {"count", std::to_string(entries.size())}};
        if (!first.isKnown) {
            return words.say("safeguard.waiting_unknown", gaps);
        }
        gaps["key"] = first.person;
        return words.say("safeguard.waiting_person", gaps);
    }

    static std::string howToGoOn(const Call& call, const words::Words& words,
                                 const std::vector<station::Unconfirmed>& entries) {
        std::string text;
        if (std::ranges::any_of(entries, &station::Unconfirmed::isKnown)) {
            text += words.say("safeguard.each_confirms",
                              {{"logbook", words::asWord(call.wanted(shared::logbook.name))}}) +
                    "\n";
        }
        if (!std::ranges::all_of(entries, &station::Unconfirmed::isKnown)) {
            text += words.say("safeguard.unknown_names") + "\n";
        }
        if (!std::ranges::all_of(entries, &station::Unconfirmed::canBeConfirmed)) {
            text += words.say("done.unconfirmed_department") + "\n";
        }
        return text;
    }

    static Result<Answer> list(const Call& call, const station::Surroundings& surroundings) {
        const auto& words = surroundings.words;
        const auto& who = call.wanted(shared::as.name);
        auto waiting = station::waiting(surroundings, logbookOf(call), who);
        if (!waiting) {
            return tl::unexpected(waiting.error());
        }
        auto& entries = waiting->entries;
        // What they have answered already is not asked of them again.
        std::erase_if(entries, &station::Unconfirmed::isDisowned);
        if (entries.empty()) {
            return noneOf(*waiting, words.say("done.nothing_unconfirmed", {{"person", who}}),
                          words);
        }
        Answer answer{ExitStatus::Done,
                      words.say("done.unconfirmed", {{"person", entries.front().name},
                                                     {"count", std::to_string(entries.size())}}) +
                          "\n" + linesOf(entries),
                      doubtRemarks(waiting->doubts, words)};
        if (!std::ranges::all_of(entries, &station::Unconfirmed::canBeConfirmed)) {
            answer.out += words.say("done.unconfirmed_department") + "\n";
        }
        if (std::ranges::any_of(entries, &station::Unconfirmed::canBeConfirmed)) {
            answer.out += words.say("done.how_to_confirm",
                                    {{"logbook", words::asWord(call.wanted(shared::logbook.name))},
                                     {"key", who}}) +
                          "\n";
        }
        return answer;
    }
};

}  // namespace

std::unique_ptr<const Command> makeConfirmCommand() {
    return std::make_unique<ConfirmCommand>();
}

}  // namespace cli
