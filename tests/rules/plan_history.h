// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random histories of one device under a rulebook that is given: its positions, checks, groups and
// conditions decide what happens, so that it goes for any. And plans carried out: a record for each
// task. The same seed gives the same history on every computer.
#pragma once

#include "rules/plan.h"
#include "support/random_log.h"

#include <memory>
#include <string>

namespace support {

using Book = std::shared_ptr<const rules::Rulebook>;

class RandomHistory {
public:
    // `text` is what `book` was read from.
    RandomHistory(std::uint32_t seed, const std::string& text, Book book);

    [[nodiscard]] const LogBuilder& log() const { return m_log; }
    [[nodiscard]] Random& random() { return m_random; }
    [[nodiscard]] Instant end() const { return m_at; }
    [[nodiscard]] std::string anyGroup();

    // As after the last record.
    [[nodiscard]] rules::State state() const;

    // Writes a record for each task, at its finish.
    void carryOut(const rules::Plan& plan);

private:
    Entry next(int mostMinutes = 90);
    void begin(const std::string& text);
    void equip();
    void step();
    void fitAny(const std::string& position);
    void attempt(const std::string& check, bool good);
    void stepOfUse();
    void stepOfTrouble();
    void waiveForMinutes();
    json::Object part(const std::string& position);
    json::Array someGroups();
    void addMeasures(Entry& entry, const rules::Check& check, const std::string& group);
    void carryOut(const rules::Task& task, const rules::State& before, const std::string& group);
    json::Object partFor(const rules::Task& task, const rules::State& before,
                         const std::string& group) const;

    Random m_random;
    Book m_book;
    LogBuilder m_log;
    Instant m_at = when("08:00");
};

}  // namespace support
