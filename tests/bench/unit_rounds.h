// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What happens to a unit between two patients and with one, as dice fall; for hospital.cpp.
#pragma once

#include <cstdint>
#include <functional>
#include <random>
#include <string>
#include <vector>

namespace bench {

// The same numbers from the same seed on every computer.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : m_engine(seed) {}
    // From 0 to below `count`.
    std::int64_t below(std::int64_t count) {
        return static_cast<std::int64_t>(m_engine() % static_cast<std::uint64_t>(count));
    }
    bool chance(int of, int among) { return below(among) < of; }

private:
    std::mt19937_64 m_engine;
};

// Something that is to be written down.
struct Act {
    std::int64_t atMs = 0;
    std::string kind;
    std::string device;
    std::string body;
    std::string by{};
    bool timely = false;  // of a kind that cannot be backdated
};

inline constexpr int peopleCount = 40;
inline constexpr int managerNumber = 39;  // enters all persons, the first of them themselves
inline constexpr int chargeNumber = 6;    // may strike
[[nodiscard]] std::string personKey(int number);

[[nodiscard]] std::string unitSerial(int unit);
[[nodiscard]] std::string unitGroup(int unit);
[[nodiscard]] std::string enrolBody(int unit);

using ActTaker = std::function<void(Act)>;

class UnitRounds {
public:
    UnitRounds(Dice& dice, int units);

    // What happens to the unit from `now` on until it is next looked at: that instant.
    std::int64_t next(int unit, std::int64_t now, const ActTaker& take);

private:
    enum class Phase { ToPrepare, Prepared, InUse };
    struct Unit {
        Phase phase = Phase::ToPrepare;
        bool powered = false;
        bool equipped = false;  // has the parts that stay
        int rest = 0;           // of the events of this use
    };
    class Writing;

    std::int64_t prepare(Unit& unit, Writing& writing);
    std::int64_t start(Unit& unit, Writing& writing);
    std::int64_t use(Unit& unit, Writing& writing);
    void end(Unit& unit, Writing& writing);
    void incident(Writing& writing);

    Dice& m_dice;
    std::vector<Unit> m_units;
    std::vector<int> m_serials;  // how many are known, by position
};

}  // namespace bench
