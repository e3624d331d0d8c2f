// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking at what stands in the place of a backup; see in_place.h.
#include "store/in_place.h"

#include "store/connection.h"
#include "store/heads_check.h"
#include "store/raw_rows.h"

#include <algorithm>
#include <string>
#include <utility>

namespace store {

namespace {

using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

// By what stands in its pages: of each station the last number there, and no hash.
Heads headsInPages(const Path& path) {
    const RawRows rows(path);
    Heads heads;
    const auto add = [&](const std::string& station, std::int64_t seq) {
        auto& last = heads[station].seq;
        last = std::max(last, seq);
    };
    for (const auto& record : rows.records()) {
        add(record.station, record.seq);
    }
    for (const auto& head : rows.heads()) {
        add(head.station, head.seq);
    }
    return heads;
}

// Of a logbook of another schema, if that still has the table of heads.
Heads headsOfOther(const Path& path, bool trustLocks) {
    const auto connection = Connection::open(path, {Access::Read, trustLocks}, Schemas::Any);
    if (!connection) {
        return {};
    }
    const auto heads = (*connection)->guarded([&]() -> tl::expected<Heads, Trouble> {
        return notedHeads((*connection)->database());
    });
    return heads.value_or(Heads{});
}

// Whether a record of the logbook is another than that head; where it is damaged that is not known.
tl::expected<bool, Trouble> hasOthers(const Logbook& logbook, const Heads& heads) {
    const auto breaks = breaksAgainst(logbook, heads);
    if (!breaks && !isUnknown(breaks.error().code)) {
        return tl::unexpected<Trouble>(breaks.error());
    }
    return breaks && std::ranges::any_of(*breaks, [](const Break& found) {
        return found.reason == Break::Reason::NotAsNoted;
    });
}

tl::expected<bool, Trouble> differ(const Logbook& inPlace, const Heads& heads,
                                   const Proved& backup) {
    const auto copy = Logbook::open(backup.path, {Access::Read, true});
    if (!copy) {
        return tl::unexpected<Trouble>(copy.error());
    }
    const auto there = hasOthers(inPlace, backup.heads);
    return there && !*there ? hasOthers(*copy, heads) : there;
}

bool sharesStation(const Heads& one, const Heads& other) {
    return std::ranges::any_of(one,
                               [&](const auto& each) { return other.contains(each.first); });
}

}  // namespace

bool isUnknown(Code code) {
    return code == Code::Damaged || code == Code::NotALogbook || code == Code::NewerSchema;
}

std::optional<std::int64_t> InPlace::laterThan(const Heads& backup) const {
    if (heads.empty() && !isWhole) {
        return std::nullopt;
    }
    std::int64_t later = 0;
    for (const auto& [station, head] : heads) {
        const auto found = backup.find(station);
        const auto kept = found == backup.end() ? 0 : found->second.seq;
        later += std::max<std::int64_t>(0, head.seq - kept);
    }
    return later;
}

tl::expected<InPlace, Trouble> lookAt(const Path& path, bool trustLocks, const Proved& backup) {
    InPlace inPlace;
    const auto logbook = Logbook::open(path, {Access::Read, trustLocks});
    const auto heads = logbook ? logbook->heads() : tl::unexpected(logbook.error());
    if (heads) {
        inPlace.heads = headsOf(*heads);
        inPlace.isWhole = !logbook->metDamage();
        const auto isOther = differ(*logbook, inPlace.heads, backup);
        if (!isOther) {
            return tl::unexpected<Trouble>(isOther.error());
        }
        inPlace.isOther = *isOther;
    } else if (heads.error().code == Code::NewerSchema) {
        inPlace.heads = headsOfOther(path, trustLocks);
        inPlace.isWhole = !inPlace.heads.empty();
    } else if (!isUnknown(heads.error().code)) {
        return tl::unexpected<Trouble>(heads.error());
    }
    if (inPlace.heads.empty() && !inPlace.isWhole) {
        inPlace.heads = headsInPages(path);
    }
    const bool isStrange = !inPlace.heads.empty() && !backup.heads.empty() &&
                           !sharesStation(inPlace.heads, backup.heads);
    inPlace.isOther = inPlace.isOther || isStrange;
    return inPlace;
}

}  // namespace store
