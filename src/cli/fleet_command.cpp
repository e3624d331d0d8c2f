// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// fleet: many units enrolled from a list.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/fleet_answer.h"
#include "cli/signing.h"
#include "words/as_word.h"

namespace cli {

namespace {

using station::Result;

class FleetCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "fleet",
            "Show which units of a list can be enrolled and why others cannot, or enrol them.",
            {shared::logbook, {"LIST", "The list, as comma-separated values in UTF-8."}},
            {{"--take", "", "Enrol the units that can be; without it nothing is written."},
             {"--as", "PERSON", "The person who enrols them, by the key in the log or the badge."},
             shared::pinFd, shared::namesNoPatient, shared::json, shared::trustLocks},
            "The first line names the columns, in any order: serial, model, groups, features, "
            "commissioned, label, asset, maker, udi, location, owner, return_by. The first three "
            "and commissioned are needed. Several groups or features stand in one cell with "
            "semicolons between, days as 2026-03-02. All units that can be enrolled are, in one "
            "batch, or none. It ends with status 1 if nothing was written and a line is refused.",
            "airmuster-cli fleet ward.logbook fleet.csv --take --as b.wren",
            true};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto preview =
            station::previewFleet(surroundings, logbookOf(call),
                                  {call.wanted("LIST"), call.has(shared::namesNoPatient.name)});
        if (!preview) {
            return tl::unexpected(preview.error());
        }
        return call.has("--take") && !preview->good.empty()
                   ? take(call, surroundings, *preview)
                   : show(call, surroundings.words, *preview);
    }

private:
    static Answer show(const Call& call, const words::Words& words,
                       const station::FleetPreview& preview) {
        const auto status = preview.refused.empty() ? ExitStatus::Done : ExitStatus::AnswerIsNo;
        if (call.has(shared::json.name)) {
            return {status, jsonText(toJson(preview, std::nullopt))};
        }
        const auto& logbook = call.wanted(shared::logbook.name);
        auto text = toText(preview, logbook, "fleet.good", words) + "\n" +
                    words.say("fleet.nothing_saved") + "\n";
        if (!preview.good.empty()) {
            text += words.say("fleet.how_to_take",
                              {{"logbook", words::asWord(logbook)},
                               {"path", words::asWord(preview.list.string())}}) +
                    "\n";
        }
        return {status, std::move(text)};
    }

    static Result<Answer> take(const Call& call, const station::Surroundings& surroundings,
                               const station::FleetPreview& preview) {
        const auto& words = surroundings.words;
        if (!call.has(shared::as.name)) {
            return tl::unexpected(station::problemOf(
                words, "call.option_missing",
                {{"option", std::string(shared::as.name)},
                 {"value", std::string(shared::as.value)},
                 {"command", "fleet"}}));
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        const auto taken = station::takeFleet(surroundings, logbookOf(call),
                                              {signing->writer(call), preview});
        if (!taken) {
            return tl::unexpected(taken.error());
        }
        if (call.has(shared::json.name)) {
            return Answer{ExitStatus::Done, jsonText(toJson(preview, *taken)), taken->warnings,
                          true};
        }
        const auto& records = taken->records;
        return Answer{ExitStatus::Done,
                      toText(preview, call.wanted(shared::logbook.name), "fleet.enrolled", words) +
                          "\n" +
                          words.say(records.size() == 1 ? "fleet.taken_one" : "fleet.taken",
                                    {{"first", toText(records.front())},
                                     {"last", toText(records.back())}}) +
                          "\n" + words.say("fleet.not_ready") + "\n",
                      taken->warnings, true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeFleetCommand() {
    return std::make_unique<FleetCommand>();
}

}  // namespace cli
