// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// month: the report of a month.
#include "cli/answer_options.h"
#include "cli/commands.h"

#include <algorithm>

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
        auto remarks = asked->at ? std::vector<std::string>{}
                                 : aheadRemarks(*report, log->log, surroundings);
        if (report->leftOut > 0) {
            remarks.push_back(surroundings.words.say(
                "month.left_out", {{"count", std::to_string(report->leftOut)}}));
        }
        return Answer{ExitStatus::Done,
                      call.has("--json") ? jsonText(toJson(*report))
                                         : toText(*report, surroundings.words),
                      std::move(remarks)};
    }

private:
    // By default it ends after the last entry known, and the clock is not asked: one entry that is
    // dated ahead draws it out over hours that have not been.
    static std::vector<std::string> aheadRemarks(const report::Month& report,
                                                 const rules::Log& log,
                                                 const station::Surroundings& surroundings) {
        const auto now = surroundings.clock.now();
        const auto count = std::ranges::count_if(log.records(), [&](const auto& record) {
            return record.entered > now && record.entered <= report.knownAt;
        });
        if (report.answer.to <= now || count == 0) {
            return {};
        }
        return {surroundings.words.say("done.month_ahead", {{"to", toText(report.answer.to)},
                                                            {"count", std::to_string(count)},
                                                            {"time", toText(now)}})};
    }
};

}  // namespace

std::unique_ptr<const Command> makeMonthCommand() {
    return std::make_unique<MonthCommand>();
}

}  // namespace cli
