// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// import: the records of other stations.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "station/import.h"

namespace cli {

namespace {

class ImportCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "import",
            "Take in the entries of other stations from record files, all or none.",
            {shared::logbook, {"FILE", "A record file, one entry a line.", false, true}},
            {{"--as", "PERSON",
              "Who brings the files in; noted in this logbook only. Wanted once people have PINs."},
             shared::pinFd,
             {"--managers-change", "",
              "It was looked at that this changes who may enter persons, and is right."},
             shared::trustLocks},
            "Makes the logbook if there is none. Entries that are here already are passed over. "
            "Refused as a whole: a line that is no record, an entry that is here with another "
            "content, a gap in a station's entries, a policy edition with faults, and entries "
            "under this logbook's own station that it has not written. Once people have PINs, the "
            "first persons and policy editions of a station, and what changes who may enter "
            "persons, are taken in only by somebody who may; such a change is asked about.",
            "airmuster-cli import ward.logbook er-2.jsonl",
            true};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        std::vector<std::filesystem::path> paths;
        for (const auto& path : call.values("FILE")) {
            paths.emplace_back(path);
        }
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::Bringer bringer;
        if (call.has(shared::as.name)) {
            bringer.by = signing->writer(call);
        }
        bringer.managersChange = call.has("--managers-change");
        const auto answer = station::importFiles(surroundings, logbookOf(call), paths, bringer);
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        const auto& words = surroundings.words;
        auto said = words.say("done.imported", {{"added", std::to_string(answer->added)},
                                                {"skipped", std::to_string(answer->skipped)}}) +
                    "\n";
        said += answer->last.empty()
                    ? words.say("done.imported_nothing")
                    : words.say("done.up_to", {{"records", namesOf(words, answer->last)}});
        return Answer{ExitStatus::Done, said + "\n", answer->remarks, true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeImportCommand() {
    return std::make_unique<ImportCommand>();
}

}  // namespace cli
