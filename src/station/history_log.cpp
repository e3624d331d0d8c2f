// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading what other units tell of the parts of one; see history_log.h.
#include "station/history_log.h"

#include "station/serial_log.h"
#include "station/units_log.h"

#include <string_view>
#include <utility>

namespace station {

namespace {

using logbook::Kind;

const std::string* serialOf(const logbook::Record& record) {
    const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
    if (fit == nullptr) {
        return nullptr;
    }
    const auto serial = fit->part.attributes.find("serial");
    return serial == fit->part.attributes.end() ? nullptr : &serial->second;
}

bool hasArrived(const LogbookFacts& facts, const logbook::RecordName& name) {
    const auto head = facts.heads.find(name.station);
    return head != facts.heads.end() && name.seq <= head->second.head.seq;
}

// That log with the others that are not in it, as far as it goes: what came in since is not of it.
std::shared_ptr<const WholeLog> joined(const Surroundings& surroundings, const WholeLog& log,
                                       const FoundRecords::Records& others) {
    auto records = log.log.records();
    for (const auto& [name, record] : others) {
        if (!log.log.find(name) && hasArrived(log, name)) {
            records.push_back(record);
        }
    }
    return std::make_shared<const WholeLog>(
        WholeLog{log, rules::Log(std::move(records), surroundings.zones), log.reached});
}

}  // namespace

Result<WholeStanding> HistoryLog::of(const Surroundings& surroundings, const LogbookFile& file,
                                     const Standing& standing, const std::string& device) {
    auto whole = withLogOf(surroundings, file, standing, device);
    if (!whole) {
        return whole;
    }
    const auto about = aboutIn(whole->log->log, device);
    if (about.serials.empty()) {
        return whole;
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    if (m_about != about) {
        m_others.forget();
        m_about = about;
    }
    if (auto renewed = m_others.renew(surroundings, *logbook, searchFor(about)); !renewed) {
        return tl::unexpected(std::move(renewed.error()));
    }
    whole->log = joined(surroundings, *whole->log, m_others.records());
    return whole;
}

HistoryLog::About HistoryLog::aboutIn(const rules::Log& log, const std::string& device) {
    About about{device, {}};
    for (const auto& record : log.records()) {
        const auto* serial = record.device == device ? serialOf(record) : nullptr;
        if (serial != nullptr) {
            about.serials.insert(*serial);
        }
    }
    return about;
}

FoundRecords::Search HistoryLog::searchFor(const About& about) {
    const auto isOther = [&about](std::string_view device, std::string_view) {
        return device != about.device;
    };
    const auto mayBeOfPart = [&about](std::string_view device, std::string_view content) {
        return device != about.device && mayStateSerial(content, [&](std::string_view serial) {
            return about.serials.contains(serial);
        });
    };
    const auto bears = [&about](const logbook::Record& record) {
        const auto* serial = serialOf(record);
        return record.device != about.device &&
               (record.kind() == Kind::Enrol || record.kind() == Kind::Retire ||
                (serial != nullptr && about.serials.contains(*serial)));
    };
    return {{{{"enrol", "retire"}, isOther}, {{"fit"}, mayBeOfPart}}, bears};
}

}  // namespace station
