// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is later than the end of a use; see later_in_use.h.
#include "station/later_in_use.h"

#include "words/record_words.h"

namespace station {

namespace {

using logbook::Kind;
using logbook::Record;

constexpr std::size_t mostTold = 4;

// A start for the same patient changes nothing while the unit is in use.
bool isOfUse(const Record& record) {
    switch (record.kind()) {
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Reprocess:
        case Kind::Check:
        case Kind::UsePause:
        case Kind::UseResume: return true;
        default: return false;
    }
}

bool endsUse(const Record& record) {
    return record.kind() == Kind::UseEnd || record.kind() == Kind::Retire;
}

bool beginsAnother(const Record& record) {
    const auto* start = std::get_if<logbook::body::UseStart>(&record.body);
    return start != nullptr && !start->samePatient;
}

// Those of the use in which the unit was at that time, after it; in reading order.
std::vector<const Record*> laterThan(const rules::Log& log, const std::string& device,
                                     logbook::Instant at) {
    std::vector<const Record*> later;
    const auto number = log.deviceNumber(device);
    bool isInUse = false;
    for (std::size_t index = 0; number && index < log.records().size(); ++index) {
        const auto& record = log.records()[index];
        if (log.deviceNumber(index) != *number || !log.takesPart(index, rules::unlimited)) {
            continue;
        }
        const bool isLater = record.at > at;
        if (isLater && (!isInUse || endsUse(record) || beginsAnother(record))) {
            break;
        }
        if (isLater && isOfUse(record)) {
            later.push_back(&record);
        } else if (record.kind() == Kind::UseStart) {
            isInUse = true;
        } else if (endsUse(record)) {
            isInUse = false;
        }
    }
    return later;
}

}  // namespace

namespace {

std::vector<std::string> questionOf(const words::Context& context, logbook::Instant end,
                                    const std::vector<const Record*>& later) {
    const auto times = context.times();
    const auto time = times.time(end);
    std::vector<std::string> lines{context.words.say("question.went_on", {{"time", time}})};
    for (std::size_t i = 0; i < later.size() && i < mostTold; ++i) {
        lines.push_back(times.time(later[i]->at) + ": " + words::recordLine(context, *later[i]));
    }
    if (later.size() > mostTold) {
        lines.push_back(context.words.say("question.went_on_more",
                                          {{"count", std::to_string(later.size() - mostTold)}}));
    }
    lines.push_back(context.words.say("question.went_on_means", {{"time", time}}));
    return lines;
}

}  // namespace

std::vector<std::string> laterInUse(const Surroundings& surroundings,
                                    const WholeStanding& standing,
                                    const std::vector<Entry>& entries) {
    for (const auto& entry : entries) {
        if (!entry.at || logbook::kindOf(entry.kind) != Kind::UseEnd) {
            continue;
        }
        const auto later = laterThan(standing.log->log, entry.device, *entry.at);
        if (!later.empty()) {
            const auto* device = standing.state.device(entry.device);
            return questionOf({surroundings.words, standing.state, device, standing.at, {},
                               standing.lookup},
                              *entry.at, later);
        }
    }
    return {};
}

}  // namespace station
