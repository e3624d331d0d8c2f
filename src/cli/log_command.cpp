// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// log: one entry of this station.
#include "cli/answer_options.h"
#include "cli/body_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "logbook/tidy.h"
#include "station/entry.h"
#include "station/notice_reach.h"

#include <utility>

namespace cli {

namespace {

Description makeDescription() {
    Description data{
        "log",
        "Record one thing that happened: a check, a part fitted, a use that began.",
        {shared::logbook,
         {"KIND", "What happened: the kind of entry."},
         {"DEVICE", "The serial of the unit; none for what is about the whole department.", true}},
        {shared::as, shared::pinFd,
         {"--at", "TIME",
          "When it happened, if not now: 14:20, 2026-03-02 14:20, or in UTC as in "
          "2026-03-02T14:20:00Z."},
         {"--done-by", "PERSON", "Who did it, if not who writes it."},
         {"--witness", "PERSON",
          "A second person who verified it; their PIN is asked for after the writer's."},
         {"--form", "TEXT", "Number of the paper form it was copied from."},
         {"--batch", "TEXT", "Entries of one session share it."},
         {"--moved-from", "RECORD", "The entry on the wrong unit that this takes the place of."},
         {"--dry", "", "Of a notice: tell what it would concern now, and record nothing."},
         {"--json", "BODY", "The body of the entry as a JSON object; options go over it."},
         shared::namesNoPatient, shared::asMeasured, shared::trustLocks},
        "",
        "airmuster-cli log ward.logbook check KB-0142 --check leak --outcome pass --measure "
        "\"leak=42 mL/min\" --as mt"};
    static const std::string details =
        "Kinds: " + loggableKinds() +
        ". An entry whose position, check or service the policy edition does not name, or that "
        "this person may not write, is refused. The PIN is asked for, but never for what cannot "
        "wait: use_start, use_pause, use_resume, use_end, fault, withdraw, soil, alarm, and fit, "
        "remove and move on a unit in use. These are taken under the name, unless --pin-fd signs "
        "for them, and confirmed later with: airmuster-cli confirm.";
    data.details = details;
    data.writesEntries = true;
    data.options.insert(data.options.end(), bodyOptions().begin(), bodyOptions().end());
    return data;
}

class LogCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data = makeDescription();
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        auto at = instantOf(call, "--at", surroundings, station::Tense::Past);
        if (!at) {
            return tl::unexpected(std::move(at.error()));
        }
        const auto kind = logbook::tidyKey(call.wanted("KIND")).value_or(call.wanted("KIND"));
        auto body = bodyOf(call, kind, words);
        if (!body) {
            return tl::unexpected(std::move(body.error()));
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::Entry entry{signing->writer(call), kind, call.value("DEVICE").value_or(""),
                             std::move(*body), *at};
        entry.doneBy = call.value("--done-by");
        if (const auto witness = call.value("--witness")) {
            entry.witness = signing->second(*witness);
        }
        entry.form = call.value("--form");
        entry.batch = call.value("--batch");
        entry.movedFrom = call.value("--moved-from");
        entry.namesNoPatient = call.has(shared::namesNoPatient.name);
        entry.asMeasured = call.has(shared::asMeasured.name);
        if (call.has("--dry")) {
            return look(surroundings, logbookOf(call), entry);
        }
        const auto written = station::writeEntry(surroundings, logbookOf(call), entry);
        if (!written) {
            return tl::unexpected(written.error());
        }
        return answerOf(call, *written, words);
    }

private:
    static station::Result<Answer> look(const station::Surroundings& surroundings,
                                        const station::LogbookFile& file,
                                        const station::Entry& entry) {
        const auto reach = station::noticeOutlook(surroundings, file, entry);
        if (!reach) {
            return tl::unexpected(reach.error());
        }
        std::string text;
        for (const auto& line : reach->told) {
            text += line + "\n";
        }
        return Answer{ExitStatus::Done,
                      text + surroundings.words.say("notice_reach.dry") + "\n", reach->warnings};
    }
};

}  // namespace

std::unique_ptr<const Command> makeLogCommand() {
    return std::make_unique<LogCommand>();
}

}  // namespace cli
