// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding the units of a serial in the text of the records; see serial_log.h.
#include "station/serial_log.h"

#include "rules/trace_alike.h"
#include "station/units_log.h"

#include <string_view>
#include <utility>

namespace station {

namespace {

// Whether canonical JSON states a serial that may be the one wanted. One that has to be written
// with a backslash counts as such; to look at a record too many does no harm.
bool mayState(std::string_view content, const std::string& wanted) {
    constexpr std::string_view before = R"("serial":")";
    for (auto place = content.find(before); place != std::string_view::npos;
         place = content.find(before, place)) {
        place += before.size();
        const auto end = content.find('"', place);
        const auto serial = content.substr(place, end - place);
        if (serial.find('\\') != std::string_view::npos || rules::isSerialOf(serial, wanted)) {
            return true;
        }
    }
    return false;
}

// With the department's, "".
Result<Devices> devicesOf(const Surroundings& surroundings, const store::Logbook& logbook,
                          const std::string& serial) {
    Devices devices{""};
    const auto read = logbook.forEachContent(
        {"fit", "reprocess"}, [&](std::string_view device, std::string_view content) {
            if (!devices.contains(device) && mayState(content, serial)) {
                devices.emplace(device);
            }
        });
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    return devices;
}

}  // namespace

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
    if (*log == nullptr) {
        return wholeStanding(surroundings, file, asked);
    }
    return WholeStanding{std::move(*whole), std::move(*log)};
}

}  // namespace station
