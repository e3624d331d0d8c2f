// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// export: entries for other stations.
#include "cli/answer_options.h"
#include "cli/commands.h"

#include "station/file_kind.h"
#include "station/import.h"
#include "station/upkeep.h"

namespace cli {

namespace {

std::vector<std::string> remarksOn(const words::Words& words,
                                   const station::ExportAnswer& exported) {
    std::vector<std::string> remarks;
    if (exported.isDamaged) {
        remarks.push_back(
            words.say(exported.isRefused ? "verify.read_round_disk" : "verify.read_round"));
    }
    if (exported.breaks.empty()) {
        return remarks;
    }
    remarks.push_back(words.say("export.broken"));
    store::VerifyReport report;
    report.breaks = exported.breaks;
    for (const auto& finding : station::findingsOf(words, report)) {
        remarks.push_back("  " + finding);
    }
    return remarks;
}

class ExportCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "export",
            "Print the entries as a record file, one a line, for other stations.",
            {shared::logbook},
            {{"--station", "NAME", "Only entries of that station.", false, true},
             {"--since", "TIME",
              "Of each station only from its first entry written down at that time or later."},
             {"--without-names", "",
              "For readers outside: persons as person-1, person-2, without free texts."},
             {"--coarse-places", "",
              "For readers outside: places up to their first number, without free texts."},
             {"--to", "FILE", "Write them to a new file instead."},
             shared::trustLocks},
            "With --without-names or --coarse-places what comes out is for reading and counting: "
            "no station takes it in. Each entry is held against its seal: one that does not fit is "
            "named and left out, with what its station wrote after it, and the exit status is 1.",
            "airmuster-cli export ward.logbook --station icu-1 --to icu-1.jsonl"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto since = instantOf(call, "--since", surroundings);
        if (!since) {
            return tl::unexpected(since.error());
        }
        const auto target = call.value("--to");
        if (target && station::system::isSideName(*target)) {
            return tl::unexpected(
                station::problemOf(words, "file.side_name", {{"path", *target}}));
        }
        auto exported = station::exportRecords(surroundings, logbookOf(call),
                                               {call.values("--station"), *since,
                                                {call.has("--without-names"),
                                                 call.has("--coarse-places")}});
        if (!exported) {
            return tl::unexpected(exported.error());
        }
        const auto remarks = remarksOn(words, *exported);
        const auto status = remarks.empty() ? ExitStatus::Done : ExitStatus::AnswerIsNo;
        if (!target) {
            return Answer{status, std::move(exported->bytes), remarks};
        }
        const auto written = station::system::writeNewFile(*target, exported->bytes);
        if (!written) {
            return tl::unexpected(problemOfNewFile(words, written.error(), *target));
        }
        auto said = words.say("done.exported", {{"count", std::to_string(exported->count)},
                                                {"path", *target}}) +
                    "\n";
        if (!exported->last.empty()) {
            said += words.say("done.up_to", {{"records", namesOf(words, exported->last)}}) + "\n";
        }
        return Answer{status, said, remarks, true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeExportCommand() {
    return std::make_unique<ExportCommand>();
}

}  // namespace cli
