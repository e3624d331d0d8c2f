// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log in order: editions parsed once, strikes judged once.
#include "rules/log.h"

#include <algorithm>
#include <iterator>
#include <string_view>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

// In the reading order.
std::vector<Record> sorted(std::vector<Record> records) {
    const auto isEarlier = [](const Record& a, const Record& b) { return readingOrder(a, b) < 0; };
    if (!std::is_sorted(records.begin(), records.end(), isEarlier)) {
        std::sort(records.begin(), records.end(), isEarlier);
    }
    return records;
}

std::vector<Record> foundingIn(const std::vector<Record>& records) {
    std::vector<Record> founding;
    std::copy_if(records.begin(), records.end(), std::back_inserter(founding),
                 [](const Record& record) {
                     return record.kind() == Kind::Adopt || record.kind() == Kind::Person;
                 });
    return founding;
}

}  // namespace

Log::Log(std::vector<Record> all, const ZoneSource& zones)
    : m_shared(std::make_shared<const std::vector<Record>>(sorted(std::move(all)))),
      m_groundwork(foundingIn(records()), zones) {
    numberDevices();
    orderByName();
    m_previousEntered.resize(records().size());
    for (std::size_t place = 1; place < m_order.size(); ++place) {
        const Record& before = records()[m_order[place - 1]];
        const Record& record = records()[m_order[place]];
        if (before.name.station != record.name.station) continue;
        m_previousEntered[m_order[place]] = before.entered;
    }
    judgeStrikes();
}

// By station first, since to compare numbers costs far less than to compare names.
void Log::orderByName() {
    std::map<std::string_view, std::vector<std::size_t>> ofStations;
    for (std::size_t index = 0; index < records().size(); ++index) {
        ofStations[records()[index].name.station].push_back(index);
    }
    m_order.reserve(records().size());
    for (auto& [station, own] : ofStations) {
        std::sort(own.begin(), own.end(), [this](std::size_t a, std::size_t b) {
            return records()[a].name.seq < records()[b].name.seq;
        });
        m_order.insert(m_order.end(), own.begin(), own.end());
    }
}

void Log::numberDevices() {
    m_devices.reserve(records().size());
    for (const Record& record : records()) {
        const auto next = static_cast<std::uint32_t>(m_deviceNumbers.size());
        m_devices.push_back(m_deviceNumbers.try_emplace(record.device, next).first->second);
    }
}

std::optional<std::uint32_t> Log::deviceNumber(const std::string& serial) const {
    const auto found = m_deviceNumbers.find(serial);
    if (found == m_deviceNumbers.end()) return std::nullopt;
    return found->second;
}

bool Log::takesPart(std::size_t index, Instant knownAt) const {
    if (records()[index].entered > knownAt) return false;
    const auto& strike = m_struckBy[index];
    return !strike || records()[*strike].entered > knownAt;
}

const Record* Log::struckBy(std::size_t index) const {
    return m_struckBy[index] ? &records()[*m_struckBy[index]] : nullptr;
}

bool Log::strikeUnauthorised(std::size_t index) const {
    return m_strikeUnauthorised[index];
}

bool Log::clockBack(std::size_t index, Instant knownAt) const {
    const auto& previous = m_previousEntered[index];
    return previous && *previous <= knownAt && records()[index].entered < *previous;
}

std::optional<std::size_t> Log::find(const RecordName& name) const {
    const auto place = std::lower_bound(m_order.begin(), m_order.end(), name,
                                        [this](std::size_t index, const RecordName& wanted) {
                                            return records()[index].name < wanted;
                                        });
    if (place == m_order.end() || records()[*place].name != name) return std::nullopt;
    return *place;
}

std::optional<Instant> Log::endOfKnowledge(Instant knownAt) const {
    std::optional<Instant> latest;
    for (const Record& record : records()) {
        if (record.entered > knownAt) continue;
        if (!latest || record.entered > *latest) latest = record.entered;
    }
    if (latest) return *latest + Duration{1};
    return std::nullopt;
}

State Log::stateAt(Instant at, Instant knownAt) const {
    State state;
    state.rulebook = firstEdition();
    for (std::size_t index = 0; index < records().size() && records()[index].at <= at; ++index) {
        if (takesPart(index, knownAt)) fold(state, records()[index], editions());
    }
    return state;
}

Log Log::under(const std::shared_ptr<const Rulebook>& edition) const {
    Log other = *this;
    other.m_groundwork = m_groundwork.under(edition);
    return other;
}

void Log::judgeStrikes() {
    m_struckBy.resize(records().size());
    m_strikeUnauthorised.resize(records().size());
    for (const Record& record : records()) {
        if (record.kind() == Kind::Strike) m_groundwork.addStrike(record);
    }
    for (std::size_t index = 0; index < records().size(); ++index) {
        const Record& record = records()[index];
        if (const auto strike = m_groundwork.struckBy(record)) {
            m_struckBy[index] = find(strike->name);
        }
        const auto* strike = std::get_if<body::Strike>(&record.body);
        if (!strike) continue;
        const auto target = find(strike->target);
        m_strikeUnauthorised[index] =
            !m_groundwork.mayStrike(record, target ? &records()[*target] : nullptr);
    }
}

}  // namespace rules
