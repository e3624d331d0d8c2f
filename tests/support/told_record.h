// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every field of a record as text, so that two readings of it can be compared.
#pragma once

#include "logbook/json.h"
#include "logbook/record.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace support {

// Declared first, so that the templates below find them.
inline std::string told(const std::string& text) { return '\'' + text + '\''; }
inline std::string told(bool flag) { return flag ? "yes" : "no"; }
inline std::string told(double number) { return logbook::json::canonical(number); }
inline std::string told(logbook::Instant instant) { return std::to_string(instant.ms); }
inline std::string told(logbook::Day day) {
    return std::to_string(day.time_since_epoch().count());
}
inline std::string told(const logbook::RecordName& name) { return toText(name); }
inline std::string told(const logbook::body::SerialPart& part) {
    return told(part.position) + told(part.serial);
}
inline std::string told(logbook::Outcome word) { return std::string(name(word)); }
inline std::string told(logbook::Level word) { return std::string(name(word)); }
inline std::string told(logbook::NoticeAction word) { return std::string(name(word)); }

template <class Item>
std::string told(const std::vector<Item>& items) {
    std::string all = "[";
    for (const Item& item : items) all += told(item) + ",";
    return all + "]";
}
template <class Value>
std::string told(const std::optional<Value>& value) {
    return value ? told(*value) : std::string("-");
}
template <class... Values>
std::string together(const Values&... values) {
    std::string all;
    ((all += told(values) + " "), ...);
    return all;
}

struct BodyTold {
    template <class NoField>
    std::string operator()(const NoField&) const {
        static_assert(std::is_empty_v<NoField>, "each body with fields needs its line here");
        return "";
    }
    std::string operator()(const logbook::body::Adopt& b) const {
        return together(b.edition, b.text);
    }
    std::string operator()(const logbook::body::Person& b) const {
        return together(b.person, b.name, b.roles, b.until);
    }
    std::string operator()(const logbook::body::Notice& b) const {
        const auto& m = b.match;
        return together(b.key, b.title, b.action, b.cancelled, m.position, m.lots, m.serials,
                        m.partModels, m.deviceModels, m.devices, m.software);
    }
    std::string operator()(const logbook::body::Enrol& b) const {
        return together(b.model, b.groups, b.features, b.commissioned, b.label, b.asset, b.maker,
                        b.udi, b.location, b.owner, b.returnBy);
    }
    std::string operator()(const logbook::body::Retire& b) const { return together(b.reason); }
    std::string operator()(const logbook::body::Group& b) const { return together(b.group); }
    std::string operator()(const logbook::body::Power& b) const { return together(b.on); }
    std::string operator()(const logbook::body::Move& b) const { return together(b.location); }
    std::string operator()(const logbook::body::Sighted& b) const {
        return together(b.location);
    }
    std::string operator()(const logbook::body::Software& b) const {
        return together(b.version);
    }
    std::string operator()(const logbook::body::Fit& b) const {
        std::string all = together(b.position, b.part.groups);
        for (const auto& [key, value] : b.part.attributes) all += together(key, value);
        return all;
    }
    std::string operator()(const logbook::body::Remove& b) const { return together(b.position); }
    std::string operator()(const logbook::body::Reprocess& b) const {
        return together(b.positions, b.parts, b.level, b.load);
    }
    std::string operator()(const logbook::body::Soil& b) const { return together(b.reason); }
    std::string operator()(const logbook::body::Check& b) const {
        std::string all = together(b.check, b.outcome, b.conditions);
        for (const auto& [key, measure] : b.measures) {
            all += together(key, measure.value, measure.unit);
        }
        return all;
    }
    std::string operator()(const logbook::body::Alarm& b) const { return together(b.code); }
    std::string operator()(const logbook::body::Fault& b) const {
        return together(b.code, b.blocking, b.text);
    }
    std::string operator()(const logbook::body::Clear& b) const { return together(b.code); }
    std::string operator()(const logbook::body::Withdraw& b) const {
        return together(b.hold, b.reason);
    }
    std::string operator()(const logbook::body::Release& b) const { return together(b.hold); }
    std::string operator()(const logbook::body::Waive& b) const {
        return together(b.finding, b.subject, b.until, b.reason);
    }
    std::string operator()(const logbook::body::NoticeDone& b) const {
        return together(b.key, b.text);
    }
    std::string operator()(const logbook::body::Service& b) const {
        return together(b.service, b.outcome);
    }
    std::string operator()(const logbook::body::UseStart& b) const {
        return together(b.group, b.location, b.reason, b.precautions, b.emergency,
                        b.samePatient);
    }
    std::string operator()(const logbook::body::UsePause& b) const { return together(b.reason); }
    std::string operator()(const logbook::body::Note& b) const { return together(b.text); }
    std::string operator()(const logbook::body::Review& b) const {
        return together(b.target, b.disposition, b.text);
    }
    std::string operator()(const logbook::body::Sign& b) const {
        return together(b.scope, b.month, b.knownAt, b.digest);
    }
    std::string operator()(const logbook::body::Strike& b) const {
        return together(b.target, b.reason);
    }
};

inline std::string told(const logbook::Record& record) {
    return together(record.name, record.at, record.entered, record.by, record.device,
                    record.doneBy, record.witness, record.form, record.batch, record.movedFrom,
                    record.confirmed, record.content) +
           std::string(logbook::kindName(record.kind())) + " " +
           std::visit(BodyTold{}, record.body);
}

}  // namespace support
