// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening and founding logbooks, and reading the whole log; see open.h.
#include "station/open.h"

#include "station/clock_doubt.h"
#include "station/file_kind.h"
#include "station/read_ahead.h"
#include "station/records_seen.h"
#include "station/upkeep.h"
#include "store/heads_check.h"
#include "words/times.h"

#include <algorithm>
#include <charconv>
#include <utility>

namespace station {

namespace {

// Files named in a sentence.
constexpr std::ptrdiff_t mostBeside = 5;

logbook::Duration staleAfterOf(const std::map<std::string, std::string>& settings) {
    const auto found = settings.find("stale_after");
    if (found == settings.end()) {
        return defaultStaleAfter;
    }
    return logbook::parseDuration(found->second).value_or(defaultStaleAfter);
}

std::int64_t numberOf(const std::map<std::string, std::string>& settings,
                      const std::string& name) {
    const auto found = settings.find(name);
    std::int64_t number = 0;
    if (found != settings.end()) {
        const auto& text = found->second;
        std::from_chars(text.data(), text.data() + text.size(), number);
    }
    return number;
}

// In the reading order, up to the arrival that the facts tell; another thread steps through the
// rows.
std::optional<store::Trouble> readAll(const store::Logbook& logbook, LogbookFacts& facts,
                                      std::vector<logbook::Record>& records, RecordsSeen& seen) {
    ReadAhead ahead(logbook, {.arrivedUpTo = facts.arrival});
    for (;;) {
        auto portion = ahead.next();
        if (!portion) {
            return portion.error();
        }
        if (portion->empty()) {
            return std::nullopt;
        }
        for (auto& each : *portion) {
            seen.see(each.place.name);
            if (each.whole) {
                records.push_back(std::move(each.record));
            } else {
                facts.unread.push_back(each.place.name);
            }
        }
    }
}

// By what was noted with each record, and by what the last verify noted: whoever cuts off the end
// of a log may have set back only the former. Of each station one.
tl::expected<std::vector<store::Break>, store::Trouble> goneOf(
    const store::Logbook& logbook, const store::StationHeads& noted,
    const std::optional<store::Verification>& verification) {
    auto gone = store::breaksAgainst(logbook, store::headsOf(noted));
    if (!gone || !verification) {
        return gone;
    }
    const auto since = store::breaksAgainst(logbook, verification->heads);
    if (!since) {
        return since;
    }
    for (const auto& each : *since) {
        const auto told = std::ranges::find(*gone, each.record.station, [](const auto& known) {
            return known.record.station;
        });
        if (told == gone->end()) {
            gone->push_back(each);
        } else if (each.record.seq < told->record.seq) {
            *told = each;
        }
    }
    return gone;
}

tl::expected<LogbookFacts, store::Trouble> factsUpTo(const store::Logbook& logbook,
                                                     std::int64_t arrival) {
    auto heads = logbook.heads();
    if (!heads) {
        return tl::unexpected<store::Trouble>(heads.error());
    }
    auto verification = logbook.lastVerification();
    if (!verification) {
        return tl::unexpected<store::Trouble>(verification.error());
    }
    auto ownStation = logbook.station();
    if (!ownStation) {
        return tl::unexpected<store::Trouble>(ownStation.error());
    }
    const auto settings = logbook.settings();
    if (!settings) {
        return tl::unexpected<store::Trouble>(settings.error());
    }
    auto gone = goneOf(logbook, *heads, *verification);
    if (!gone) {
        return tl::unexpected<store::Trouble>(gone.error());
    }
    return LogbookFacts{std::move(*heads), std::move(*verification), std::move(*ownStation),
                        staleAfterOf(*settings), {}, arrival,
                        numberOf(*settings, "numbers.forms"), std::move(*gone),
                        logbook.metDamage(), logbook.metRefusal()};
}

// The files beside that one whose names go on from its name so; the newest last, where a time
// follows.
std::vector<std::string> besideOf(const std::filesystem::path& path, const std::string& ending) {
    std::vector<std::string> names;
    std::error_code error;
    const auto whole = std::filesystem::absolute(path, error);
    const auto start = whole.filename().string() + ending;
    std::filesystem::directory_iterator entry(whole.parent_path(), error);
    for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
        const auto name = entry->path().filename().string();
        if (name.starts_with(start) && !name.ends_with("-journal")) {
            names.push_back((path.parent_path() / name).string());
        }
    }
    std::ranges::sort(names);
    if (std::ssize(names) > mostBeside) {
        names.erase(names.begin(), names.end() - mostBeside);
    }
    return names;
}

// What a restore that was cut off leaves lies beside where the logbook should be.
Problem notThere(const words::Words& words, const std::filesystem::path& path) {
    auto beside = besideOf(path, ".before-");
    const auto* key = beside.empty() ? "trouble.not_finished" : "trouble.put_aside";
    for (auto& name : besideOf(path, ".unfinished-")) {
        beside.push_back(std::move(name));
    }
    return problemOf(words, beside.empty() ? "trouble.not_found" : key,
                     {{"path", path.string()}, {"files", words.all(beside)}},
                     Problem::Weight::Logbook);
}

// As many as there are where the file is whole; what a strange one says is not believed further
// than there is room for in it.
std::size_t mostRecordsIn(const std::filesystem::path& path, std::int64_t arrival) {
    constexpr std::uintmax_t leastBytes = 200;  // of a record and what stands of it in the indexes
    std::error_code error;
    const auto size = std::filesystem::file_size(path, error);
    return error || arrival < 0 ? 0
                                : static_cast<std::size_t>(std::min<std::uintmax_t>(
                                      static_cast<std::uintmax_t>(arrival), size / leastBytes));
}

Result<WholeLog> readWhatIsWhole(const Surroundings& surroundings,
                                 const store::Logbook& logbook) {
    auto facts = readFacts(surroundings, logbook);
    if (!facts) {
        return tl::unexpected(std::move(facts.error()));
    }
    const auto settings = logbook.settings();
    if (!settings) {
        return tl::unexpected(problemOf(surroundings.words, settings.error()));
    }
    std::vector<logbook::Record> records;
    records.reserve(mostRecordsIn(logbook.path(), facts->arrival));
    RecordsSeen seen;
    if (const auto trouble = readAll(logbook, *facts, records, seen)) {
        return tl::unexpected(problemOf(surroundings.words, *trouble));
    }
    if (auto held = noteLacking(surroundings, logbook, seen, *facts); !held) {
        return tl::unexpected(std::move(held.error()));
    }
    WholeLog log{std::move(*facts), rules::Log(std::move(records), surroundings.zones)};
    log.reached = reachedBy(log, *settings);
    log.isDamaged = logbook.metDamage();
    log.isRefused = logbook.metRefusal();
    return log;
}

}  // namespace

Result<store::Logbook> openLogbook(const Surroundings& surroundings, const LogbookFile& file,
                                   Access access) {
    const bool begins = access == Access::Create && !system::exists(file.path);
    if (begins && system::isSideName(file.path)) {
        return tl::unexpected(problemOf(surroundings.words, "file.side_name",
                                        {{"path", file.path.string()}}));
    }
    if (begins && !besideOf(file.path, ".before-").empty()) {
        return tl::unexpected(notThere(surroundings.words, file.path));
    }
    store::OpenOptions options;
    options.access = access;
    options.trustLocks = file.trustLocks;
    return store::Logbook::open(file.path, options).map_error([&](const store::Trouble& trouble) {
        // Nothing of it is read where it does not open.
        if (trouble.code == store::Trouble::Code::Damaged) {
            return problemOf(surroundings.words,
                             trouble.isUnread ? "trouble.unreadable_throughout"
                                              : "trouble.damaged_throughout",
                             {{"path", trouble.path.string()}, {"detail", trouble.text}},
                             Problem::Weight::Logbook);
        }
        if (access == Access::Create && trouble.code == store::Trouble::Code::NotFound) {
            return problemOf(surroundings.words, "file.no_folder",
                             {{"path", file.path.string()}}, Problem::Weight::Logbook);
        }
        return trouble.code == store::Trouble::Code::NotFound
                   ? notThere(surroundings.words, file.path)
                   : problemOf(surroundings.words, trouble);
    });
}

Problem otherFile(const Surroundings& surroundings, const LogbookFile& file) {
    store::Trouble trouble;
    trouble.code = store::Trouble::Code::Moved;
    trouble.path = file.path;
    return problemOf(surroundings.words, trouble);
}

Result<bool> foundStation(const Surroundings& surroundings, const LogbookFile& file,
                          const std::string& name) {
    const bool isThere = system::exists(file.path);
    bool made = false;
    const store::Writing writing{surroundings.login, surroundings.clock.now()};
    auto result = [&]() -> Result<bool> {
        auto logbook = openLogbook(surroundings, file, isThere ? Access::Write : Access::Create);
        if (!logbook) {
            return tl::unexpected(std::move(logbook.error()));
        }
        made = !isThere;
        const auto set = logbook->setStation(name, writing);
        if (!set) {
            return tl::unexpected(problemOf(surroundings.words, set.error()));
        }
        return made;
    }();
    if (!result && made) {
        removeIfEmpty(file);
    }
    return result;
}

void removeIfEmpty(const LogbookFile& file) {
    // One that cannot be removed is an empty logbook with a name, which does no harm.
    (void)store::Logbook::removeEmpty(file.path, {.trustLocks = file.trustLocks});
}

Result<LogbookFacts> readFacts(const Surroundings& surroundings, const store::Logbook& logbook) {
    const auto troubled = [&](const store::Trouble& trouble) {
        return tl::unexpected(problemOf(surroundings.words, trouble));
    };
    for (;;) {  // until nobody writes in the moment that it takes
        const auto arrival = logbook.lastArrival();
        if (!arrival) {
            return troubled(arrival.error());
        }
        auto facts = factsUpTo(logbook, *arrival);
        if (!facts) {
            return troubled(facts.error());
        }
        const auto now = logbook.lastArrival();
        if (!now) {
            return troubled(now.error());
        }
        if (*now == *arrival) {
            return *std::move(facts);
        }
    }
}

std::vector<std::string> breaksKnown(const words::Words& words, const LogbookFacts& facts) {
    store::VerifyReport known;
    if (facts.verification && !facts.verification->ok) {
        known.breaks = facts.verification->breaks;
    }
    for (const auto& gone : facts.gone) {
        const auto isNoted = std::ranges::any_of(known.breaks, [&](const store::Break& noted) {
            return noted.record.station == gone.record.station;
        });
        if (!isNoted) {
            known.breaks.push_back(gone);
        }
    }
    return findingsOf(words, known);
}

Problem lackOfEdition(const Surroundings& surroundings, const LogbookFacts& facts,
                      Problem problem) {
    if (auto breaks = breaksKnown(surroundings.words, facts); !breaks.empty()) {
        problem = problemOf(surroundings.words, "trouble.edition_gone", {},
                            Problem::Weight::Logbook);
        problem.details = std::move(breaks);
    } else if (!facts.unread.empty()) {
        problem = unreadable(surroundings, facts.unread.front());
    }
    return problem;
}

Problem unreadable(const Surroundings& surroundings, const logbook::RecordName& record) {
    return problemOf(surroundings.words, "trouble.chain_broken", {{"record", toText(record)}},
                     Problem::Weight::Logbook);
}

Result<WholeLog> readWholeLog(const Surroundings& surroundings, const store::Logbook& logbook) {
    auto log = readWhatIsWhole(surroundings, logbook);
    if (log && !log->unread.empty()) {
        return tl::unexpected(unreadable(surroundings, log->unread.front()));
    }
    return log;
}

Result<WholeLog> readWholeLog(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    return readWhatIsWhole(surroundings, *logbook);
}

namespace {

// A time before the first edition known is told as that, not as a log without one.
Problem noEdition(const words::Words& words, const rules::Groundwork& groundwork,
                  logbook::Instant knownAt) {
    for (const auto& [record, edition] : groundwork.adoptions()) {
        if (!edition || record.entered > knownAt) {
            continue;
        }
        const words::Times times(words, *edition->zone, record.at);
        return problemOf(words, "trouble.before_first_edition",
                         {{"time", times.full(record.at)}, {"edition", edition->edition}});
    }
    return problemOf(words, "trouble.no_edition");
}

}  // namespace

Result<void> requireEdition(const Surroundings& surroundings, const rules::Groundwork& groundwork,
                            logbook::Instant at, logbook::Instant knownAt) {
    const rules::LogFault* standing = nullptr;  // of the last adopt by then, if it is faulty
    for (const auto& [record, edition] : groundwork.adoptions()) {
        if (record.at > at || record.entered > knownAt) {
            continue;
        }
        standing = nullptr;
        for (const auto& fault : groundwork.faults()) {
            standing = fault.record == record.name ? &fault : standing;
        }
    }
    if (standing != nullptr) {
        return tl::unexpected(problemOf(surroundings.words, *standing));
    }
    if (!groundwork.hasEdition(at, knownAt)) {
        return tl::unexpected(noEdition(surroundings.words, groundwork, knownAt));
    }
    return {};
}

}  // namespace station
