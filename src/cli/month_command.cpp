// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// month: the report of a month.
#include "cli/answer_options.h"
#include "cli/commands.h"

namespace cli {

namespace {

class MonthCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "month",
            "Report a month: how many starts of use were compliant, every exception, and what the "
            "log says about itself.",
            {shared::logbook, {"MONTH", "The month, as in 2026-03."}},
            {shared::at, shared::knownAt, shared::json, shared::trustLocks},
            "Without --at the period ends with the month, or after the last entry if that is "
            "earlier. With the same --at and --known-at the same report comes again.",
            "airmuster-cli month ward.logbook 2026-03"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto asked = askedOf(call, surroundings);
        if (!asked) {
            return tl::unexpected(asked.error());
        }
        const auto& text = call.wanted("MONTH");
        const auto month = station::parseMonth(text);
        if (!month) {
            return tl::unexpected(
                station::problemOf(surroundings.words, "trouble.bad_month", {{"text", text}}));
        }
        const auto file = logbookOf(call);
        const auto log = station::readWholeLog(surroundings, file);
        if (!log) {
            return tl::unexpected(log.error());
        }
        const auto report = station::month(
            surroundings, *log, file,
            {*month, asked->at, asked->knownAt.value_or(rules::unlimited)});
        if (!report) {
            return tl::unexpected(report.error());
        }
        std::vector<std::string> remarks;
        if (report->leftOut > 0) {
            remarks.push_back(surroundings.words.say(
                "month.left_out", {{"count", std::to_string(report->leftOut)}}));
        }
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(*report))
                                         : toText(*report, surroundings.words),
                      std::move(remarks)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeMonthCommand() {
    return std::make_unique<MonthCommand>();
}

}  // namespace cli
