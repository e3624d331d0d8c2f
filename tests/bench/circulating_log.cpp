// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Each unit in turn: a leak test, a use, another sensor, and notes; see circulating_log.h.
#include "bench/circulating_log.h"

#include "support/random_log.h"

namespace bench {
namespace {

using namespace support;

constexpr std::int64_t second = 1000;
constexpr std::int64_t day = 86'400 * second;
constexpr int morePositions = 5;
constexpr int moreChecks = 6;

std::string bookOf(const LogShape& shape) {
    std::string sections =
        "[positions.sensor]\n[checks.leak]\ntakes = \"PT2M\"\nvalid_for = \"P1D\"\n"
        "voided_by = [{ event = \"use_end\" }, { event = \"fit sensor\", only = \"new_part\" }]\n";
    if (!shape.manyRules) return book(sections);
    for (int number = 0; number < morePositions; ++number) {
        sections += "[positions.p" + std::to_string(number) + "]\n";
    }
    for (int number = 0; number < moreChecks; ++number) {
        sections += "[checks.c" + std::to_string(number) + "]\ntakes = \"PT2M\"\n" +
                    "voided_by = [{ event = \"fit p" + std::to_string(number % morePositions) +
                    "\" }]\n";
    }
    return book(sections);
}

class CirculatingLog {
public:
    explicit CirculatingLog(const LogShape& shape) : m_shape(shape), m_random(seed) {
        m_log.adopt(bookOf(shape));
        for (int unit = 0; unit < shape.units; ++unit) enrol("KB-" + std::to_string(1000 + unit));
        const int count = shape.records;
        for (int number = 0; number < count; ++number) {
            const std::int64_t since = 28 * day / count * number;
            add(number, {when("09:00").ms + since - since % second});
        }
        for (const Strike& strike : m_strikes) {
            m_log.on(strike.unit).at(strike.at).station("ed-9").strike(strike.record);
        }
    }

    [[nodiscard]] const LogBuilder& log() const { return m_log; }

private:
    static constexpr std::uint32_t seed = 7;

    struct Strike {
        Instant at{};
        std::string unit;
        RecordName record;
    };

    void enrol(const std::string& unit) {
        m_units.push_back(unit);
        m_log.on(unit).at("08:01").enrol({"adult"});
        if (!m_shape.manyRules) return;
        for (int number = 0; number < morePositions; ++number) {
            m_log.on(unit).at("08:02").fit("p" + std::to_string(number), {{"serial", unit}});
        }
        for (int number = 0; number < moreChecks; ++number) {
            m_log.on(unit).at("08:05").pass("c" + std::to_string(number));
        }
    }

    void add(int number, Instant at) {
        const auto& unit = m_units[static_cast<std::size_t>(number % m_shape.units)];
        Entry entry = m_log.on(unit);
        entry.at(at);
        if (m_random.chance(m_shape.latePercent)) {
            entry.entered({at.ms + m_random.below(3 * 86'400) * second});
            entry.station("ed-" + std::to_string(m_random.below(5)));
        }
        if (m_shape.veryLate && number == m_shape.units) {
            entry.entered("03-31 09:00").station("ed-1");
        }
        const RecordName name = write(entry, number / m_shape.units % 14);
        if (!m_random.chance(m_shape.struckPercent)) return;
        m_strikes.push_back({{at.ms + m_random.below(10 * 86'400) * second}, unit, name});
    }

    RecordName write(Entry& entry, int turn) {
        switch (turn) {
        case 0: return entry.pass("leak");
        case 1: return entry.useStart();
        case 2: return entry.useEnd();
        case 3: {
            const std::string serial = "S" + std::to_string(m_random.below(m_shape.sensors));
            return entry.fit("sensor", {{"serial", serial}, {"lot", "L" + serial.substr(1, 1)}});
        }
        default: return entry.note();
        }
    }

    LogShape m_shape;
    Random m_random;
    LogBuilder m_log;
    Texts m_units;
    std::vector<Strike> m_strikes;
};

}  // namespace

LogBuilder circulatingLog(const LogShape& shape) {
    return CirculatingLog(shape).log();
}

}  // namespace bench
