// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading what is about some units alone; see units_log.h.
#include "station/units_log.h"

#include "report/provenance.h"
#include "station/gathered_records.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace station {

namespace {

// Of those units, as they came in up to that arrival; any strike may be of one of their records.
// Nothing if one cannot be read.
Result<std::vector<logbook::Record>> recordsOf(const Surroundings& surroundings,
                                               const store::Logbook& logbook,
                                               std::int64_t arrival, const Devices& devices) {
    GatheredRecords gathering(surroundings, logbook);
    auto read =
        gathering.add({.arrivedUpTo = arrival, .kinds = store::Selection::Kinds::Strikes});
    for (auto device = devices.begin(); read && device != devices.end(); ++device) {
        read = gathering.add({.device = *device, .arrivedUpTo = arrival});
    }
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    return gathering.hasReadAll() ? gathering.take() : std::vector<logbook::Record>();
}

// Whether `take` holds of each record on which it rests.
template <class Take>
bool allOf(const rules::Device& device, Take take) {
    const auto takeIf = [&](const std::optional<rules::RecordRef>& ref) {
        return !ref || take(*ref);
    };
    const auto takeRecord = [&](const auto& each) { return take(each.second.record); };
    return take(device.enrolled) && takeIf(device.last) &&
           (!device.use || take(device.use->start)) &&
           std::ranges::all_of(device.fitted,
                               [&](const auto& each) { return take(each.second.fit); }) &&
           std::ranges::all_of(device.holds, takeRecord) &&
           std::ranges::all_of(device.faults, takeRecord) &&
           std::ranges::all_of(device.waivers, takeRecord) &&
           std::ranges::all_of(device.noticesDone,
                               [&](const auto& each) { return take(each.second); }) &&
           std::ranges::all_of(device.services,
                               [&](const auto& each) {
                                   const rules::ServiceState& service = each.second;
                                   return takeIf(service.lastPass) && takeIf(service.lastResult) &&
                                          takeIf(service.triggered);
                               }) &&
           std::ranges::all_of(device.checks, [&](const auto& each) {
               const rules::CheckState& check = each.second;
               return takeIf(check.last) && takeIf(check.lastFailure) && takeIf(check.voided) &&
                      (!check.discounted || take(check.discounted->record));
           });
}

words::RecordLookup lookupInBoth(std::shared_ptr<const WholeLog> log, words::RecordLookup other) {
    return [log = std::move(log), other = std::move(other)](
               const logbook::RecordName& name) -> const logbook::Record* {
        const auto index = log->log.find(name);
        return index ? &log->log.records()[*index] : other(name);
    };
}

}  // namespace

bool hasWhatRestsOn(const rules::State& state, const Devices& devices,
                    const std::function<bool(const logbook::RecordName&)>& has) {
    return std::ranges::all_of(devices, [&](const std::string& serial) {
        const auto* device = state.device(serial);
        return device == nullptr ||
               allOf(*device, [&](const rules::RecordRef& ref) { return has(ref.name); });
    });
}

Result<std::shared_ptr<const WholeLog>> logOfUnits(const Surroundings& surroundings,
                                                   const store::Logbook& logbook,
                                                   const Standing& standing,
                                                   const Devices& devices) {
    auto records = recordsOf(surroundings, logbook, standing.facts.arrival, devices);
    if (!records) {
        return tl::unexpected(std::move(records.error()));
    }
    if (records->empty() || !standing.facts.unread.empty()) {
        return std::shared_ptr<const WholeLog>();
    }
    auto log = std::make_shared<const WholeLog>(
        WholeLog{standing.facts, rules::Log(std::move(*records), surroundings.zones)});
    const auto has = [&](const logbook::RecordName& name) {
        if (log->log.find(name)) {
            return true;
        }
        const auto* record = standing.lookup(name);
        return record != nullptr && !devices.contains(record->device);
    };
    return hasWhatRestsOn(standing.state, devices, has) ? log : nullptr;
}

Result<WholeStanding> withLogOf(const Surroundings& surroundings, const LogbookFile& file,
                                const Standing& standing, const std::string& device) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    auto log = logOfUnits(surroundings, *logbook, standing, {"", device});
    if (log && *log == nullptr) {
        log = readWholeLog(surroundings, file).map([](WholeLog&& whole) {
            return std::make_shared<const WholeLog>(std::move(whole));
        });
    }
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    WholeStanding about{standing, *log};
    about.lookup = lookupInBoth(std::move(*log), standing.lookup);
    return about;
}

}  // namespace station
