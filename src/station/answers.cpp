// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the log; see answers.h.
#include "station/answers.h"

#include "station/rulebook_check.h"
#include "station/upkeep.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace station {

namespace {

Result<void> requireGroup(const Surroundings& surroundings, const rules::State& state,
                          const std::optional<std::string>& group) {
    if (!group || state.rulebook->group(*group) != nullptr) {
        return {};
    }
    std::vector<std::string> keys;
    for (const auto& each : state.rulebook->groups) {
        keys.push_back(each.key);
    }
    return tl::unexpected(
        problemOf(surroundings.words, "trouble.unknown_group",
                  {{"group", *group}, {"groups", surroundings.words.anyOf(keys)}}));
}

// What is missing or changed may have been about any unit, so no unit is left out.
std::set<std::string> allDevices(const rules::Log& log) {
    std::set<std::string> all;
    for (const auto& record : log.records()) {
        all.insert(record.device);
    }
    return all;
}

// Where the clock gives whole seconds, a record of the second that it tells belongs to now.
logbook::Instant nowFor(const rules::Log& log, logbook::Instant clock, logbook::Instant knownAt) {
    auto now = clock;
    if (clock.ms % 1000 != 0) {
        return now;
    }
    for (const auto& record : log.records()) {
        const auto latest = std::max(record.at, record.entered);
        if (record.entered <= knownAt && latest.ms < clock.ms + 1000) {
            now = std::max(now, latest);
        }
    }
    return now;
}

// An edition that cannot be read must not be told as one that was never adopted.
Result<void> requireReadable(const Surroundings& surroundings, const WholeLog& log,
                             logbook::Instant at, logbook::Instant knownAt) {
    auto edition = requireEdition(surroundings, log.log, at, knownAt);
    if (!edition && !log.unread.empty() && !log.log.hasEdition(at, knownAt)) {
        return tl::unexpected(problemOf(surroundings.words, "trouble.chain_broken",
                                        {{"record", toText(log.unread.front())}},
                                        Problem::Weight::Logbook));
    }
    return edition;
}

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
        if (!row) {
            return tl::unexpected(problemOf(surroundings.words, row.error()));
        }
        heads.push_back({station, seq, store::toHex(row->hash)});
    }
    return heads;
}

// How many of a station's first `last` records came into this file after `then`. They come in by
// number, so the first of those is found by halving.
Result<std::int64_t> cameAfter(const Surroundings& surroundings, const store::Logbook& logbook,
                               const logbook::RecordName& last, logbook::Instant then) {
    std::int64_t first = 1;
    std::int64_t end = last.seq + 1;
    while (first < end) {
        const auto middle = first + (end - first) / 2;
        const auto row = logbook.findRecord({last.station, middle});
        if (!row) {
            return tl::unexpected(problemOf(surroundings.words, row.error()));
        }
        if (row->arrived > then) {
            end = middle;
        } else {
            first = middle + 1;
        }
    }
    return last.seq + 1 - first;
}

// Of other stations, whose entries are here as they are brought in; one's own are here at once.
Result<void> noteLateArrivals(const Surroundings& surroundings, const WholeLog& log,
                              const LogbookFile& file, report::Provenance& provenance) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    for (auto& station : provenance.stations) {
        const auto head =
            std::find_if(provenance.heads.begin(), provenance.heads.end(),
                         [&](const auto& each) { return each.station == station.station; });
        if (station.station == log.ownStation || head == provenance.heads.end()) {
            continue;
        }
        const auto later = cameAfter(surroundings, *logbook, {head->station, head->seq},
                                     provenance.knownAt);
        if (!later) {
            return tl::unexpected(later.error());
        }
        station.cameLater = *later;
    }
    return {};
}

// What was found by the last verify, or now in reading.
std::vector<std::string> problemsOf(const words::Words& words, const WholeLog& log) {
    std::vector<std::string> problems;
    if (log.verification && !log.verification->ok) {
        store::VerifyReport found;
        found.breaks = log.verification->breaks;
        problems = findingsOf(words, found);
        if (problems.empty()) {
            problems.push_back(words.say("verify.file_damaged"));
        }
    }
    if (!log.unread.empty()) {
        problems.push_back(words.say("verify.unread",
                                     {{"record", toText(log.unread.front())},
                                      {"count", std::to_string(log.unread.size())}}));
    }
    return problems;
}

}  // namespace

Result<Standing> standing(const Surroundings& surroundings, const LogbookFile& file,
                          const Asked& asked) {
    auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    const auto knownAt = asked.knownAt.value_or(rules::unlimited);
    const auto at =
        asked.at ? *asked.at : nowFor(log->log, surroundings.clock.now(), knownAt);
    if (auto edition = requireReadable(surroundings, *log, at, knownAt); !edition) {
        return tl::unexpected(std::move(edition.error()));
    }
    auto state = log->log.stateAt(at, knownAt);
    if (auto group = requireGroup(surroundings, state, asked.group); !group) {
        return tl::unexpected(std::move(group.error()));
    }
    std::vector<LaterRecord> later;
    for (const auto& record : log->log.records()) {
        if (!asked.at && record.entered > at && record.entered <= knownAt) {
            later.push_back({record.name, record.entered});
        }
    }
    return Standing{std::move(*log), std::move(state), at, knownAt, asked.group,
                    std::move(later)};
}

report::Provenance provenanceOf(const Surroundings& surroundings, const WholeLog& log,
                                logbook::Instant knownAt) {
    report::Provenance provenance;
    provenance.knownAt = knownAt;
    provenance.stations = report::stationsHeard(log.log, knownAt);
    provenance.staleAfter = log.staleAfter;
    for (const auto& [station, head] : log.heads) {
        provenance.heads.push_back({station, head.head.seq, store::toHex(head.head.hash)});
    }
    if (log.verification) {
        report::Verified verified{log.verification->at, {}};
        for (const auto& [station, head] : log.verification->heads) {
            verified.upTo.emplace(station, head.seq);
        }
        provenance.verified = std::move(verified);
    }
    provenance.problems = problemsOf(surroundings.words, log);
    if (!provenance.problems.empty()) {
        provenance.devicesInDoubt = allDevices(log.log);
    }
    return provenance;
}

report::Board board(const Surroundings& surroundings, const Standing& standing) {
    return report::makeBoard(standing.state, report::lookupIn(standing.log.log),
                             {standing.at, standing.group},
                             provenanceOf(surroundings, standing.log, standing.knownAt));
}

Result<report::Explain> explain(const Surroundings& surroundings, const Standing& standing,
                                const std::string& device) {
    const report::ExplainQuestion question{device, standing.at, standing.group};
    const auto& log = standing.log.log;
    auto explained = report::makeExplain(
        standing.state, report::lookupIn(log), question,
        provenanceOf(surroundings, standing.log, standing.knownAt),
        report::recentRecords(log, question, standing.knownAt));
    if (!explained) {
        return tl::unexpected(
            problemOf(surroundings.words, "trouble.unknown_device", {{"device", device}}));
    }
    return std::move(*explained);
}

bool asksThePast(const Surroundings& surroundings, const Asked& asked) {
    const auto now = surroundings.clock.now();
    return (asked.at && *asked.at < now) || (asked.knownAt && *asked.knownAt < now);
}

Result<report::LookingBack> lookBack(const Surroundings& surroundings, const Standing& standing,
                                     const std::string& device) {
    const auto& log = standing.log.log;
    const auto knownAt =
        standing.knownAt == rules::unlimited ? standing.at : standing.knownAt;
    auto back = report::makeLookingBack(
        log, {device, standing.at, knownAt, standing.group},
        provenanceOf(surroundings, standing.log, rules::unlimited));
    if (!back) {
        return tl::unexpected(
            problemOf(surroundings.words, "trouble.unknown_device", {{"device", device}}));
    }
    return std::move(*back);
}

report::History history(const Surroundings& surroundings, const Standing& standing,
                        const std::string& device) {
    const words::Context context{surroundings.words, standing.state,
                                 standing.state.device(device), standing.at, standing.group,
                                 report::lookupIn(standing.log.log)};
    return report::makeHistory(context, standing.log.log,
                               {device, standing.at, standing.knownAt});
}

Result<report::WayToReady> wayToReady(const Surroundings& surroundings, const Standing& standing,
                                      const std::string& device) {
    auto way = report::makeWayToReady(
        standing.state, report::lookupIn(standing.log.log), {device, standing.at, standing.group},
        provenanceOf(surroundings, standing.log, standing.knownAt));
    if (!way) {
        return tl::unexpected(
            problemOf(surroundings.words, "trouble.unknown_device", {{"device", device}}));
    }
    return std::move(*way);
}

report::Horizon horizon(const Surroundings& surroundings, const Standing& standing,
                        logbook::Duration ahead) {
    return report::makeHorizon(standing.state, report::lookupIn(standing.log.log),
                               {standing.at, ahead},
                               provenanceOf(surroundings, standing.log, standing.knownAt));
}

report::Muster muster(const Surroundings& surroundings, const Standing& standing,
                      const MusterAsked& asked) {
    return report::makeMuster(standing.state, report::lookupIn(standing.log.log),
                              {standing.at, standing.group.value(), asked.units, asked.people},
                              provenanceOf(surroundings, standing.log, standing.knownAt));
}

Result<report::Trace> trace(const Surroundings& surroundings, const Standing& standing,
                            const TraceAsked& asked) {
    const auto& notices = standing.state.notices;
    if (asked.by == rules::TraceBy::Notice && !notices.contains(asked.key)) {
        std::vector<std::string> keys;
        for (const auto& [key, known] : notices) {
            keys.push_back(key);
        }
        return tl::unexpected(
            keys.empty() ? problemOf(surroundings.words, "trouble.no_notice")
                         : problemOf(surroundings.words, "trouble.unknown_notice",
                                     {{"notice", asked.key},
                                      {"notices", surroundings.words.anyOf(keys)}}));
    }
    return report::makeTrace(standing.log.log,
                             {asked.by, asked.key, standing.at, standing.knownAt},
                             provenanceOf(surroundings, standing.log, standing.knownAt));
}

Result<report::Draft> tryDraft(const Surroundings& surroundings, const Standing& standing,
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
    return report::makeDraft(standing.log.log, reading->rulebook,
                             {standing.at, standing.knownAt, asked.months},
                             provenanceOf(surroundings, standing.log, standing.knownAt));
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
