// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A whole log, in reading order, with what does not depend on when it is asked: the editions, and
// which strikes have effect. Answers states at an instant, as known at another.
#pragma once

#include "rules/groundwork.h"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace rules {

class Log {
public:
    // Records in any order. A record of an `adopt` whose text is refused is kept in `faults()` and
    // has no effect.
    Log(std::vector<logbook::Record> records, const ZoneSource& zones);

    [[nodiscard]] const std::vector<logbook::Record>& records() const { return *m_shared; }
    [[nodiscard]] const Groundwork& groundwork() const { return m_groundwork; }
    [[nodiscard]] const Editions& editions() const { return m_groundwork.editions(); }
    [[nodiscard]] const std::vector<LogFault>& faults() const { return m_groundwork.faults(); }

    // The rulebook by which all is judged before the first adopt; null if there is none.
    [[nodiscard]] std::shared_ptr<const Rulebook> firstEdition() const {
        return m_groundwork.firstEdition();
    }

    // The device of the record at `index` as a number below deviceCount(); the department is one
    // too.
    [[nodiscard]] std::uint32_t deviceNumber(std::size_t index) const { return m_devices[index]; }
    [[nodiscard]] std::size_t deviceCount() const { return m_deviceNumbers.size(); }
    // None if no record is on it.
    [[nodiscard]] std::optional<std::uint32_t> deviceNumber(const std::string& serial) const;

    // Whether the record at `index` takes part for the knowledge instant: entered by then and not
    // struck by a strike entered by then.
    [[nodiscard]] bool takesPart(std::size_t index, Instant knownAt) const;

    // The effective strike of the record at `index` that was entered first; none if it stands.
    [[nodiscard]] const logbook::Record* struckBy(std::size_t index) const;

    // Of a strike at `index`: whether the writer lacked the authority.
    [[nodiscard]] bool strikeUnauthorised(std::size_t index) const;

    // `entered` lies before that of the station's previous `seq`, if that is known.
    [[nodiscard]] bool clockBack(std::size_t index, Instant knownAt) const;

    [[nodiscard]] std::optional<std::size_t> find(const RecordName& name) const;

    // 1 + the latest `entered` known, in milliseconds; none without records.
    [[nodiscard]] std::optional<Instant> endOfKnowledge(Instant knownAt) const;

    // The state after all records with `at` <= `at` that take part. Precondition: firstEdition().
    [[nodiscard]] State stateAt(Instant at, Instant knownAt) const;

    // The same log as if every edition in it had been this one.
    [[nodiscard]] Log under(const std::shared_ptr<const Rulebook>& edition) const;

    // Whether an `adopt` with `at` <= `at` takes part.
    [[nodiscard]] bool hasEdition(Instant at, Instant knownAt) const {
        return m_groundwork.hasEdition(at, knownAt);
    }

private:
    void numberDevices();
    void orderByName();
    void judgeStrikes();

    std::shared_ptr<const std::vector<logbook::Record>> m_shared;  // sorted; copies share them
    std::vector<std::uint32_t> m_devices;                          // by index
    std::map<std::string, std::uint32_t, std::less<>> m_deviceNumbers;
    Groundwork m_groundwork;
    std::vector<std::size_t> m_order;                    // index by (station, seq)
    std::vector<std::optional<std::size_t>> m_struckBy;  // index of the strike entered first
    std::vector<bool> m_strikeUnauthorised;
    std::vector<std::optional<Instant>> m_previousEntered;  // of the station's previous `seq`
};

}  // namespace rules
