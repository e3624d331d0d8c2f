// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked about before an entry is kept for ever: a clock that cannot be believed, texts that
// look as if they named a patient, values that nothing measured can be. Nothing that must not wait
// is asked about.
#pragma once

#include "station/entry.h"
#include "station/open_log.h"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace station {

// What is doubted: texts and names of entries that are newly stated, and under whose name. Of what
// is never delayed they lose what looks as if it named a patient.
struct Doubted {
    std::vector<Entry*> entries;
    std::string& person;
    bool waits = true;  // false for what is never delayed: it is written with a warning
};

// For whoever types an entry: that its texts look as if they named a patient; "" if they do not.
[[nodiscard]] std::string patientHint(const words::Words& words,
                                      const std::vector<Entry>& entries);

// What a window asks before it keeps entries that wait for nobody, and so are not asked about while
// they are kept: whether texts that look as if they named a patient name none. Of what warns of
// danger; what goes on at a patient is not delayed by a question. "" if there is nothing to ask.
[[nodiscard]] std::string patientQuestion(const words::Words& words,
                                          const std::vector<Entry>& entries);

// The doubts of one act, which may be settled more than once: what somebody stands by is not asked
// again.
class Doubts {
public:
    // The surroundings must outlive it.
    explicit Doubts(const Surroundings& surroundings) : m_surroundings(surroundings) {}

    // Refused: what the person at the terminal does not stand by; without a terminal, texts that
    // look as if they named a patient, unless `namesNoPatient`, and values that nothing measured
    // can be, unless `asMeasured`.
    [[nodiscard]] Result<void> settle(OpenLog& open, const Doubted& doubted);

    // As last settled: what was doubted, where nobody was asked.
    [[nodiscard]] const std::vector<std::string>& warnings() const { return m_warnings; }
    // The clock seems to be ahead, and nobody stood by it.
    [[nodiscard]] bool clockSeemsAhead() const { return m_clockSeemsAhead; }

private:
    [[nodiscard]] Result<void> settleClock(OpenLog& open, bool waits);
    [[nodiscard]] Result<void> settleTexts(const Gate& gate, const Doubted& doubted);
    [[nodiscard]] Result<void> settleValues(const Gate& gate, const Doubted& doubted);
    [[nodiscard]] bool canAsk() const;
    [[nodiscard]] bool isStoodBy(const std::string& about, std::string_view question,
                                 const words::Gaps& gaps);

    const Surroundings& m_surroundings;
    std::set<std::string> m_stoodBy{};
    std::vector<std::string> m_warnings{};
    bool m_clockSeemsAhead = false;
};

}  // namespace station
