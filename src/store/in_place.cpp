// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking at what stands in the place of a backup; see in_place.h.
#include "store/in_place.h"

#include "logbook/record_reader.h"
#include "store/connection.h"
#include "store/raw_rows.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace store {

namespace {

using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

// How many records of each station the backup does not have.
using Lacking = std::map<std::string, std::int64_t>;

constexpr std::int64_t highest = std::numeric_limits<std::int64_t>::max();

// Of counts; what a damaged or a stranger's file says may be more than can be counted.
std::int64_t sumOf(std::int64_t one, std::int64_t other) {
    return one > highest - other ? highest : one + other;
}

std::int64_t sumOf(const Lacking& lacking) {
    std::int64_t sum = 0;
    for (const auto& [station, count] : lacking) {
        sum = sumOf(sum, count);
    }
    return sum;
}

// How many records of a station come after the one and up to the other; the first is 1.
std::int64_t countBetween(std::int64_t after, std::int64_t last) {
    after = std::max<std::int64_t>(after, 0);
    return last > after ? last - after : 0;
}

// By their numbers alone.
Lacking lackingBy(const Heads& heads, const Heads& backup) {
    Lacking lacking;
    for (const auto& [station, head] : heads) {
        const auto kept = backup.find(station);
        const auto last = kept == backup.end() ? 0 : kept->second.seq;
        lacking[station] = countBetween(last, head.seq);
    }
    return lacking;
}

// By what stands in its pages: of each station the last number there, and no hash.
class InPages {
public:
    InPages(const Path& path, const Logbook& backup) : m_rows(path), m_backup(backup) {}

    InPlace look(const Heads& backupHeads) {
        for (const auto& record : m_rows.records()) {
            add(std::string(record.station), record.seq);
            if (m_seen.insert({record.station, record.seq}).second && isLacking(record)) {
                ++m_lacking[std::string(record.station)];
            }
        }
        for (const auto& head : m_rows.heads()) {
            add(head.station, head.seq);
        }
        for (const auto& [station, count] : lackingBy(m_inPlace.heads, backupHeads)) {
            m_lacking[station] = std::max(m_lacking[station], count);
        }
        if (!m_inPlace.heads.empty()) {
            m_inPlace.later = sumOf(m_lacking);
        }
        return std::move(m_inPlace);
    }

private:
    void add(const std::string& station, std::int64_t seq) {
        auto& last = m_inPlace.heads[station].seq;
        last = std::max(last, seq);
    }

    // A row that is damaged itself says nothing: only a whole record counts as another one.
    bool isLacking(const RawRecord& record) {
        const auto kept = m_backup.findRecord({std::string(record.station), record.seq});
        if (!kept) {
            return kept.error().code == Code::NoRecord;
        }
        if (kept->hash == record.hash) {
            return false;
        }
        const auto content = m_rows.contentOf(record);
        const auto read = logbook::readRecord(std::string_view(content));
        const bool isOther = read && read->content == content && content != kept->content &&
                             read->name == kept->place.name;
        m_inPlace.isOther = m_inPlace.isOther || isOther;
        return isOther;
    }

    RawRows m_rows;
    const Logbook& m_backup;
    std::set<std::pair<std::string_view, std::int64_t>> m_seen;
    Lacking m_lacking;
    InPlace m_inPlace;
};

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

// Whether the two logs have another record of that name; where one cannot be read that is not
// known.
tl::expected<bool, Trouble> differAt(const logbook::RecordName& name, const Logbook& one,
                                     const Logbook& other) {
    std::vector<Row> rows;
    for (const auto* logbook : {&one, &other}) {
        auto row = logbook->findRecord(name);
        const bool isUnread = row ? row->content.empty()
                                  : row.error().code == Code::NoRecord ||
                                        isUnknown(row.error());
        if (isUnread) {
            return false;
        }
        if (!row) {
            return tl::unexpected<Trouble>(row.error());
        }
        rows.push_back(*std::move(row));
    }
    return rows.front().hash != rows.back().hash;
}

// Up to which number both have the same, since a hash stands for all before it.
tl::expected<std::int64_t, Trouble> commonUpTo(logbook::RecordName last, const Logbook& one,
                                               const Logbook& other) {
    std::int64_t same = 0;
    std::int64_t differs = sumOf(last.seq, 1);
    for (std::int64_t seq = last.seq; differs - same > 1; seq = same + (differs - same) / 2) {
        const auto isOther = differAt({last.station, seq}, one, other);
        if (!isOther) {
            return tl::unexpected<Trouble>(isOther.error());
        }
        (*isOther ? differs : same) = seq;
    }
    return same;
}

tl::expected<void, Trouble> compare(InPlace& inPlace, const Logbook& logbook,
                                    const Logbook& backup, const Heads& backupHeads) {
    std::int64_t later = 0;
    for (const auto& [station, head] : inPlace.heads) {
        const auto kept = backupHeads.find(station);
        const auto both = kept == backupHeads.end() ? 0 : std::min(kept->second.seq, head.seq);
        const auto common = commonUpTo({station, both}, logbook, backup);
        if (!common) {
            return tl::unexpected<Trouble>(common.error());
        }
        inPlace.isOther = inPlace.isOther || *common < both;
        later = sumOf(later, countBetween(*common, head.seq));
    }
    inPlace.later = later;
    return {};
}

// Whether each record can be read, and the last verify was of that mind.
tl::expected<bool, Trouble> readsThrough(const Logbook& logbook) {
    const auto verified = logbook.lastVerification();
    if (!verified && !isUnknown(verified.error())) {
        return tl::unexpected<Trouble>(verified.error());
    }
    const auto read = logbook.forEachRow({}, [&](const Row&) { return !logbook.metDamage(); });
    if (!read && !isUnknown(read.error())) {
        return tl::unexpected<Trouble>(read.error());
    }
    return read && verified && !logbook.metDamage() && (!*verified || (*verified)->ok);
}

bool sharesStation(const Heads& one, const Heads& other) {
    return std::ranges::any_of(one,
                               [&](const auto& each) { return other.contains(each.first); });
}

}  // namespace

bool isUnknown(Code code) {
    return code == Code::Damaged || code == Code::NotALogbook || code == Code::OtherSchema;
}

bool isUnknown(const Trouble& trouble) {
    return trouble.isUnread || isUnknown(trouble.code);
}

void InPlace::goOnTo(const Heads& now) {
    for (const auto& [station, head] : now) {
        auto& known = heads[station];
        if (head.seq > known.seq) {
            later = sumOf(later.value_or(0), countBetween(known.seq, head.seq));
            known = head;
        }
    }
}

tl::expected<InPlace, Trouble> lookAt(const Path& path, bool trustLocks, const Proved& backup) {
    const auto copy = Logbook::open(backup.path, {Access::Read, true});
    if (!copy) {
        return tl::unexpected<Trouble>(copy.error());
    }
    InPlace inPlace;
    const auto logbook = Logbook::open(path, {Access::Read, trustLocks});
    const auto heads = logbook ? logbook->heads() : tl::unexpected(logbook.error());
    if (heads) {
        inPlace.heads = headsOf(*heads);
        const auto isWhole = readsThrough(*logbook);
        const auto compared = isWhole ? compare(inPlace, *logbook, *copy, backup.heads)
                                      : tl::unexpected(isWhole.error());
        if (!compared) {
            return tl::unexpected<Trouble>(compared.error());
        }
        inPlace.isWhole = *isWhole;
    } else if (heads.error().code == Code::OtherSchema) {
        inPlace.goOnTo(headsOfOther(path, trustLocks));
        inPlace.isWhole = !inPlace.heads.empty();
        inPlace.later = sumOf(lackingBy(inPlace.heads, backup.heads));
    } else if (!isUnknown(heads.error())) {
        return tl::unexpected<Trouble>(heads.error());
    }
    if (inPlace.heads.empty() && !inPlace.isWhole) {
        inPlace = InPages(path, *copy).look(backup.heads);
    }
    const bool isStrange = !inPlace.heads.empty() && !backup.heads.empty() &&
                           !sharesStation(inPlace.heads, backup.heads);
    inPlace.isOther = inPlace.isOther || isStrange;
    return inPlace;
}

}  // namespace store
