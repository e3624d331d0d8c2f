// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook that is open to be written, with what is needed of its log and with where people sign
// in. Others may write while a person is asked for something: what was read can be told to be old,
// and read again.
#pragma once

#include "station/log_at_hand.h"
#include "station/sign_in.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace station {

// What it is opened with must outlive it.
class OpenLog {
public:
    // How often what rests on the log is judged anew, because others have written, before it is
    // given up.
    static constexpr int mostAttempts = 5;

    // What will be looked at of the log, by the file as it stands when it is read.
    using NeededBy = std::function<Result<Needed>(const store::Logbook&)>;

    // What is done where not all of the log can be read: to read round it is for who writes only
    // what must not wait.
    enum class IfDamaged { Refuse, ReadRound };

    // Without `neededBy` all of it.
    [[nodiscard]] static Result<std::unique_ptr<OpenLog>> open(
        const Surroundings& surroundings, const LogbookFile& file, NeededBy neededBy = {},
        IfDamaged ifDamaged = IfDamaged::Refuse);

    [[nodiscard]] const Surroundings& surroundings() const { return m_surroundings; }
    [[nodiscard]] store::Logbook& logbook() { return m_logbook; }
    [[nodiscard]] const LogAtHand& log() const { return *m_log; }  // as last read
    [[nodiscard]] const Gate& gate() const { return *m_gate; }
    // Why not all of it could be read; nothing where it could.
    [[nodiscard]] const std::optional<Problem>& damage() const { return m_damage; }
    // What whoever has written into it is told of the file; `waits`: it could have waited.
    [[nodiscard]] std::vector<std::string> damageTold(bool waits) const;

    // Whether records have come in since it was read, or the clock was set back behind what is at
    // hand of it. Refused where another file bears the name since.
    [[nodiscard]] Result<bool> hasMoved() const;
    // Reads it again if so.
    [[nodiscard]] Result<void> catchUp();

    // Calls `attempt`, which writes what rests on the log as it was read, and gives what it gives.
    // Where that is LogMoved, `judge` judges anew and it is called again.
    template <class Judge, class Attempt>
    [[nodiscard]] auto writeAsRead(Judge judge, Attempt attempt)
        -> Result<typename decltype(attempt())::value_type> {
        for (int times = 1;; ++times) {
            if (auto current = catchUp(); !current) {
                return tl::unexpected(std::move(current.error()));
            }
            if (Result<void> judged = judge(); !judged) {
                return tl::unexpected(std::move(judged.error()));
            }
            auto written = attempt();
            if (written) {
                return std::move(*written);
            }
            if (written.error().code != store::Trouble::Code::LogMoved || times == mostAttempts) {
                return tl::unexpected(problemOf(m_surroundings.words, written.error()));
            }
        }
    }

private:
    OpenLog(const Surroundings& surroundings, const LogbookFile& file, store::Logbook logbook,
            NeededBy neededBy, IfDamaged ifDamaged);
    [[nodiscard]] Result<LogAtHand> readNeeded() const;
    [[nodiscard]] Result<LogAtHand> readWhole() const;
    [[nodiscard]] Result<void> read();

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    store::Logbook m_logbook;
    std::optional<system::FileIdentity> m_identity;
    NeededBy m_neededBy;
    IfDamaged m_ifDamaged;
    std::optional<Problem> m_damage{};
    std::optional<LogAtHand> m_log;
    std::optional<Gate> m_gate;
};

}  // namespace station
