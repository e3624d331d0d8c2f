// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units that go round and round, their entries put in the order in which they were written down.
#include "bench/hospital.h"

#include "bench/unit_rounds.h"
#include "logbook/instant.h"
#include "logbook/json.h"

#include <fmt/format.h>

#include <array>
#include <map>
#include <queue>
#include <utility>

namespace bench {

namespace {

constexpr std::int64_t begin = 1'767'600'000'000;  // 2026-01-05T08:00:00Z
constexpr std::int64_t minute = 60'000;
constexpr std::int64_t hour = 60 * minute;
constexpr std::int64_t day = 24 * hour;
constexpr std::array<const char*, 6> stations{"icu-1", "icu-2", "picu-1", "er-1", "step-1",
                                              "biomed"};

std::string quoted(const std::string& text) { return logbook::json::canonical(text); }

std::string contentOf(const WrittenRecord& record) {
    return fmt::format(R"({{"at":"{}","body":{},"by":"{}","device":"{}","entered":"{}",)"
                       R"("kind":"{}","seq":{},"station":"{}"}})",
                       instantText(record.atMs), record.body, record.by, record.device,
                       instantText(record.enteredMs), record.kind, record.seq, record.station);
}

// What waits to be written down.
struct Pending {
    std::int64_t enteredMs = 0;
    std::int64_t number = 0;  // in the order in which they were made
    int station = 0;
    Act act;
};

struct Later {
    bool operator()(const Pending& a, const Pending& b) const {
        return std::pair(a.enteredMs, a.number) > std::pair(b.enteredMs, b.number);
    }
};

class Hospital {
public:
    Hospital(const HospitalPlan& plan, const RecordTaker& take)
        : m_plan(plan), m_take(take), m_dice(plan.seed), m_rounds(m_dice, plan.units) {}

    void run() {
        found();
        for (int unit = 0; unit < m_plan.units; ++unit) {
            m_wakes.push({begin + day + m_dice.below(3 * day), unit});
        }
        // How long the log will be is known well enough for the second and third edition.
        while (m_written < m_plan.records) {
            const auto [now, unit] = m_wakes.top();
            m_wakes.pop();
            writeUntil(now);
            adoptInTime(now);
            const auto next =
                m_rounds.next(unit, now, [&](Act act) { note(unit, std::move(act)); });
            m_wakes.push({next, unit});
        }
    }

private:
    using Wake = std::pair<std::int64_t, int>;

    void found() {
        adopt(begin);
        static const std::array<const char*, 8> roles{
            "therapist", "therapist", "therapist",  "therapist",
            "technician", "biomed",   "charge_therapist", "manager"};
        for (int person = peopleCount - 1; person >= 0; --person) {
            const std::string key = personKey(person);
            timely(begin + minute + (peopleCount - person) * 1000, "person",
                   fmt::format(R"({{"name":"{}","person":"{}","roles":["{}"]}})", key, key,
                               roles[static_cast<std::size_t>(person % 8)]));
        }
        for (int unit = 0; unit < m_plan.units; ++unit) {
            Act act{begin + hour + unit * 1000LL, "enrol", unitSerial(unit), enrolBody(unit)};
            act.by = personKey(5);
            push(act.atMs + 500, 5, std::move(act));
            Act group{begin + 2 * hour + unit * 1000LL, "group", unitSerial(unit),
                      fmt::format(R"({{"group":"{}"}})", unitGroup(unit))};
            group.by = personKey(0);
            push(group.atMs + 500, stationOf(unit), std::move(group));
        }
    }

    void adopt(std::int64_t at) {
        const auto name = fmt::format("bench-{}", ++m_editions);
        std::string text = m_plan.rulebook;
        const std::string before = "edition = \"bench\"";
        text.replace(text.find(before), before.size(), "edition = \"" + name + "\"");
        timely(at, "adopt", fmt::format(R"({{"edition":"{}","text":{}}})", name, quoted(text)));
    }

    void adoptInTime(std::int64_t now) {
        if (m_editions < 3 && m_written > m_editions * m_plan.records / 3) adopt(now);
    }

    void timely(std::int64_t at, const char* kind, std::string body) {
        Act act{at, kind, "", std::move(body)};
        act.by = personKey(managerNumber);
        push(at, 0, std::move(act));
    }

    // One in twenty is late by up to three days.
    void note(int unit, Act act) {
        const bool late = m_dice.chance(50, 1000);
        const auto delay = late ? 2 * hour + m_dice.below(3 * day - 2 * hour)
                                : m_dice.below(90'000);
        const int station = m_dice.chance(30, 1000) ? 5 : stationOf(unit);
        const auto entered = act.timely ? act.atMs : act.atMs + delay;
        push(entered, station, std::move(act));
    }

    void push(std::int64_t entered, int station, Act act) {
        m_pending.push({entered, ++m_number, station, std::move(act)});
    }

    void writeUntil(std::int64_t now) {
        while (!m_pending.empty() && m_pending.top().enteredMs < now &&
               m_written < m_plan.records) {
            Pending next = m_pending.top();
            m_pending.pop();
            write(next);
        }
    }

    void write(Pending& pending) {
        Act& act = pending.act;
        WrittenRecord record;
        record.station = stations[static_cast<std::size_t>(pending.station)];
        record.seq = ++m_seqs[pending.station];
        record.atMs = act.atMs;
        record.enteredMs = pending.enteredMs;
        record.by = std::move(act.by);
        record.device = std::move(act.device);
        record.kind = act.kind;
        record.body = std::move(act.body);
        record.content = contentOf(record);
        ++m_written;
        m_take(record);
        if (!record.device.empty() && act.kind != "strike" && m_dice.chance(10, 1000)) {
            strike(record, pending.station);
        }
    }

    void strike(const WrittenRecord& record, int station) {
        const auto at = record.enteredMs + minute + m_dice.below(10 * day);
        Act act{at, "strike", record.device,
                fmt::format(R"({{"reason":"Wrong unit","target":"{}/{}"}})", record.station,
                            record.seq)};
        act.by = personKey(chargeNumber);
        push(at, station, std::move(act));
    }

    static int stationOf(int unit) { return unit % 5; }

    const HospitalPlan& m_plan;
    const RecordTaker& m_take;
    Dice m_dice;
    UnitRounds m_rounds;
    std::priority_queue<Wake, std::vector<Wake>, std::greater<>> m_wakes;
    std::priority_queue<Pending, std::vector<Pending>, Later> m_pending;
    std::map<int, std::int64_t> m_seqs;
    std::int64_t m_written = 0;
    std::int64_t m_number = 0;
    int m_editions = 0;
};

}  // namespace

void runHospital(const HospitalPlan& plan, const RecordTaker& take) {
    Hospital(plan, take).run();
}

std::string instantText(std::int64_t ms) { return toText(logbook::Instant{ms}); }

}  // namespace bench
