// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Automatic backups; see automatic_backup.h.
#include "station/automatic_backup.h"

#include "logbook/json.h"
#include "logbook/text.h"
#include "station/backup_place.h"
#include "station/given_time.h"
#include "station/settings.h"
#include "station/system.h"
#include "words/times.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using Code = store::Trouble::Code;
using Path = std::filesystem::path;
using logbook::Instant;
using Begins = std::function<void(const std::string&)>;

constexpr std::int64_t hourMs = 3'600'000, dayMs = 24 * hourMs;
constexpr const char* failureKey = "backup.failed";
constexpr const char* elsewhere = "elsewhere";  // of wordOf: the place was not set for this file

// Why none could be made, by a word that is kept and looked up when it is told.
std::string_view wordOf(Code code) {
    switch (code) {
        case Code::DiskFull: return "full";
        case Code::NotFound: return "no_folder";
        case Code::ReadOnly:
        case Code::NotPermitted: return "not_permitted";
        case Code::ChainBroken:
        case Code::Damaged: return "not_sound";
        case Code::Busy: return "busy";
        default: return "other";
    }
}

struct Failure {
    std::string why;  // as of wordOf
    std::string folder;
    Instant at{};
};

json::Value toJson(const Failure& failure) {
    return json::Object{{"why", failure.why},
                        {"folder", failure.folder},
                        {"at", toText(failure.at)}};
}

std::optional<Failure> failureIn(const std::map<std::string, std::string>& settings) {
    const auto found = settings.find(failureKey);
    if (found == settings.end()) {
        return std::nullopt;
    }
    const auto value = json::parse(found->second);
    if (!value) {
        return std::nullopt;
    }
    const auto textOf = [&](std::string_view name) {
        const auto* field = value->find(name);
        return field == nullptr || field->string() == nullptr ? std::string() : *field->string();
    };
    const auto at = logbook::parseInstant(textOf("at"));
    static const std::vector<std::string> known{"full",      "no_folder", "not_permitted",
                                                "not_sound", "busy",      elsewhere,
                                                "other"};
    if (!at || std::ranges::find(known, textOf("why")) == known.end()) {
        return std::nullopt;
    }
    return Failure{textOf("why"), textOf("folder"), *at};
}

std::string sentenceOf(const words::Words& words, const Failure& failure) {
    return words.say("backups.failed", {{"folder", failure.folder}}) + " " +
           words.say("backups_failed." + failure.why) + " " + words.say("backups.safe");
}

// Whether anything came in since the last one, and for how long that has been so.
bool isDue(const store::Logbook& logbook, const std::vector<Instant>& times, Instant now,
           Occasion occasion) {
    const auto heads = logbook.heads();
    if (!heads || heads->empty()) {
        return false;
    }
    Instant latest{}, first{now};
    for (const auto& [station, head] : *heads) {
        latest = std::max(latest, head.arrived);
        if (const auto row = logbook.findRecord({station, 1})) {
            first = std::min(first, row->arrived);
        }
    }
    const bool isNews = std::ranges::none_of(
        times, [&](Instant time) { return time > latest; });
    if (occasion == Occasion::WindowCloses || !isNews) {
        return isNews;
    }
    const Instant aDayAgo{now.ms - dayMs};
    return first <= aDayAgo && std::ranges::none_of(times, [&](Instant time) {
               return time > aDayAgo && time <= now;
           });
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
        const auto& settings = all.settings;
        const BackupPlace first(backupFolder(m_file), m_file, m_station);
        if (!isDue(m_logbook, first.times(), m_now, occasion) || triedOfLate(occasion)) {
            return {};
        }
        if (begins && m_logbook.count().value_or(0) > store::rowsPerTransaction) {
            begins(m_surroundings.words.say("backups.begun"));
        }
        if (!system::makeFolder(first.folder())) {
            fail(first.folder(), "not_permitted");
        } else {
            make(first, settings.backupsKept, "backups.made");
        }
        if (settings.secondBackup) {
            make(BackupPlace(*settings.secondBackup, m_file, m_station), settings.backupsKept,
                 "backups.made_second");
        } else if (const auto stated = all.stated.find("second-backup");
                   stated != all.stated.end() && logbook::isUtf8(stated->second)) {
            fail(stated->second, elsewhere);
        }
        note();
        return std::move(m_result);
    }

private:
    // A command is not held up again by what has just failed.
    [[nodiscard]] bool triedOfLate(Occasion occasion) const {
        const auto settings = m_logbook.settings();
        const auto failure = settings ? failureIn(*settings) : std::nullopt;
        return occasion == Occasion::CommandDone && failure && failure->at <= m_now &&
               m_now.ms - failure->at.ms < hourMs;
    }

    void make(const BackupPlace& place, int kept, std::string_view sentence) {
        auto copied = m_logbook.backup(place.pathAt(m_now));
        if (!copied && copied.error().code != Code::Exists) {
            fail(place.folder(), wordOf(copied.error().code));
            return;
        }
        m_result.made.push_back(place.pathAt(m_now));
        m_result.told.push_back(m_surroundings.words.say(
            sentence, {{"path", place.pathAt(m_now).string()}}));
        place.keepOnly(static_cast<std::size_t>(kept), m_now, m_logbook);
        place.tidy(m_now);
    }

    void fail(const Path& folder, std::string_view why) {
        m_failure = Failure{std::string(why), folder.string(), m_now};
        m_result.failed = true;
        m_result.told.push_back(sentenceOf(m_surroundings.words, *m_failure));
    }

    // Where it cannot be noted, it has been told all the same.
    void note() {
        const auto settings = m_logbook.settings();
        const bool stands = settings && settings->contains(failureKey);
        if (!m_failure && !stands) {
            return;
        }
        auto logbook = openLogbook(m_surroundings, m_file, Access::Write);
        if (logbook) {
            (void)logbook->setSetting(
                failureKey,
                m_failure ? std::optional(json::canonical(toJson(*m_failure))) : std::nullopt,
                {m_surroundings.login, m_now});
        }
    }

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    Instant m_now;
    store::Logbook m_logbook;
    std::optional<std::string> m_station;
    std::optional<Failure> m_failure;
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
    if (!settings || !logbook || settings->settings.backupsKept == 0) {
        return {};
    }
    return Backing(surroundings, file, std::move(*logbook))
        .run(*settings, occasion, begins);
}

AutomaticBackup backUpAtClose(const Surroundings& surroundings, const LogbookFile& file,
                              Instant opened) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    const auto heads = logbook ? logbook->heads() : tl::unexpected(store::Trouble{});
    const auto station = logbook ? logbook->station() : tl::unexpected(store::Trouble{});
    if (!heads || !station) {
        return {};
    }
    const bool cameIn = std::ranges::any_of(
        *heads, [&](const auto& head) { return head.second.arrived >= opened; });
    const bool isHome = !BackupPlace(backupFolder(file), file, *station).times().empty();
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
    if (const auto failure = failureIn(*settings)) {
        return sentenceOf(surroundings.words, *failure);
    }
    const auto times =
        BackupPlace(backupFolder(file), file, logbook->station().value_or(std::nullopt)).times();
    if (times.empty()) {
        return std::nullopt;
    }
    const auto zone = zoneInForce(surroundings, file);
    return surroundings.words.say(
        "backups.last",
        {{"when", zone ? words::Times(surroundings.words, **zone, surroundings.clock.now())
                             .when(times.back())
                       : toText(times.back())}});
}

}  // namespace station
