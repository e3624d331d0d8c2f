// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A state from a kept one and the records after it: the warm path. Where it cannot be told that the
// answer would be the same, there is none, and the log must be read from its first record on.
#pragma once

#include "station/folded_log.h"
#include "station/standing.h"
#include "station/state_reading.h"

#include <memory>
#include <optional>

namespace station {

class WarmLog {
public:
    enum class Answers { One, Many };  // how often it will be asked for a standing

    WarmLog(const Surroundings& surroundings, std::shared_ptr<const store::Logbook> logbook,
            Answers answers)
        : m_surroundings(surroundings), m_logbook(std::move(logbook)), m_answers(answers),
          m_log(surroundings, *m_logbook, FoldedLog::Kept::Use,
                {.isAskedOnce = answers == Answers::One}) {}

    // Without a state to begin with: whether to fold from the first record on, or give no answer.
    enum class Otherwise { Fold, Leave };

    // As readStanding; nothing where the log must be read. The answers look records up by a
    // connection that they share.
    [[nodiscard]] Result<std::optional<Standing>> standing(const LogbookFile& file,
                                                           const Asked& asked,
                                                           Otherwise otherwise);

    // The state of the next answer holds that unit alone; all units, if it is none.
    void about(std::optional<std::string> device) { m_device = std::move(device); }

private:
    // A copy, or for the one answer that is wanted the state itself.
    [[nodiscard]] rules::State stateOf(const Folded& folded);

    // Takes note of what has come in, and of what the logbook knows of just that log.
    [[nodiscard]] Result<LogbookFacts> catchUp();
    [[nodiscard]] Result<bool> isEnough(const LogbookFacts& facts, logbook::Instant at,
                                        Otherwise otherwise);

    // Beside the connection of this one: by another thread, perhaps.
    [[nodiscard]] Result<words::RecordLookup> lookup(const LogbookFile& file);

    const Surroundings& m_surroundings;
    std::shared_ptr<const store::Logbook> m_logbook;
    Answers m_answers;
    FoldedLog m_log;
    std::optional<std::string> m_device;
    std::shared_ptr<LookedUpLog> m_lookedUp;  // null before the first answer
};

}  // namespace station
