// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the log; see answers.h.
#include "station/answers.h"

#include "station/not_found.h"
#include "station/rulebook_check.h"
#include "station/upkeep.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace station {

namespace {

// Of each station the last record known then, so that a later record does not change a report that
// is asked again.
Result<std::vector<report::ChainHead>> headsKnown(const Surroundings& surroundings,
                                                  const WholeLog& log, const LogbookFile& file,
                                                  logbook::Instant knownAt) {
    std::map<std::string, std::int64_t> last;
    for (const auto& record : log.log.records()) {
        if (record.entered <= knownAt) {
            auto& seq = last[record.name.station];
            seq = std::max(seq, record.name.seq);
        }
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    std::vector<report::ChainHead> heads;
    for (const auto& [station, seq] : last) {
        const auto row = logbook->findRecord({station, seq});
        if (!row && row.error().code == store::Trouble::Code::NoRecord) {
            continue;  // no look-up leads to its seal
        }
        if (!row) {
            return tl::unexpected(problemOf(surroundings.words, row.error()));
        }
        heads.push_back({station, seq, store::toHex(row->hash)});
    }
    return heads;
}

// Of each station what is here, in its order.
using Numbers = std::map<std::string, std::vector<std::int64_t>, std::less<>>;

Numbers numbersIn(const WholeLog& log) {
    Numbers numbers;
    for (const auto& record : log.log.records()) {
        numbers[record.name.station].push_back(record.name.seq);
    }
    for (const auto& name : log.unread) {
        numbers[name.station].push_back(name.seq);
    }
    for (auto& [station, ofStation] : numbers) {
        std::ranges::sort(ofStation);
    }
    return numbers;
}

// How many of these came into this file after `then`. They come in by number, so the first that did
// is found by halving; of one that is gone nobody knows when it came in, and it is not counted.
Result<std::int64_t> cameAfter(const Surroundings& surroundings, const store::Logbook& logbook,
                               const std::string& station, std::vector<std::int64_t> numbers,
                               logbook::Instant then) {
    std::ptrdiff_t first = 0;
    auto end = std::ssize(numbers);
    while (first < end) {
        const auto middle = first + (end - first) / 2;
        const auto listed = numbers.begin() + middle;
        const auto row = logbook.findRecord({station, *listed});
        if (!row && row.error().code == store::Trouble::Code::NoRecord) {
            numbers.erase(listed);
            --end;
        } else if (!row) {
            return tl::unexpected(problemOf(surroundings.words, row.error()));
        } else if (row->arrived > then) {
            end = middle;
        } else {
            first = middle + 1;
        }
    }
    return std::ssize(numbers) - first;
}

// Of other stations, whose entries are here as they are brought in; one's own are here at once.
Result<void> noteLateArrivals(const Surroundings& surroundings, const WholeLog& log,
                              const LogbookFile& file, report::Provenance& provenance) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto numbers = numbersIn(log);
    for (auto& station : provenance.stations) {
        const auto head =
            std::find_if(provenance.heads.begin(), provenance.heads.end(),
                         [&](const auto& each) { return each.station == station.station; });
        const auto here = numbers.find(station.station);
        if (station.station == log.ownStation || head == provenance.heads.end() ||
            here == numbers.end()) {
            continue;
        }
        const auto upTo = std::ranges::upper_bound(here->second, head->seq);
        const auto later = cameAfter(surroundings, *logbook, station.station,
                                     {here->second.begin(), upTo}, provenance.knownAt);
        if (!later) {
            return tl::unexpected(later.error());
        }
        station.cameLater = *later;
    }
    return {};
}

}  // namespace

report::Board board(const Surroundings& surroundings, Standing standing) {
    auto provenance = provenanceOf(surroundings, standing);
    return report::makeBoard(std::move(standing.state), std::move(standing.lookup),
                             {standing.at, standing.group}, std::move(provenance));
}

Result<report::Explain> explain(const Surroundings& surroundings, const WholeStanding& standing,
                                const std::string& device) {
    const report::ExplainQuestion question{device, standing.at, standing.group};
    const auto& log = standing.log->log;
    auto explained = report::makeExplain(
        standing.state, standing.lookup, question,
        provenanceOf(surroundings, standing),
        report::ofRecords(log, question, standing.knownAt));
    if (!explained) {
        return tl::unexpected(unknownDevice(surroundings, standing.facts, device));
    }
    return std::move(*explained);
}

bool asksThePast(const Surroundings& surroundings, const Asked& asked) {
    const auto now = surroundings.clock.now();
    return (asked.at && *asked.at < now) || (asked.knownAt && *asked.knownAt < now);
}

Result<report::LookingBack> lookBack(const Surroundings& surroundings,
                                     const WholeStanding& standing,
                                     const std::string& device) {
    const auto& log = standing.log->log;
    const auto knownAt =
        standing.knownAt == rules::unlimited ? standing.at : standing.knownAt;
    auto back = report::makeLookingBack(
        log, {device, standing.at, knownAt, standing.group},
        provenanceOf(surroundings, *standing.log, rules::unlimited));
    if (!back) {
        return tl::unexpected(unknownDevice(surroundings, standing.facts, device));
    }
    return std::move(*back);
}

report::History history(const Surroundings& surroundings, const WholeStanding& standing,
                        const std::string& device) {
    const words::Context context{surroundings.words, standing.state,
                                 standing.state.device(device), standing.at, standing.group,
                                 standing.lookup};
    return report::makeHistory(context, standing.log->log,
                               {device, standing.at, standing.knownAt});
}

Result<report::WayToReady> wayToReady(const Surroundings& surroundings, const Standing& standing,
                                      const std::string& device) {
    auto way = report::makeWayToReady(
        standing.state, standing.lookup, {device, standing.at, standing.group},
        provenanceOf(surroundings, standing));
    if (!way) {
        return tl::unexpected(unknownDevice(surroundings, standing.facts, device));
    }
    return std::move(*way);
}

report::Horizon horizon(const Surroundings& surroundings, const Standing& standing,
                        logbook::Duration ahead) {
    return report::makeHorizon(standing.state, standing.lookup,
                               {standing.at, ahead},
                               provenanceOf(surroundings, standing));
}

report::Muster muster(const Surroundings& surroundings, const Standing& standing,
                      const MusterAsked& asked) {
    return report::makeMuster(standing.state, standing.lookup,
                              {standing.at, standing.group.value(), asked.units, asked.people},
                              provenanceOf(surroundings, standing));
}

Result<report::Trace> trace(const Surroundings& surroundings, const WholeStanding& standing,
                            const TraceAsked& asked) {
    const auto& notices = standing.state.notices;
    if (asked.by == rules::TraceBy::Notice && !notices.contains(asked.key)) {
        std::vector<std::string> keys;
        for (const auto& [key, known] : notices) {
            keys.push_back(key);
        }
        return tl::unexpected(asFarAsRead(
            surroundings, standing.facts,
            keys.empty() ? problemOf(surroundings.words, "trouble.no_notice")
                         : problemOf(surroundings.words, "trouble.unknown_notice",
                                     {{"notice", asked.key},
                                      {"notices", surroundings.words.anyOf(keys)}})));
    }
    auto trace = report::makeTrace(standing.log->log,
                                   {asked.by, asked.key, standing.at, standing.knownAt},
                                   provenanceOf(surroundings, standing));
    // The log may be that of some units alone.
    trace.found.end = standing.state;
    trace.lookup = standing.lookup;
    return trace;
}

Result<report::Draft> tryDraft(const Surroundings& surroundings, const WholeStanding& standing,
                               const DraftAsked& asked) {
    auto reading = checkRulebook(surroundings, asked.rulebook);
    if (!reading) {
        return tl::unexpected(std::move(reading.error()));
    }
    if (!reading->rulebook) {
        auto problem = problemOf(surroundings.words, "try.bad_rulebook",
                                 {{"path", asked.rulebook.string()}});
        problem.details = remarkLines(surroundings.words, reading->faults);
        return tl::unexpected(std::move(problem));
    }
    return report::makeDraft(standing.log->log, reading->rulebook,
                             {standing.at, standing.knownAt, asked.months},
                             provenanceOf(surroundings, standing));
}

std::optional<std::chrono::year_month> parseMonth(std::string_view text) {
    const auto day = logbook::parseDay(std::string(text) + "-01");
    if (!day) {
        return std::nullopt;
    }
    const std::chrono::year_month_day parts(*day);
    return parts.year() / parts.month();
}

Result<report::Month> month(const Surroundings& surroundings, const WholeLog& log,
                            const LogbookFile& file, const rules::MonthQuestion& question) {
    // Its period is told in the zone of the last edition known, however early it is asked to end.
    if (auto edition =
            requireReadable(surroundings, log, rules::unlimited, question.knownAt);
        !edition) {
        return tl::unexpected(std::move(edition.error()));
    }
    auto heads = headsKnown(surroundings, log, file, question.knownAt);
    if (!heads) {
        return tl::unexpected(std::move(heads.error()));
    }
    auto provenance = provenanceOf(surroundings, log, question.knownAt);
    provenance.heads = std::move(*heads);
    if (question.knownAt != rules::unlimited) {
        if (auto noted = noteLateArrivals(surroundings, log, file, provenance); !noted) {
            return tl::unexpected(std::move(noted.error()));
        }
    }
    auto report = report::makeMonth(log.log, question, file.path.string(),
                                    std::move(provenance));
    if (!report) {
        return tl::unexpected(problemOf(surroundings.words, report.error()));
    }
    return std::move(*report);
}

}  // namespace station
