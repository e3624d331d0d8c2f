// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of backups, and which may go; see backup_place.h.
#include "station/backup_place.h"

#include "logbook/text.h"
#include "station/file_kind.h"
#include "station/system.h"

#include <algorithm>
#include <functional>
#include <string_view>
#include <utility>

namespace station {

namespace {

using logbook::Instant;

constexpr std::int64_t secondMs = 1000, dayMs = 24 * 3600 * secondMs;
constexpr std::string_view ending = ".logbook";
constexpr std::size_t stampLength = 16;  // of stampOf

std::optional<Instant> instantOfStamp(std::string_view stamp) {
    std::string text(stamp);
    for (const auto& [place, letter] : {std::pair<std::size_t, char>{13, ':'},
                                       {11, ':'}, {6, '-'}, {4, '-'}}) {
        text.insert(place, 1, letter);
    }
    return logbook::parseInstant(text);
}

// A backup: a plain file, since a link may lead to the logbook itself, and one without a station.
// Nobody writes into it, so that no lock need be trusted.
std::optional<store::Logbook> backupAt(const std::filesystem::path& path) {
    if (system::kindOf(path) != system::FileKind::Plain) {
        return std::nullopt;
    }
    auto backup = store::Logbook::open(path, {.access = Access::Read, .trustLocks = true});
    const auto station = backup ? backup->station() : tl::unexpected(backup.error());
    if (!station || *station) {
        return std::nullopt;
    }
    return std::move(*backup);
}

// Whether each record of the one is in the other as well.
bool holdsAllOf(const store::Logbook& holder, const store::Logbook& held) {
    const auto heads = held.heads();
    return heads && !heads->empty() && std::ranges::all_of(*heads, [&](const auto& each) {
        const auto& head = each.second.head;
        const auto row = holder.findRecord({each.first, head.seq});
        return row && row->hash == head.hash;
    });
}

// As far as can be seen without reading it all: the records that it notes as the last are there,
// and as many as they say.
bool looksWhole(const store::Logbook& backup) {
    const auto heads = backup.heads();
    const auto last = backup.lastArrival();
    if (!heads || !last) {
        return false;
    }
    std::int64_t noted = 0;
    for (const auto& [station, head] : *heads) {
        // More than there are may be more than can be counted.
        if (head.head.seq < 0 || head.head.seq > *last - noted) {
            return false;
        }
        noted += head.head.seq;
    }
    return noted == *last && holdsAllOf(backup, backup) && !backup.metDamage();
}

bool counts(const store::Logbook& logbook, const std::filesystem::path& path) {
    const auto backup = backupAt(path);
    return backup && looksWhole(*backup) && holdsAllOf(logbook, *backup);
}

bool isProven(const std::filesystem::path& path) {
    const auto backup = backupAt(path);
    const auto report = backup ? backup->verify() : tl::unexpected(store::Trouble{});
    return report && report->ok();
}

// Read through in a moment.
bool isSmall(const std::filesystem::path& path) {
    constexpr std::uintmax_t mostBytes = 8U << 20;
    std::error_code error;
    const auto bytes = std::filesystem::file_size(path, error);
    return !error && bytes <= mostBytes;
}

// What came to harm in the file, or was put there, would be part of a path.
bool isName(const std::optional<std::string>& station) {
    return station && logbook::isStationName(*station);
}

}  // namespace

Instant wholeSecond(Instant at) {
    return {at.ms - (at.ms % secondMs + secondMs) % secondMs};
}

std::string stampOf(Instant at) {
    auto text = toText(at);
    std::erase_if(text, [](char letter) { return letter == '-' || letter == ':'; });
    return text;
}

BackupPlace::BackupPlace(std::filesystem::path folder, const LogbookFile& file,
                         const std::optional<std::string>& station)
    : m_folder(std::move(folder)),
      m_beginning(file.path.stem().string() + "-" + (isName(station) ? *station + "-" : "")) {}

std::filesystem::path BackupPlace::pathAt(Instant at) const {
    return m_folder / (m_beginning + stampOf(at) + std::string(ending));
}

std::vector<Instant> BackupPlace::times() const {
    std::vector<Instant> times;
    for (const auto& name : system::namesIn(m_folder)) {
        const auto at = timeIn(name);
        if (at && name.size() == m_beginning.size() + stampLength + ending.size()) {
            times.push_back(*at);
        }
    }
    std::ranges::sort(times, std::greater());
    return times;
}

std::optional<Instant> BackupPlace::newest(const store::Logbook& logbook, Instant after,
                                           Instant until) const {
    const auto all = times();
    const auto found = std::ranges::find_if(all, [&](Instant at) {
        return at > after && at <= until && counts(logbook, pathAt(at));
    });
    return found == all.end() ? std::nullopt : std::optional(*found);
}

bool BackupPlace::hasAllOf(const store::Logbook& logbook) const {
    return std::ranges::any_of(times(), [&](Instant at) {
        const auto backup = backupAt(pathAt(at));
        return backup && looksWhole(*backup) && holdsAllOf(*backup, logbook);
    });
}

std::vector<std::string> BackupPlace::notCounted(const store::Logbook& logbook,
                                                 Instant now) const {
    std::vector<std::string> names;
    for (const auto at : times()) {
        if (at > now || !counts(logbook, pathAt(at))) {
            names.push_back(pathAt(at).filename().string());
        }
    }
    return names;
}

BackupPlace::Kept BackupPlace::keepOnly(std::size_t count, Instant last,
                                        const store::Logbook& logbook) const {
    Kept kept;
    auto all = times();
    if (all.size() <= count) {
        return kept;
    }
    std::erase(all, last);
    (void)std::ranges::stable_partition(all, [&](Instant at) { return at < last; });
    std::size_t staying = 1;
    for (const auto at : all) {
        const auto path = pathAt(at);
        if (!counts(logbook, path)) {
            continue;
        }
        const bool goes = staying >= count;
        if ((goes || staying == 1 || isSmall(path)) && !isProven(path)) {
            kept.notWhole.push_back(path.filename().string());
        } else if (!goes) {
            ++staying;
        } else {
            system::removeFile(path);
            if (!system::exists(path)) {
                kept.gone.push_back(path.filename().string());
            }
        }
    }
    return kept;
}

void BackupPlace::tidy(Instant now) const {
    for (const auto& name : system::namesIn(m_folder)) {
        const auto at = timeIn(name);
        if (at && at->ms < now.ms - dayMs && name.find(".unfinished-") != std::string::npos) {
            system::removeFile(m_folder / name);
        }
    }
}

std::optional<Instant> BackupPlace::timeIn(const std::string& name) const {
    if (!name.starts_with(m_beginning) ||
        name.find(ending, m_beginning.size()) != m_beginning.size() + stampLength) {
        return std::nullopt;
    }
    return instantOfStamp(std::string_view(name).substr(m_beginning.size(), stampLength));
}

}  // namespace station
