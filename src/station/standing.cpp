// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Asking the log for a state; see standing.h.
#include "station/standing.h"

#include "station/later_units.h"
#include "station/standing_source.h"
#include "station/state_reading.h"
#include "station/upkeep.h"
#include "station/warm_reading.h"
#include "store/page_damage.h"

#include <algorithm>
#include <optional>
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

std::set<std::string> allDevices(const rules::State& state) {
    std::set<std::string> all;
    for (const auto& [serial, device] : state.devices) {
        all.insert(serial);
    }
    return all;
}

// What was found by the last verify, or now in reading.
std::vector<std::string> problemsOf(const words::Words& words, const LogbookFacts& facts) {
    auto problems = breaksKnown(words, facts);
    const bool isNotWhole = facts.verification && !facts.verification->ok;
    if (isNotWhole && (problems.empty() || store::arePagesDamaged(*facts.verification))) {
        problems.push_back(words.say("verify.file_damaged"));
    }
    if (facts.isRefused) {
        problems.push_back(words.say("verify.read_round_disk"));
    } else if (problems.empty() && facts.isDamaged) {
        problems.push_back(words.say("verify.read_round"));
    }
    if (!facts.unread.empty()) {
        problems.push_back(words.say("verify.unread",
                                     {{"record", toText(facts.unread.front())},
                                      {"count", std::to_string(facts.unread.size())}}));
    }
    return problems;
}

// All but what depends on the records themselves.
report::Provenance provenanceOf(const words::Words& words, const LogbookFacts& facts,
                                logbook::Instant knownAt) {
    report::Provenance provenance;
    provenance.knownAt = knownAt;
    provenance.staleAfter = facts.staleAfter;
    for (const auto& [station, head] : facts.heads) {
        provenance.heads.push_back({station, head.head.seq, store::toHex(head.head.hash)});
    }
    if (facts.verification) {
        report::Verified verified{facts.verification->at, {}};
        for (const auto& [station, head] : facts.verification->heads) {
            verified.upTo.emplace(station, head.seq);
        }
        // Each entry that was checked is of some station, whose head is noted or which broke.
        // In a note that had to be short there is no head.
        verified.isHowFarKnown =
            !store::arePagesDamaged(*facts.verification) &&
            (facts.verification->checked <= 0 || !verified.upTo.empty() ||
             !facts.verification->breaks.empty());
        provenance.verified = std::move(verified);
    }
    provenance.problems = problemsOf(words, facts);
    return provenance;
}

// The warm answer, or else the cold one.
Result<Standing> answer(const Surroundings& surroundings, const LogbookFile& file,
                        const Asked& asked, Result<std::optional<Standing>> warm) {
    // What stands beside the records may be damaged, and they be whole.
    const bool isDamaged = !warm && (warm.error().code == "trouble.damaged" ||
                                     warm.error().code == "trouble.unreadable");
    if (!warm && !isDamaged) {
        return tl::unexpected(std::move(warm.error()));
    }
    if (isDamaged || !*warm) {
        return coldStanding(surroundings, file, asked);
    }
    if (auto group = requireGroup(surroundings, (*warm)->state, asked.group); !group) {
        return tl::unexpected(std::move(group.error()));
    }
    return *std::move(*warm);
}

// As lackOfEdition tells it.
bool lacksEdition(const Problem& problem) {
    return problem.code == "trouble.chain_broken" || problem.code == "trouble.edition_gone";
}

// Of a log to whose editions no index leads: by all records. The file is damaged then; otherwise
// the problem is what it was.
Result<Standing> standingRound(const Surroundings& surroundings, const LogbookFile& file,
                               const Asked& asked, Problem problem) {
    auto whole = wholeStanding(surroundings, file, asked);
    if (!whole) {
        return tl::unexpected(std::move(problem));
    }
    whole->facts.isDamaged = true;
    return std::move(*whole);
}

Result<std::shared_ptr<const store::Logbook>> openToRead(const Surroundings& surroundings,
                                                         const LogbookFile& file) {
    return openLogbook(surroundings, file, Access::Read).map([](store::Logbook&& logbook) {
        return std::make_shared<const store::Logbook>(std::move(logbook));
    });
}

}  // namespace

class StandingSource::Source {
public:
    Source(const Surroundings& surroundings, LogbookFile file,
           std::shared_ptr<const store::Logbook> logbook)
        : m_surroundings(surroundings), m_file(std::move(file)) {
        use(std::move(logbook));
    }

    Result<Standing> ask(const Asked& asked, std::optional<std::string> device) {
        lookAfresh();
        m_log->about(std::move(device));
        auto told = answer(m_surroundings, m_file, asked,
                           m_log->standing(m_file, asked, WarmLog::Otherwise::Fold));
        if (m_logbook->metDamage() && !m_verified) {
            m_verified = lastVerified();
        }
        return told;
    }

private:
    void use(std::shared_ptr<const store::Logbook> logbook) {
        m_logbook = std::move(logbook);
        m_log.emplace(m_surroundings, m_logbook, WarmLog::Answers::Many);
        m_verified.reset();
    }

    // When it was last found whole; before all time where it was not.
    [[nodiscard]] logbook::Instant lastVerified() const {
        const auto last = m_logbook->lastVerification();
        return last && *last && (*last)->ok ? (*last)->at : logbook::Instant{};
    }

    // What the disk did not give it may give now, and what was damaged a verify may have found
    // whole since, where the file was mended: else nothing that was met once would be forgotten.
    void lookAfresh() {
        const bool isMended = m_verified && lastVerified() != *m_verified &&
                              lastVerified() != logbook::Instant{};
        if (!m_logbook->metRefusal() && !isMended) {
            return;
        }
        if (auto logbook = openToRead(m_surroundings, m_file)) {
            use(*std::move(logbook));
        }
    }

    const Surroundings& m_surroundings;
    LogbookFile m_file;
    std::shared_ptr<const store::Logbook> m_logbook;
    std::optional<WarmLog> m_log;
    std::optional<logbook::Instant> m_verified{};  // before damage was met; none before that
};

StandingSource::StandingSource(std::unique_ptr<Source> source) : m_source(std::move(source)) {}
StandingSource::~StandingSource() = default;

Result<std::unique_ptr<StandingSource>> StandingSource::open(const Surroundings& surroundings,
                                                             const LogbookFile& file) {
    auto logbook = openToRead(surroundings, file);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    return std::unique_ptr<StandingSource>(new StandingSource(
        std::make_unique<Source>(surroundings, file, std::move(*logbook))));
}

Result<Standing> StandingSource::ask(const Asked& asked) {
    return m_source->ask(asked, std::nullopt);
}

Result<Standing> StandingSource::askAbout(const std::string& device, const Asked& asked) {
    return m_source->ask(asked, device);
}

Result<Standing> coldStanding(const Surroundings& surroundings, const LogbookFile& file,
                              const Asked& asked) {
    auto standing = readStanding(surroundings, file, asked);
    if (!standing && lacksEdition(standing.error())) {
        standing = standingRound(surroundings, file, asked, std::move(standing.error()));
    }
    if (!standing) {
        return standing;
    }
    if (auto group = requireGroup(surroundings, standing->state, asked.group); !group) {
        return tl::unexpected(std::move(group.error()));
    }
    return standing;
}

Result<Standing> standing(const Surroundings& surroundings, const LogbookFile& file,
                          const Asked& asked) {
    auto logbook = openToRead(surroundings, file);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    WarmLog log(surroundings, std::move(*logbook), WarmLog::Answers::One);
    return answer(surroundings, file, asked,
                  log.standing(file, asked, WarmLog::Otherwise::Leave));
}

Result<WholeStanding> wholeStanding(const Surroundings& surroundings, const LogbookFile& file,
                                    const Asked& asked) {
    auto read = readWholeLog(surroundings, file);
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    const auto log = std::make_shared<const WholeLog>(std::move(*read));
    WholeStanding standing;
    standing.log = log;
    standing.facts = *log;
    standing.knownAt = asked.knownAt.value_or(rules::unlimited);
    standing.at = asked.at ? *asked.at
                           : nowFor(log->log, surroundings.clock.now(), standing.knownAt);
    if (auto edition = requireReadable(surroundings, *log, standing.at, standing.knownAt);
        !edition) {
        return tl::unexpected(std::move(edition.error()));
    }
    // By a clock that is ahead an entry says nothing of when its station was heard.
    standing.heard = report::stationsHeard(
        log->log, asked.at ? standing.knownAt : std::min(standing.knownAt, standing.at));
    standing.state = log->log.stateAt(standing.at, standing.knownAt);
    standing.group = asked.group;
    standing.lookup = [log](const logbook::RecordName& name) {
        return report::lookupIn(log->log)(name);
    };
    if (auto group = requireGroup(surroundings, standing.state, asked.group); !group) {
        return tl::unexpected(std::move(group.error()));
    }
    if (!asked.at) {
        standing.later = laterThan(standing.at, standing.knownAt, log->log);
    }
    return standing;
}

report::Provenance provenanceOf(const Surroundings& surroundings, const Standing& standing) {
    auto provenance = provenanceOf(surroundings.words, standing.facts, standing.knownAt);
    provenance.stations = standing.heard;
    provenance.devicesInDoubt =
        provenance.problems.empty() ? unitsWithLater(standing) : allDevices(standing.state);
    return provenance;
}

report::Provenance provenanceOf(const Surroundings& surroundings, const WholeLog& log,
                                logbook::Instant knownAt) {
    auto provenance = provenanceOf(surroundings.words, log, knownAt);
    provenance.stations = report::stationsHeard(log.log, knownAt);
    if (!provenance.problems.empty()) {
        provenance.devicesInDoubt = allDevices(log.log);
    }
    return provenance;
}

std::vector<std::string> doubtsOf(const Surroundings& surroundings, const LogbookFacts& facts) {
    return problemsOf(surroundings.words, facts);
}

Result<void> requireReadable(const Surroundings& surroundings, const WholeLog& log,
                             logbook::Instant at, logbook::Instant knownAt) {
    auto edition = requireEdition(surroundings, log.log.groundwork(), at, knownAt);
    if (!edition && !log.log.hasEdition(at, knownAt)) {
        return tl::unexpected(lackOfEdition(surroundings, log, std::move(edition.error())));
    }
    return edition;
}

}  // namespace station
