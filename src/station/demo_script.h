// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plays the steps of a scenario: one session of one person on one unit, from an instant onwards.
// Each step takes its time and leaves the records it would leave. Which steps make sense is the
// scenario's affair.
#pragma once

#include "station/demo_world.h"

#include <string>
#include <string_view>

namespace station::demo {

class Script {
public:
    // `unit` null: a session of the department's own.
    Script(World& world, UnitState* unit, Instant start);

    // Now and then a step goes wrong, as the scenario's mishaps say.
    void allowMishaps() { m_mishaps = true; }
    // Everything is entered so long after it happened.
    void enterLate(Duration late) { m_late = late; }

    void run(const Routine& routine);

    // One of the unit's kit's routines, or else of the common ones; nothing if there is none.
    void runNamed(std::string_view name);
    [[nodiscard]] bool knows(std::string_view name) const;

    [[nodiscard]] Instant now() const { return m_now; }
    [[nodiscard]] UnitState* unit() const { return m_unit; }

    // --- For the verbs ---
    [[nodiscard]] World& world() const { return m_world; }
    // Time passes; with the step's `took` that much instead.
    void spend(const Step& step, Duration duration);
    void waitUntil(Instant instant);
    void goTo(bool bedside, bool atOnce);
    // Writes a record of `kind` on the unit at this instant, by who the step or the scenario says.
    std::size_t write(const Step& step, std::string_view kind, logbook::json::Object body);
    // The same for the department.
    std::size_t writeDepartment(const Step& step, std::string_view kind,
                                logbook::json::Object body);
    // Writes it about the entry that an earlier step gave the name `target`.
    void writeAbout(const Step& step, std::string_view kind, logbook::json::Object body);
    void ensure(std::string_view what);
    void swapForAnother();

private:
    void perform(const Step& step);
    [[nodiscard]] bool happens(const Step& step) const;
    [[nodiscard]] bool hasCoaxialCircuit() const;
    [[nodiscard]] const Mishap* mishapAt(const Step& step) const;
    void runDo(const Step& step);
    [[nodiscard]] std::string writerOf(const Step& step, std::string_view kind, Instant at) const;
    std::size_t writeEntry(const Step& step, Draft draft);
    void addExtras(const Step& step, Draft& draft) const;

    World& m_world;
    UnitState* m_unit;
    Instant m_now;
    std::string m_station, m_by, m_batch, m_form;
    Duration m_late{};
    bool m_mishaps = false;
    ByKey<std::size_t> m_names;  // entries that steps gave a name
};

// What a verb does. Null if there is no such verb.
using Verb = void (*)(Script&, const Step&);
[[nodiscard]] Verb verbOf(std::string_view name);

}  // namespace station::demo
