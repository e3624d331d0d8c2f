// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// board: every unit at one time.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "report/board_csv.h"
#include "station/standing_source.h"
#include "station/unsaid_places.h"

namespace cli {

namespace {

constexpr Option coldOption{
    "--cold", "", "Read all entries, whatever states of the units are kept; no answer changes."};

constexpr Option csvOption{
    "--csv", "", "Print a line for each unit as comma-separated values, for a spreadsheet."};

// As people read it unless JSON or a table is asked for.
std::string textOf(const Call& call, const report::PlacedBoard& placed,
                   const words::Words& words) {
    if (call.has(shared::json.name)) return jsonText(toJson(placed.board));
    return call.has(csvOption.name) ? toCsv(placed, words) : toText(placed, words);
}

station::Result<station::Standing> standingFor(const Call& call,
                                               const station::Surroundings& surroundings) {
    if (!call.has(coldOption.name)) {
        return standingOf(call, surroundings);
    }
    const auto asked = askedOf(call, surroundings);
    if (!asked) {
        return tl::unexpected(asked.error());
    }
    return station::coldStanding(surroundings, logbookOf(call), *asked);
}

class BoardCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "board",
            "Show which units are ready for which patient group, and what the others lack.",
            {shared::logbook},
            {shared::at, shared::knownAt, shared::group, coldOption, shared::json, csvOption,
             shared::trustLocks},
            "Without --at it is asked for now, by the clock of this computer. With --csv what a "
            "spreadsheet would take for a formula gets an apostrophe before it.",
            "airmuster-cli board ward.logbook --group adult"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        if (call.has(shared::json.name) && call.has(csvOption.name)) {
            return tl::unexpected(station::problemOf(surroundings.words, "call.one_form"));
        }
        auto standing = standingFor(call, surroundings);
        if (!standing) {
            return tl::unexpected(standing.error());
        }
        auto remarks = laterRemarks(*standing, surroundings.words);  // the board takes the state
        report::PlacesUnsaid unsaid;
        if (!call.has(shared::json.name))
            unsaid = station::placesUnsaid(surroundings, logbookOf(call), *standing).places;
        const auto board = station::board(surroundings, *std::move(standing));
        return Answer{ExitStatus::Done, textOf(call, {board, unsaid}, surroundings.words),
                      std::move(remarks)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeBoardCommand() {
    return std::make_unique<BoardCommand>();
}

}  // namespace cli
