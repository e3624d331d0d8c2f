// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// demo: a logbook to try the program on.
#include "cli/commands.h"
#include "station/sample.h"

#include <charconv>

namespace cli {

namespace {

class DemoCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "demo",
            "Make a logbook of an invented hospital to try the program on.",
            {shared::logbook},
            {{"--seed", "NUMBER", "Which of the many invented courses; 1 unless given."},
             {"--end", "TIME", "When the demo ends, in UTC as in 2026-03-02T14:00:00Z; now unless "
                               "given."},
             {"--fresh", "", "Replace the file if it is such a demo."},
             shared::trustLocks},
            "Three months of Kestrel Bay Hospital, which does not exist. With the same seed and "
            "end the same entries come again. Whoever tries it writes as station demo-desk.",
            "airmuster-cli demo demo.logbook"};
        return data;
    }

    station::Result<Answer> run(const Call& call,
                                const station::Surroundings& surroundings) const override {
        const auto& words = surroundings.words;
        station::SampleOptions options;
        const auto end = utcInstantOf(call, "--end", words);
        if (!end) {
            return tl::unexpected(end.error());
        }
        options.end = *end;
        options.fresh = call.has("--fresh");
        if (const auto text = call.value("--seed")) {
            const auto* last = text->data() + text->size();
            const auto read = std::from_chars(text->data(), last, options.seed);
            if (read.ec != std::errc{} || read.ptr != last) {
                return tl::unexpected(station::problemOf(
                    words, "call.bad_value",
                    {{"option", "--seed"}, {"text", *text}, {"wanted", "26"}}));
            }
        }
        const auto file = logbookOf(call);
        const auto made = station::makeSample(surroundings, file, options);
        if (!made) {
            return tl::unexpected(made.error());
        }
        return Answer{ExitStatus::Done,
                      words.say("done.demo", {{"path", file.path.string()},
                                              {"count", std::to_string(made->records)},
                                              {"time", toText(made->end)}}) +
                          "\n" + words.say("done.example") + "\n",
                      {},
                      true};
    }
};

}  // namespace

std::unique_ptr<const Command> makeDemoCommand() {
    return std::make_unique<DemoCommand>();
}

}  // namespace cli
