// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One walk over the log that notes every stay of every part, where each unit stood and when it was
// on a patient, and every reprocessing. What of it was asked for is chosen by trace.cpp; for that
// file only.
#pragma once

#include "rules/trace.h"

#include <map>
#include <string>
#include <vector>

namespace rules {

class TraceWalk {
public:
    // `notice` as it reads at the instant; null: none was asked for. Must outlive the walk.
    TraceWalk(const Log& log, const TraceQuestion& question, const KnownNotice* notice)
        : m_log(log), m_question(question), m_notice(notice) {}

    void run();

    // Their `spans` are empty: see spansOf().
    [[nodiscard]] const std::vector<TraceStay>& stays() const { return m_stays; }
    [[nodiscard]] const std::vector<TraceReprocess>& reprocesses() const { return m_reprocesses; }
    [[nodiscard]] const State& end() const { return m_state; }

    [[nodiscard]] std::vector<TraceSpan> spansOf(const TraceStay& stay) const;
    // Whether what the notice says of units held during the stay; true without a notice.
    [[nodiscard]] bool concerned(const TraceStay& stay) const;
    // Each unit while the notice concerned it, as stays without a part.
    [[nodiscard]] std::vector<TraceStay> unitsConcerned() const;

private:
    // From this record on the unit stood so.
    struct Turn {
        RecordRef record;
        std::string location;
        std::optional<RecordRef> use;
        bool paused = false;
        bool concerned = false;
    };
    struct Candidate {
        TraceReprocess reprocess;
        int cycles = 0;  // before the record
    };
    using OpenStays = std::map<std::string, std::size_t, std::less<>>;  // by position

    void take(const logbook::Record& record);
    [[nodiscard]] std::vector<Candidate> candidatesOf(const logbook::Record& record) const;
    [[nodiscard]] std::optional<std::size_t> openStay(const std::string& device,
                                                      const std::string& position) const;
    [[nodiscard]] int cyclesOf(const TraceReprocess& reprocess) const;
    void noteParts(const std::string& serial, const logbook::Record& record);
    void noteTurn(const std::string& serial, const logbook::Record& record);

    const Log& m_log;
    const TraceQuestion& m_question;
    const KnownNotice* m_notice;
    State m_state;
    std::vector<TraceStay> m_stays;
    std::vector<TraceReprocess> m_reprocesses;
    std::map<std::string, OpenStays> m_open;           // by unit
    std::map<std::string, std::vector<Turn>> m_turns;  // by unit
};

}  // namespace rules
