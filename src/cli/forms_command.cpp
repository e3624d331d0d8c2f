// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// forms: paper for when no computer is to be had.
#include "cli/answer_options.h"
#include "cli/commands.h"

#include "station/file_kind.h"
#include "station/upkeep.h"

namespace cli {

namespace {

constexpr WholeNumber formsWanted{"--count", static_cast<int>(station::mostForms), "muster.count",
                                  10};

class FormsCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "forms",
            "Print the board and blank numbered forms, to be kept for a time without a computer.",
            {shared::logbook},
            {{"--count", "N", "How many forms, 1 to 500; 10 if it is not said."},
             {"--to", "FILE", "Write them to a new file instead, a form feed between the pages."},
             shared::trustLocks},
            "Print them ahead of need and again when the policy edition changes. What was written "
            "on one is entered later with `log`: --at when it was done, --done-by who did it, "
            "--form its number. No number is given twice.",
            "airmuster-cli forms ward.logbook --count 20 --to downtime.txt"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        const auto count = wholeNumberOf(call, formsWanted, words);
        if (!count) {
            return tl::unexpected(count.error());
        }
        const auto target = call.value("--to");
        if (target && station::system::isSideName(*target)) {
            return tl::unexpected(
                station::problemOf(words, "file.side_name", {{"path", *target}}));
        }
        if (const auto trouble = target ? troubleWith(*target) : std::nullopt) {
            return tl::unexpected(problemOfNewFile(words, *trouble, *target));
        }
        const auto forms = station::downtimeForms(surroundings, logbookOf(call), *count);
        if (!forms) {
            return tl::unexpected(forms.error());
        }
        if (!target) {
            return Answer{ExitStatus::Done, forms->text};
        }
        const auto written = station::system::writeNewFile(*target, forms->text);
        if (!written) {
            return tl::unexpected(problemOfNewFile(words, written.error(), *target));
        }
        return Answer{ExitStatus::Done,
                      words.say("done.forms", {{"path", *target},
                                               {"first", forms->first},
                                               {"last", forms->last}}) +
                          "\n",
                      {},
                      true};
    }

private:
    // What can be seen before numbers are taken, which are never taken twice.
    static std::optional<station::system::FileTrouble> troubleWith(
        const std::filesystem::path& target) {
        using station::system::FileTrouble;
        if (station::system::exists(target)) {
            return FileTrouble::Exists;
        }
        const auto folder = target.parent_path();
        return folder.empty() || station::system::exists(folder)
                   ? std::nullopt
                   : std::optional(FileTrouble::NotFound);
    }
};

}  // namespace

std::unique_ptr<const Command> makeFormsCommand() {
    return std::make_unique<FormsCommand>();
}

}  // namespace cli
