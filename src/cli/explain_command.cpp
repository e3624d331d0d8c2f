// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// explain: one unit, and why it is not ready.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

class ExplainCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "explain",
            "Show one unit: what stands against it, on which entries that rests, and its set-up.",
            {shared::logbook, shared::device},
            {shared::at, shared::knownAt, shared::group, shared::json, shared::trustLocks},
            "Without --at it is asked for now, by the clock of this computer. Asked for the past "
            "it shows what could be known then beside what is known now, and what was entered or "
            "struck through since.",
            "airmuster-cli explain ward.logbook KB-0142"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto standing = station::wholeStanding(surroundings, logbookOf(call), *asked);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        const auto& device = call.wanted(shared::device.name);
        if (station::asksThePast(surroundings, *asked)) {
            return lookBack(call, surroundings, *standing);
        }
        const auto explained = station::explain(surroundings, *standing, device);
        if (!explained) {
            return tl::unexpected(explained.error());
        }
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(*explained))
                                         : toText(*explained, surroundings.words),
                      laterRemarks(*standing, surroundings.words)};
    }

private:
    static station::Result<Answer> lookBack(const Call& call,
                                            const station::Surroundings& surroundings,
                                            const station::WholeStanding& standing) {
        const auto& device = call.wanted(shared::device.name);
        const auto back = station::lookBack(surroundings, standing, device);
        if (!back) {
            return tl::unexpected(back.error());
        }
        Answer answer{ExitStatus::Done, "", laterRemarks(standing, surroundings.words)};
        if (!call.has("--json")) {
            answer.out = toText(*back, surroundings.words);
            return answer;
        }
        // By the knowledge asked for the unit may not have been enrolled.
        const auto explained = station::explain(surroundings, standing, device);
        logbook::json::Value json =
            explained ? toJson(*explained) : logbook::json::Object{{"device", device}};
        json.object()->emplace_back("look_back", toJson(*back));
        answer.out = jsonText(json);
        return answer;
    }
};

}  // namespace

std::unique_ptr<const Command> makeExplainCommand() {
    return std::make_unique<ExplainCommand>();
}

}  // namespace cli
