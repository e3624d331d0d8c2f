// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random logs over a small rulebook that has one of everything: all kinds of record, two devices
// that share parts, several stations, late entries, strikes, waivers and two editions. The same
// seed and shape give the same log on every computer.
#pragma once

#include "support/rules_world.h"

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace support {

class Random {
public:
    explicit Random(std::uint32_t seed) : m_engine(seed) {}

    // From 0 to below `count`.
    int below(int count) {
        return static_cast<int>(m_engine() % static_cast<std::uint32_t>(count));
    }
    bool chance(int percent) { return below(100) < percent; }

    template <class Item>
    const Item& pick(const std::vector<Item>& items) {
        return items[static_cast<std::size_t>(below(static_cast<int>(items.size())))];
    }

    template <class Item>
    void shuffle(std::vector<Item>& items) {
        for (int last = static_cast<int>(items.size()) - 1; last > 0; --last) {
            std::swap(items[static_cast<std::size_t>(last)],
                      items[static_cast<std::size_t>(below(last + 1))]);
        }
    }

private:
    std::mt19937 m_engine;
};

inline const std::string randomBookCore = R"(
[positions.circuit]
required = true
match_group = true
reuse = "single_patient"
change_after_use = "P2D"
[positions.sensor]
reuse = "reusable"
reprocess_level = "high"
max_reprocess = 3
change_after = "P9D"
[positions.hme]
[positions.humidifier]
required_when = { "feature.humid" = true }
[choices.moisture]
positions = ["hme", "humidifier"]
[conflicts.small]
when = { "hme.size" = "small", "group" = "adult" }
[checks.leak]
takes = "PT2M"
valid_for = "P3D"
waivable = true
not_with = [{ position = "hme", when = { "circuit.layout" = "coaxial" } }]
voided_by = [{ event = "change circuit" }, { event = "use_end" }, { event = "soil" },
  { event = "alarm *" }, { event = "clear *" }, { event = "release *" }, { event = "group" }]
[checks.leak.measures.leak]
unit = "mL/min"
max = { adult = 200, pediatric = 100 }
[checks.battery]
takes = "PT1M"
blocks = "start"
during_use = true
valid_for = "P2D"
voided_by = [{ event = "power_off" }, { event = "move" }]
[checks.second]
takes = "PT1M"
blocks = false
fail_blocks = true
needs_second = true
voided_by = [{ event = "fault *" }, { event = "reprocess *" }, { event = "software" }]
[services.acceptance]
before_first_use = true
[services.monthly]
every = "P1M"
grace = "P5D"
[services.repair]
due_after = ["clear *"]
[holds.incident]
release_by = ["biomed"]
[faults.noise]
blocking = false
)";

inline const std::string randomBookZero = R"(
[checks.zero]
takes = "PT1M"
waivable = true
after = ["leak"]
not_before = [{ event = "fit sensor", wait = "PT10M" }, { event = "power_on", wait = "PT2M" }]
voided_by = [{ event = "fit sensor", only = "new_part" },
  { event = "fit sensor", only = "different kind" }, { event = "alarm zero" },
  { event = "use_start", when = { "circuit.layout" = "coaxial" } },
  { event = "use_resume", unless = { "sensor.kind" = "heated" } }]
[checks.zero.measures.offset]
unit = "mV"
min = -2
breach = "discount"
)";

inline const std::string randomBookMore = R"(
[positions.filter]
reuse = "reusable"
[services.filter_service]
due_after = ["fit filter"]
)";

inline const std::string randomBookAuthority =
    "[authority]\ncheck = [\"therapist\"]\nclear = [\"biomed\"]\nrelease = [\"biomed\"]\n"
    "strike = [\"lead\"]\nperson = [\"lead\"]\nservice = [\"biomed\"]\n";

struct RandomShape {
    int records = 60;
    int stations = 3;
    int devices = 2;
    int serials = 3;            // in each position
    int serialsPercent = 60;  // of the parts
    bool lateEntries = true;
    bool strikes = true;
    bool waivers = true;
    bool editions = true;
    bool authority = true;
    bool namesAnew = false;  // editions name a position and a service that others do not have
};

class RandomLog {
public:
    RandomLog(std::uint32_t seed, const RandomShape& shape) : m_random(seed), m_shape(shape) {
        m_at = when("03-25 08:00");
        adopt();
        m_log.department().at(m_at).person("Robin", {"therapist", "biomed", "lead"});
        for (int number = 1; number <= shape.devices; ++number) {
            m_devices.push_back("KB-" + std::to_string(number));
        }
        for (const auto& serial : m_devices) {
            on(serial).enrol({"adult", "pediatric"}, m_random.chance(50) ? Texts{"humid"} : Texts{},
                             {{"commissioned", "2026-02-28"}});
        }
        while (static_cast<int>(m_log.records().size()) < shape.records) step();
    }

    [[nodiscard]] const Texts& devices() const { return m_devices; }
    [[nodiscard]] const LogBuilder& log() const { return m_log; }
    [[nodiscard]] Random& random() { return m_random; }
    // The latest instant at which something happened.
    [[nodiscard]] Instant end() const { return m_at; }

    // An instant from a little before the log to some days after it.
    Instant anyInstant() {
        const Instant first = when("03-25 07:00");
        const auto span = (m_at - first).ms + 4 * 86'400'000LL;
        const auto part = static_cast<std::int64_t>(m_random.below(1'000'000));
        return first + logbook::Duration{span / 1'000'000 * part};
    }

private:
    void adopt() {
        std::string sections = randomBookCore;
        const bool first = m_editions == 0;
        if (first || m_random.chance(50)) sections += randomBookZero;
        if (m_shape.authority && (first || m_random.chance(50))) sections += randomBookAuthority;
        if (m_shape.namesAnew && m_random.chance(50)) sections += randomBookMore;
        const std::string zone = m_random.chance(50) ? "Europe/Berlin" : "America/Chicago";
        m_log.department().at(m_at).adopt(
            book(sections, {std::to_string(++m_editions), zone, "confirm_every = \"P3D\"\n",
                            first ? "par = 1\n" : "par = 2\n"}));
    }

    // Happened some time after the record before, on that device, perhaps entered late.
    Entry on(const std::string& serial) {
        m_at = m_at + minutes(m_random.chance(20) ? 0 : m_random.below(240));
        Entry entry = m_log.on(serial);
        entry.at(m_at).station("icu-" + std::to_string(1 + m_random.below(m_shape.stations)));
        if (m_shape.authority && m_random.chance(15)) entry.by("Alex");
        if (m_shape.lateEntries && m_random.chance(25)) {
            entry.entered(m_at + minutes(m_random.below(400)));
        }
        return entry;
    }

    // Of a kind that cannot be entered late.
    Entry timely(const std::string& serial) {
        Entry entry = on(serial);
        entry.entered(m_at);
        return entry;
    }

    json::Object part(const std::string& position) {
        json::Object part;
        if (m_random.chance(m_shape.serialsPercent)) {
            part.emplace_back("serial", anySerial());
        }
        if (m_random.chance(30)) part.emplace_back("lot", m_random.pick(Texts{"L1", "L2"}));
        if (position == "circuit") {
            part.emplace_back("groups", m_random.chance(60) ? list({"adult", "pediatric"})
                                                            : list({m_random.pick(groups())}));
            part.emplace_back("layout", m_random.pick(Texts{"coaxial", "twin"}));
        }
        if (position == "sensor" && m_random.chance(70)) {
            part.emplace_back("kind", m_random.pick(Texts{"heated", "plain"}));
        }
        if (position == "hme") {
            part.emplace_back("size", m_random.pick(Texts{"small", "large", ""}));
        }
        if (m_random.chance(15)) {
            part.emplace_back("expires", m_random.pick(Texts{"2026-03-29", "2026-04-01"}));
        }
        return part;
    }

    void attempt(const std::string& serial, const std::string& check, bool good) {
        Entry entry = on(serial);
        if (good || m_random.chance(80)) entry.stating("warmed_up").witness("Robin").by("Sam");
        if (m_shape.authority) entry.by(m_random.chance(90) ? "Robin" : "Alex").witness("Sam");
        if (m_random.chance(50)) entry.measuring("leak", good ? 50 : m_random.below(400), "mL/min");
        if (m_random.chance(50)) entry.measuring("offset", good ? 0 : m_random.below(6) - 4, "mV");
        entry.check(check, good ? "pass" : m_random.pick(Texts{"pass", "fail", "incomplete"}));
    }

    // So that a fair share of all logs is ready now and then.
    void makeReady(const std::string& serial) {
        on(serial).group(m_random.pick(groups()));
        on(serial).useEnd();
        for (const std::string position : {"circuit", "sensor"}) {
            on(serial).fit(position, part(position));
        }
        on(serial).reprocess({"sensor"});
        on(serial).remove("hme");
        on(serial).fit("humidifier");
        for (const std::string service : {"acceptance", "monthly", "repair"}) {
            on(serial).by("Robin").service(service);
        }
        m_at = m_at + minutes(11);
        const bool waived = m_shape.waivers && m_random.chance(30);
        if (waived) timely(serial).waive("due", "zero", m_at + minutes(2000));
        for (const std::string check : {"leak", "zero", "battery", "second"}) {
            if (!waived || check != "zero") attempt(serial, check, true);
        }
        if (m_random.chance(50)) on(serial).useStart();
    }

    void step() {
        const std::string& serial = m_random.pick(m_devices);
        if (m_random.chance(8)) return makeReady(serial);
        switch (m_random.below(8)) {
        case 0: case 1: return attempt(serial, m_random.pick(checks()), m_random.chance(60));
        case 2: return stepOfParts(serial);
        case 3: case 4: return stepOfUse(serial);
        case 5: return stepOfState(serial);
        case 6: return stepOfTrouble(serial);
        default: return stepOfDepartment(serial);
        }
    }

    void stepOfParts(const std::string& serial) {
        const bool isAnew = m_shape.namesAnew && m_random.chance(20);
        const std::string position = isAnew ? "filter" : m_random.pick(positions());
        switch (m_random.below(5)) {
        case 0: case 1: on(serial).fit(position, part(position)); return;
        case 2: on(serial).remove(position); return;
        case 3: on(serial).reprocess({position}, m_random.pick(Texts{"low", "high"})); return;
        default: on("").reprocessPart(position, anySerial());
        }
    }

    void stepOfUse(const std::string& serial) {
        switch (m_random.below(5)) {
        case 0: case 1: {
            json::Object body;
            if (m_random.chance(40)) body.emplace_back("group", m_random.pick(groups()));
            if (m_random.chance(30)) body.emplace_back("emergency", true);
            if (m_random.chance(20)) body.emplace_back("same_patient", true);
            if (m_random.chance(20)) body.emplace_back("precautions", true);
            on(serial).useStart(std::move(body));
            return;
        }
        case 2: on(serial).usePause(); return;
        case 3: on(serial).useResume(); return;
        default: on(serial).useEnd();
        }
    }

    void stepOfState(const std::string& serial) {
        switch (m_random.below(8)) {
        case 0: on(serial).group(m_random.pick(groups())); return;
        case 1: case 2: on(serial).power(m_random.chance(60)); return;
        case 3: on(serial).move("Store"); return;
        case 4: on(serial).software("2"); return;
        case 5: on(serial).service(m_random.pick(services()), m_random.pick(outcomes())); return;
        case 6: on(serial).sighted("ICU 1"); return;
        default:
            if (m_random.chance(25)) on(serial).retire();
            on(serial).enrol({"adult", "pediatric"}, {}, {{"commissioned", "2026-02-28"}});
        }
    }

    void stepOfTrouble(const std::string& serial) {
        switch (m_random.below(7)) {
        case 0: on(serial).soil(); return;
        case 1: on(serial).alarm(m_random.pick(Texts{"zero", "tech_1"})); return;
        case 2: on(serial).fault(m_random.pick(faults())); return;
        case 3: on(serial).clear(m_random.pick(faults())); return;
        case 4: on(serial).withdraw(m_random.pick(holds())); return;
        default: on(serial).release(m_random.pick(holds()));
        }
    }

    void stepOfDepartment(const std::string& serial) {
        switch (m_random.below(7)) {
        case 0: on(serial).note(); return;
        case 1: {
            json::Object match;
            if (m_random.chance(60)) match.emplace_back("lots", list({"L1"}));
            if (m_random.chance(50)) match.emplace_back("devices", list({serial}));
            timely("").notice("n1", std::move(match), m_random.pick(actions()),
                              m_random.chance(30));
            return;
        }
        case 2: on(serial).noticeDone("n1"); return;
        case 3:
            if (m_shape.waivers) {
                timely(serial).waive(m_random.pick(Texts{"due", "lapsed", "due", "change_due"}),
                                     m_random.pick(Texts{"leak", "zero", "circuit"}),
                                     m_at + minutes(m_random.below(3000)));
            }
            return;
        case 4:
            if (m_shape.strikes) timely(serial).strike(m_random.pick(m_log.records()).name);
            return;
        case 5: timely("").person(m_random.pick(Texts{"Sam", "Alex"}),
                                  {m_random.pick(Texts{"therapist", "biomed", "lead"})},
                                  m_random.chance(30) ? "2026-03-28" : ""); return;
        default: if (m_shape.editions && m_random.chance(40)) adopt();
        }
    }

    std::string anySerial() { return "P" + std::to_string(1 + m_random.below(m_shape.serials)); }
    static const Texts& groups() { static const Texts all{"adult", "pediatric"}; return all; }
    static const Texts& checks() {
        static const Texts all{"leak", "zero", "battery", "second"};
        return all;
    }
    static const Texts& positions() {
        static const Texts all{"circuit", "sensor", "hme", "humidifier"};
        return all;
    }
    static const Texts& services() {
        static const Texts all{"acceptance", "monthly", "repair"};
        return all;
    }
    static const Texts& outcomes() {
        static const Texts all{"pass", "pass", "fail", "deferred"};
        return all;
    }
    static const Texts& faults() { static const Texts all{"fan", "noise"}; return all; }
    static const Texts& holds() { static const Texts all{"incident", "repair"}; return all; }
    static const Texts& actions() { static const Texts all{"stop_use", "inspect"}; return all; }

    Random m_random;
    RandomShape m_shape;
    LogBuilder m_log;
    Texts m_devices;
    Instant m_at{};
    int m_editions = 0;
};

}  // namespace support
