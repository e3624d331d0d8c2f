// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log is folded with the record in its place, which is not the end for a late one.
#include "station/entry_meaning.h"

#include "words/entry_words.h"

#include <utility>

namespace station {

std::vector<std::string> entryMeaning(const Surroundings& surroundings, const rules::Log& log,
                                      const logbook::Record& record) {
    auto records = log.records();
    records.push_back(record);
    const rules::Log now(std::move(records), surroundings.zones);
    if (!now.firstEdition()) {
        return {};
    }
    const auto state = now.stateAt(record.entered, rules::unlimited);
    words::Context context{surroundings.words, state, state.device(record.device), record.entered,
                           {}, {}};
    context.lookup = [&now](const logbook::RecordName& name) -> const logbook::Record* {
        const auto index = now.find(name);
        return index ? &now.records()[*index] : nullptr;
    };
    std::vector<std::string> told;
    if (record.at != record.entered) {
        told.push_back(surroundings.words.say("entry.backdated",
                                              {{"time", context.times().full(record.at)}}));
    }
    if (context.device != nullptr) {
        const auto found = rules::assess(state, *context.device, {record.entered});
        context.group = found.group;
        told.push_back(words::standingSentence(context, found));
    }
    return told;
}

}  // namespace station
