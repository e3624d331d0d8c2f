// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Handing out records; see import.h.
#include "station/import.h"

#include "store/proven_records.h"

#include <algorithm>
#include <map>
#include <utility>

namespace station {

namespace {

using logbook::Record;
using Numbers = std::map<std::string, std::int64_t>;  // by station

// A clock that was set back must not leave a gap, which no import takes: hence from the first
// record on, whatever follows.
Numbers firstSince(const std::vector<Record>& records, logbook::Instant since) {
    Numbers first;
    for (const auto& record : records) {
        if (record.entered >= since) {
            const auto place = first.emplace(record.name.station, record.name.seq).first;
            place->second = std::min(place->second, record.name.seq);
        }
    }
    return first;
}

void keepSince(std::vector<Record>& records, logbook::Instant since) {
    const auto first = firstSince(records, since);
    std::erase_if(records, [&](const Record& record) {
        const auto place = first.find(record.name.station);
        return place == first.end() || record.name.seq < place->second;
    });
}

std::vector<logbook::RecordName> lastOf(const std::vector<Record>& records) {
    Numbers last;
    for (const auto& record : records) {
        auto& seq = last[record.name.station];
        seq = std::max(seq, record.name.seq);
    }
    std::vector<logbook::RecordName> names;
    for (const auto& [station, seq] : last) {
        names.push_back({station, seq});
    }
    return names;
}

}  // namespace

Result<ExportAnswer> exportRecords(const Surroundings& surroundings, const LogbookFile& file,
                                   const ExportSelection& selection) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto heads = logbook->heads();
    if (!heads) {
        return tl::unexpected(problemOf(surroundings.words, heads.error()));
    }
    for (const auto& station : selection.stations) {
        if (!heads->contains(station)) {
            return tl::unexpected(problemOf(surroundings.words, "export.unknown_station",
                                            {{"station", station}}));
        }
    }
    auto proven = store::provenRecords(*logbook);
    if (!proven) {
        return tl::unexpected(problemOf(surroundings.words, proven.error()));
    }
    auto& records = proven->records;
    if (!selection.stations.empty()) {
        const auto isUnasked = [&](const logbook::RecordName& name) {
            return std::ranges::find(selection.stations, name.station) ==
                   selection.stations.end();
        };
        std::erase_if(records, [&](const auto& record) { return isUnasked(record.name); });
        std::erase_if(proven->breaks, [&](const auto& found) {
            return !found.record.station.empty() && isUnasked(found.record);
        });
    }
    if (selection.since) {
        keepSince(records, *selection.since);
    }
    const auto& redaction = selection.redaction;
    auto bytes = redaction.withoutNames || redaction.coarsePlaces
                     ? exchange::writeRedacted(records, redaction)
                     : exchange::writeRecordFile(records);
    return ExportAnswer{std::move(bytes), records.size(), lastOf(records),
                        std::move(proven->breaks), logbook->metDamage(), logbook->metRefusal()};
}

}  // namespace station
