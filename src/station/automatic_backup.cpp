// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Automatic backups; see automatic_backup.h.
#include "station/automatic_backup.h"

#include "logbook/text.h"
#include "station/backup_failures.h"
#include "station/backup_place.h"
#include "station/file_kind.h"
#include "station/given_time.h"
#include "station/settings.h"
#include "station/system.h"
#include "words/times.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace station {

namespace {

using Code = store::Trouble::Code;
using Path = std::filesystem::path;
using logbook::Instant;
using Begins = std::function<void(const std::string&)>;

constexpr std::int64_t hourMs = 3'600'000, dayMs = 24 * hourMs;
constexpr Instant beginning{std::numeric_limits<std::int64_t>::min()};
AutomaticBackup notTried(const words::Words& words, const Problem& problem) {
    return {{}, true, {words.say("backups.not_tried", {{"reason", problem.notice.says}})}};
}

// Whether anything came in that is in none there, and for how long that has been so.
bool isDue(const store::Logbook& logbook, const BackupPlace& place, Instant now,
           Occasion occasion) {
    const auto heads = logbook.heads();
    if (!heads) {
        return true;  // it fails then, and that is told
    }
    if (heads->empty()) {
        return false;
    }
    if (occasion == Occasion::CommandDone) {
        const Instant aDayAgo{now.ms - dayMs};
        const bool isOld = std::ranges::any_of(*heads, [&](const auto& each) {
            const auto row = logbook.findRecord({each.first, 1});
            return !row || row->arrived <= aDayAgo;
        });
        if (!isOld || place.newest(logbook, aDayAgo, now)) {
            return false;
        }
    }
    return !place.hasAllOf(logbook);
}

class Backing {
public:
    Backing(const Surroundings& surroundings, const LogbookFile& file, store::Logbook logbook)
        : m_surroundings(surroundings),
          m_file(file),
          m_now(wholeSecond(surroundings.clock.now())),
          m_logbook(std::move(logbook)),
          m_station(m_logbook.station().value_or(std::nullopt)) {}

    AutomaticBackup run(const StationSettings& all, Occasion occasion, const Begins& begins) {
        const auto noted = m_logbook.settings();
        m_failures = noted ? failuresIn(*noted) : std::vector<BackupFailure>{};
        forgetOthers(m_failures, m_file, all);
        m_occasion = occasion;
        const BackupPlace first(backupFolder(m_file), m_file, m_station);
        const bool isFirstDue = isDue(m_logbook, first, m_now, occasion);
        // The second may be far away, and is not asked at each command.
        if (!isFirstDue && m_failures.empty()) {
            return {};
        }
        m_begins = begins;
        if (isFirstDue && begin(first.folder())) {
            if (system::makeFolder(first.folder())) {
                make(first, all, "backups.made");
            } else {
                const bool isInWay = system::kindOf(first.folder()) != system::FileKind::None;
                fail(first.folder(), isInWay ? BackupFailure::inWay : "not_permitted");
            }
        }
        runSecond(all, isFirstDue);
        if (m_isTried) {
            note();
        }
        return std::move(m_result);
    }

private:
    void runSecond(const StationSettings& all, bool isFirstDue) {
        if (all.isUnread) {
            m_result.failed = true;
            m_result.told.push_back(m_surroundings.words.say("backups.second_unread"));
            return;
        }
        if (const auto& folder = all.settings.secondBackup) {
            const BackupPlace second(*folder, m_file, m_station);
            if (isDue(m_logbook, second, m_now, m_occasion) && begin(*folder)) {
                make(second, all, "backups.made_second");
            }
            return;
        }
        const auto stated = all.stated.find("second-backup");
        if (isFirstDue && stated != all.stated.end() && logbook::isUtf8(stated->second) &&
            begin(stated->second)) {
            fail(stated->second, BackupFailure::elsewhere);
        }
    }

    // Whether it is tried there now: a command is not held up again by what has just failed.
    bool begin(const Path& folder) {
        const auto failure =
            std::ranges::find(m_failures, folder.string(), &BackupFailure::folder);
        if (failure != m_failures.end()) {
            if (m_occasion == Occasion::CommandDone && failure->at <= m_now &&
                m_now.ms - failure->at.ms < hourMs) {
                return false;
            }
            m_failures.erase(failure);
        }
        if (!m_isTried && m_begins &&
            m_logbook.count().value_or(0) > store::rowsPerTransaction) {
            m_begins(m_surroundings.words.say("backups.begun"));
        }
        m_isTried = true;
        return true;
    }

    void make(const BackupPlace& place, const StationSettings& all, std::string_view sentence) {
        const auto& words = m_surroundings.words;
        const auto path = place.pathAt(m_now);
        const auto copied = m_logbook.backup(path);
        // In this very second another program may have made it.
        const bool isThere = !copied && copied.error().code == Code::Exists &&
                             place.newest(m_logbook, {m_now.ms - 1}, m_now) &&
                             place.hasAllOf(m_logbook);
        if (!copied && copied.error().code == Code::NotConfirmed) {
            // It counts, but no other goes for it.
            const auto notice = problemOf(words, copied.error()).notice;
            m_result.made.push_back(path);
            m_result.told.push_back(notice.says + " " + notice.action);
            return;
        }
        if (!copied && !isThere) {
            const bool isNoFolder = copied.error().code == Code::NotFound &&
                                    system::isInWayOfFolder(place.folder());
            fail(place.folder(),
                 isNoFolder ? BackupFailure::inWay : reasonOf(copied.error()));
            return;
        }
        m_result.made.push_back(path);
        auto told = words.say(sentence, {{"path", path.string()}});
        // How many are kept may be what cannot be read.
        const auto kept = all.isUnread ? std::numeric_limits<std::size_t>::max()
                                       : static_cast<std::size_t>(all.settings.backupsKept);
        const auto left = place.keepOnly(kept, m_now, m_logbook);
        if (!left.gone.empty()) {
            told += " " + words.say("backups.gone", {{"names", words.all(left.gone)}});
        }
        m_result.told.push_back(std::move(told));
        auto notCounted = place.notCounted(m_logbook, m_now);
        notCounted.insert(notCounted.end(), left.notWhole.begin(), left.notWhole.end());
        if (!notCounted.empty()) {
            m_result.told.push_back(
                words.say("backups.not_counted", {{"folder", place.folder().string()},
                                                  {"names", words.all(notCounted)}}));
        }
        place.tidy(m_now);
    }

    void fail(const Path& folder, std::string_view why) {
        const BackupFailure failure{std::string(why), folder.string(), m_now};
        m_result.failed = true;
        m_result.told.push_back(sentenceOf(m_surroundings.words, failure));
        m_failures.push_back(failure);
    }

    // Where it cannot be noted, it has been told all the same.
    void note() {
        const auto settings = m_logbook.settings();
        const bool stands = settings && settings->contains(BackupFailure::setting);
        if (m_failures.empty() && !stands) {
            return;
        }
        auto logbook = openLogbook(m_surroundings, m_file, Access::Write);
        if (logbook) {
            (void)logbook->setSetting(
                BackupFailure::setting,
                m_failures.empty() ? std::nullopt : std::optional(textOf(m_failures)),
                {m_surroundings.login, m_now});
        }
    }

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    Instant m_now;
    store::Logbook m_logbook;
    std::optional<std::string> m_station;
    Occasion m_occasion{};
    Begins m_begins;
    std::vector<BackupFailure> m_failures;  // of this run, and of places that it does not try
    bool m_isTried = false;
    AutomaticBackup m_result;
};

}  // namespace

Path backupFolder(const LogbookFile& file) {
    auto folder = file.path;
    folder += ".backups";
    return folder;
}

AutomaticBackup backUpAutomatically(const Surroundings& surroundings, const LogbookFile& file,
                                    Occasion occasion, const Begins& begins) {
    const auto settings = settingsOf(surroundings, file);
    auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!settings || !logbook) {
        return notTried(surroundings.words, settings ? logbook.error() : settings.error());
    }
    if (settings->settings.backupsKept == 0) {
        return {};
    }
    return Backing(surroundings, file, std::move(*logbook))
        .run(*settings, occasion, begins);
}

AutomaticBackup backUpAtClose(const Surroundings& surroundings, const LogbookFile& file,
                              Instant opened) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return notTried(surroundings.words, logbook.error());
    }
    const auto heads = logbook->heads();
    const auto station = logbook->station();
    if (!heads || !station) {
        return notTried(surroundings.words,
                        problemOf(surroundings.words, heads ? station.error() : heads.error()));
    }
    const bool cameIn = std::ranges::any_of(
        *heads, [&](const auto& head) { return head.second.arrived >= opened; });
    const bool isHome = BackupPlace(backupFolder(file), file, *station)
                            .newest(*logbook, beginning, surroundings.clock.now())
                            .has_value();
    return cameIn || isHome ? backUpAutomatically(surroundings, file, Occasion::WindowCloses)
                            : AutomaticBackup{};
}

Result<std::optional<store::Migrated>> bringUpToDate(const Surroundings& surroundings,
                                                     const LogbookFile& file) {
    const auto now = wholeSecond(surroundings.clock.now());
    const auto folder = backupFolder(file);
    const bool wasThere = system::exists(folder);
    if (!system::makeFolder(folder)) {
        return tl::unexpected(problemOf(surroundings.words, system::FileTrouble::NotPermitted,
                                        folder));
    }
    const auto backup =
        folder / (file.path.stem().string() + "-before-" + stampOf(now) + ".logbook");
    auto migrated = store::migrate(file.path, {backup, file.trustLocks},
                                   {surroundings.login, now});
    if (!wasThere && !(migrated && *migrated)) {
        system::removeFile(folder);  // where it is empty
    }
    return std::move(migrated).map_error([&](const store::Trouble& trouble) {
        return problemOf(surroundings.words, trouble);
    });
}

std::optional<std::string> lastBackupTold(const Surroundings& surroundings,
                                          const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    const auto settings = logbook ? logbook->settings() : tl::unexpected(store::Trouble{});
    if (!settings) {
        return std::nullopt;
    }
    auto failures = failuresIn(*settings);
    if (const auto all = settingsOf(surroundings, file)) {
        if (all->isUnread) {
            return surroundings.words.say("backups.place_unread");
        }
        forgetOthers(failures, file, *all);
        const auto& second = all->settings.secondBackup;
        const auto stated = all->stated.find("second-backup");
        if (failures.empty() && second && !system::exists(*second)) {
            failures.push_back(
                {std::string(reasonOf(store::Trouble{Code::NotFound})), *second, {}});
        } else if (failures.empty() && !second && stated != all->stated.end() &&
                   logbook::isUtf8(stated->second)) {
            failures.push_back({BackupFailure::elsewhere, stated->second, {}});
        }
    }
    if (!failures.empty()) {
        std::string told;
        for (const auto& failure : failures) {
            told += (told.empty() ? "" : " ") + sentenceOf(surroundings.words, failure);
        }
        return told;
    }
    const auto last =
        BackupPlace(backupFolder(file), file, logbook->station().value_or(std::nullopt))
            .newest(*logbook, beginning, surroundings.clock.now());
    if (!last) {
        return std::nullopt;
    }
    const auto zone = zoneInForce(surroundings, file);
    return surroundings.words.say(
        "backups.last",
        {{"when", zone ? words::Times(surroundings.words, **zone, surroundings.clock.now())
                             .when(*last)
                       : toText(*last)}});
}

}  // namespace station
