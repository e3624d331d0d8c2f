// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Corrections on the command line; see corrections.h.
#include "cli/corrections.h"

#include "cli/answer_options.h"
#include "cli/signing.h"

#include <string>
#include <vector>

namespace cli {

station::Result<station::Correction> correctionOf(const Call& call,
                                                  const station::Surroundings& surroundings) {
    const auto& text = call.wanted("RECORD");
    const auto target = logbook::parseRecordName(text);
    if (!target) {
        return tl::unexpected(
            station::problemOf(surroundings.words, "call.bad_value",
                               {{"option", "RECORD"}, {"text", text}, {"wanted", "icu-1/60"}}));
    }
    const auto signing = Signing::of(call, surroundings);
    if (!signing) {
        return tl::unexpected(signing.error());
    }
    return station::Correction{signing->writer(call), *target, call.has(shared::withBatch.name),
                               call.wanted("--reason"), call.has(shared::namesNoPatient.name)};
}

Answer answerOf(const station::Corrected& corrected, const words::Words& words) {
    Answer answer{ExitStatus::Done,
                  words.say("correction.struck",
                            {{"records", namesOf(words, corrected.struck)}}) +
                      "\n",
                  corrected.warnings, true};
    if (!corrected.reentered.empty()) {
        answer.out += words.say("correction.reentered",
                                {{"device", corrected.device},
                                 {"records", namesOf(words, corrected.reentered)}}) +
                      "\n";
    }
    for (const auto& sentence : corrected.meaning) {
        answer.out += sentence + "\n";
    }
    return answer;
}

}  // namespace cli
