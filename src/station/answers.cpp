// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the log; see answers.h.
#include "station/answers.h"

#include "station/upkeep.h"

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

// A record that is gone, of whatever station, puts all in doubt.
bool isInDoubt(const logbook::Record& record, const std::vector<store::Break>& breaks) {
    for (const auto& found : breaks) {
        if (found.record.station.empty() ||
            (found.record.station == record.name.station && record.name.seq >= found.record.seq)) {
            return true;
        }
    }
    return false;
}

std::set<std::string> devicesInDoubt(const rules::Log& log,
                                     const std::vector<store::Break>& breaks) {
    std::set<std::string> inDoubt;
    std::set<std::string> all;
    bool department = false;
    for (const auto& record : log.records()) {
        all.insert(record.device);
        if (isInDoubt(record, breaks)) {
            inDoubt.insert(record.device);
            department = department || record.device.empty();
        }
    }
    return department ? all : inDoubt;
}

}  // namespace

Result<Standing> standing(const Surroundings& surroundings, const LogbookFile& file,
                          const Asked& asked) {
    auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    const auto at = asked.at.value_or(surroundings.clock.now());
    const auto knownAt = asked.knownAt.value_or(rules::unlimited);
    if (auto edition = requireEdition(surroundings, log->log, at, knownAt); !edition) {
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
    if (!log.verification) {
        return provenance;
    }
    report::Verified verified{log.verification->at, {}};
    for (const auto& [station, head] : log.verification->heads) {
        verified.upTo.emplace(station, head.seq);
    }
    provenance.verified = std::move(verified);
    if (!log.verification->ok) {
        store::VerifyReport found;
        found.breaks = log.verification->breaks;
        provenance.problems = findingsOf(surroundings.words, found);
        if (provenance.problems.empty()) {
            provenance.problems.push_back(surroundings.words.say("verify.file_damaged"));
        }
        provenance.devicesInDoubt = devicesInDoubt(log.log, found.breaks);
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
            requireEdition(surroundings, log.log, rules::unlimited, question.knownAt);
        !edition) {
        return tl::unexpected(std::move(edition.error()));
    }
    auto report = report::makeMonth(log.log, question, file.path.string(),
                                    provenanceOf(surroundings, log, question.knownAt));
    if (!report) {
        return tl::unexpected(problemOf(surroundings.words, report.error()));
    }
    return std::move(*report);
}

}  // namespace station
