// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log in order: editions parsed once, strikes judged once.
#include "rules/log.h"

#include "rules/authority.h"

#include <algorithm>
#include <numeric>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

// Neither of these is ever struck, so what a person may do never depends on a strike.
bool cannotBeStruck(Kind kind) {
    return kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Strike;
}

Editions readEditions(const std::vector<Record>& records, const ZoneSource& zones,
                      std::vector<LogFault>& faults) {
    Editions editions;
    for (const Record& record : records) {
        const auto* adopt = std::get_if<body::Adopt>(&record.body);
        if (!adopt) continue;
        RulebookReading reading = readRulebook(adopt->text, zones);
        if (!reading.rulebook) {
            faults.push_back({LogFault::Code::BadRulebook, record.name, std::move(reading.faults)});
        } else if (reading.rulebook->edition != adopt->edition) {
            faults.push_back({LogFault::Code::WrongEdition, record.name, {}});
        } else {
            editions.emplace(record.name, std::move(reading.rulebook));
        }
    }
    return editions;
}

}  // namespace

Log::Log(std::vector<Record> all, const ZoneSource& zones) {
    std::sort(all.begin(), all.end(),
              [](const Record& a, const Record& b) { return readingOrder(a, b) < 0; });
    m_shared = std::make_shared<const std::vector<Record>>(std::move(all));
    numberDevices();
    m_editions = readEditions(records(), zones, m_faults);
    m_order.resize(records().size());
    std::iota(m_order.begin(), m_order.end(), std::size_t{0});
    std::sort(m_order.begin(), m_order.end(), [this](std::size_t a, std::size_t b) {
        return records()[a].name < records()[b].name;
    });
    m_previousEntered.resize(records().size());
    for (std::size_t place = 1; place < m_order.size(); ++place) {
        const Record& before = records()[m_order[place - 1]];
        const Record& record = records()[m_order[place]];
        if (before.name.station != record.name.station) continue;
        m_previousEntered[m_order[place]] = before.entered;
    }
    judgeStrikes();
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

std::shared_ptr<const Rulebook> Log::firstEdition() const {
    for (const Record& record : records()) {
        const auto edition = m_editions.find(record.name);
        if (edition != m_editions.end()) return edition->second;
    }
    return nullptr;
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
        if (takesPart(index, knownAt)) fold(state, records()[index], m_editions);
    }
    return state;
}

Log Log::under(const std::shared_ptr<const Rulebook>& edition) const {
    Log other = *this;
    for (auto& [name, rulebook] : other.m_editions) rulebook = edition;
    return other;
}

bool Log::hasEdition(Instant at, Instant knownAt) const {
    for (std::size_t index = 0; index < records().size() && records()[index].at <= at; ++index) {
        const bool adopts = m_editions.contains(records()[index].name);
        if (adopts && takesPart(index, knownAt)) return true;
    }
    return false;
}

// A strike is judged by the persons and the edition before it, whatever instant is asked for; both
// are timely, so what is known of them then does not depend on the knowledge asked for either.
void Log::judgeStrikes() {
    m_struckBy.resize(records().size());
    m_strikeUnauthorised.resize(records().size());
    State state;
    state.rulebook = firstEdition();
    if (!state.rulebook) return;
    for (std::size_t index = 0; index < records().size(); ++index) {
        const Record& record = records()[index];
        if (record.kind() == Kind::Adopt || record.kind() == Kind::Person) {
            fold(state, record, m_editions);
            continue;
        }
        const auto* strike = std::get_if<body::Strike>(&record.body);
        if (!strike) continue;
        const auto target = find(strike->target);
        const Record* struck = target ? &records()[*target] : nullptr;
        if (!mayWrite(state, record, struck).allowed) {
            m_strikeUnauthorised[index] = true;
            continue;
        }
        if (!struck || cannotBeStruck(struck->kind())) continue;
        auto& earliest = m_struckBy[*target];
        if (!earliest || record.entered < records()[*earliest].entered) earliest = index;
    }
}

}  // namespace rules
