// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding the units of a serial in the text of the records, and reading what is about them; see
// serial_log.h.
#include "station/serial_log.h"

#include "rules/trace_alike.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

namespace station {

namespace {

using Devices = std::set<std::string, std::less<>>;

constexpr std::size_t recordsAtOnce = 500;

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

class Gathering {
public:
    Gathering(const Surroundings& surroundings, const store::Logbook& logbook)
        : m_surroundings(surroundings), m_logbook(logbook), m_portion(recordsAtOnce) {}

    // All of the selection that is not of one of the devices.
    Result<void> add(store::Selection selection, const Devices& but = {}) {
        for (;;) {
            const auto count = m_logbook.readRecords(selection, m_portion);
            if (!count) {
                return tl::unexpected(problemOf(m_surroundings.words, count.error()));
            }
            for (std::size_t index = 0; index < *count; ++index) {
                auto& each = m_portion[index];
                m_allRead = m_allRead && each.whole;
                if (each.whole && !but.contains(each.record.device)) {
                    m_records.push_back(std::move(each.record));
                }
            }
            if (*count < m_portion.size()) {
                return {};
            }
            selection.after = m_portion.back().place;
        }
    }

    [[nodiscard]] bool hasReadAll() const { return m_allRead; }
    [[nodiscard]] std::vector<logbook::Record> take() { return std::move(m_records); }

private:
    const Surroundings& m_surroundings;
    const store::Logbook& m_logbook;
    std::vector<store::ReadRecord> m_portion;
    std::vector<logbook::Record> m_records;
    bool m_allRead = true;
};

// Of those units; any strike may be of one of their records. Nothing if one cannot be read.
Result<std::vector<logbook::Record>> recordsOf(const Surroundings& surroundings,
                                               const store::Logbook& logbook,
                                               const Devices& devices) {
    Gathering gathering(surroundings, logbook);
    auto read = gathering.add({.kinds = store::Selection::Kinds::Strikes}, devices);
    for (auto device = devices.begin(); read && device != devices.end(); ++device) {
        read = gathering.add({.device = *device});
    }
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    return gathering.hasReadAll() ? gathering.take() : std::vector<logbook::Record>();
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
    auto records = recordsOf(surroundings, *logbook, *devices);
    if (!records) {
        return tl::unexpected(std::move(records.error()));
    }
    if (records->empty() || !whole->facts.unread.empty()) {
        return wholeStanding(surroundings, file, asked);
    }
    WholeStanding standing{std::move(*whole), {}};
    standing.log = std::make_shared<const WholeLog>(
        WholeLog{standing.facts, rules::Log(std::move(*records), surroundings.zones)});
    return standing;
}

}  // namespace station
