// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding the units of a serial in the text of the records; see serial_log.h.
#include "station/serial_log.h"

#include "rules/trace_alike.h"
#include "station/units_log.h"

#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace station {

namespace {

// With the department's, "".
Result<Devices> devicesOf(const Surroundings& surroundings, const store::Logbook& logbook,
                          const std::string& serial) {
    Devices devices{""};
    const auto isWanted = [&](std::string_view stated) {
        return rules::isSerialOf(stated, serial);
    };
    const auto read = logbook.forEachContent(
        {"fit", "reprocess"}, [&](std::string_view device, std::string_view content) {
            if (!devices.contains(device) && mayStateSerial(content, isWanted)) {
                devices.emplace(device);
            }
        });
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    return devices;
}

// Whether none of their records lacks in that log, counted among all that came in: the index that
// leads to the records of a unit need not lead to each.
Result<bool> hasAllOf(const Surroundings& surroundings, const store::Logbook& logbook,
                      const WholeLog& log, const Devices& devices) {
    std::vector<std::string> kinds;
    for (int kind = 0; kind < logbook::kindCount; ++kind) {
        kinds.emplace_back(kindName(static_cast<logbook::Kind>(kind)));
    }
    std::int64_t lacking = 0;
    const auto read = logbook.forEachContent(
        kinds,
        [&](std::string_view device, std::string_view) {
            lacking += devices.contains(device) ? 1 : 0;
        },
        log.arrival);
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    for (const auto& record : log.log.records()) {
        lacking -= devices.contains(record.device) ? 1 : 0;
    }
    return lacking <= 0;
}

}  // namespace

bool mayState(std::string_view attribute, std::string_view content,
              const std::function<bool(std::string_view)>& isWanted) {
    const auto before = '"' + std::string(attribute) + R"(":")";
    for (auto place = content.find(before); place != std::string_view::npos;
         place = content.find(before, place)) {
        place += before.size();
        const auto end = content.find('"', place);
        const auto stated = content.substr(place, end - place);
        if (stated.find('\\') != std::string_view::npos || isWanted(stated)) {
            return true;
        }
    }
    return false;
}

bool mayStateSerial(std::string_view content,
                    const std::function<bool(std::string_view)>& isWanted) {
    return mayState("serial", content, isWanted);
}

Result<WholeStanding> standingForSerial(const Surroundings& surroundings, const LogbookFile& file,
                                        const Asked& asked, const std::string& serial) {
    auto whole = standing(surroundings, file, asked);
    if (!whole) {
        return tl::unexpected(std::move(whole.error()));
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto devices = devicesOf(surroundings, *logbook, serial);
    if (!devices) {
        return tl::unexpected(devices.error());
    }
    auto log = logOfUnits(surroundings, *logbook, *whole, *devices);
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    const auto isAll = *log == nullptr ? Result<bool>(false)
                                       : hasAllOf(surroundings, *logbook, **log, *devices);
    if (!isAll) {
        return tl::unexpected(isAll.error());
    }
    // What could not be read may be of that part, and is named where all is read.
    if (!*isAll || logbook->metDamage()) {
        return wholeStanding(surroundings, file, asked);
    }
    return WholeStanding{std::move(*whole), std::move(*log)};
}

}  // namespace station
