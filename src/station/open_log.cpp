// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the log of an open logbook, and reading it again; see open_log.h.
#include "station/open_log.h"

#include "station/damage.h"
#include "store/foreign_schema.h"
#include "store/second_name.h"

#include <utility>

namespace station {

OpenLog::OpenLog(const Surroundings& surroundings, const LogbookFile& file,
                 store::Logbook logbook, NeededBy neededBy, IfDamaged ifDamaged)
    : m_surroundings(surroundings), m_file(file), m_logbook(std::move(logbook)),
      m_identity(system::identityOf(file.path)), m_neededBy(std::move(neededBy)),
      m_ifDamaged(ifDamaged) {}

Result<std::unique_ptr<OpenLog>> OpenLog::open(const Surroundings& surroundings,
                                               const LogbookFile& file, NeededBy neededBy,
                                               IfDamaged ifDamaged) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    std::unique_ptr<OpenLog> open(
        new OpenLog(surroundings, file, std::move(*logbook), std::move(neededBy), ifDamaged));
    if (auto read = open->read(); !read) {
        return tl::unexpected(std::move(read.error()));
    }
    return open;
}

Result<LogAtHand> OpenLog::readNeeded() const {
    if (!m_neededBy) {
        return readWhole();
    }
    const auto needed = m_neededBy(m_logbook);
    if (!needed) {
        return tl::unexpected(needed.error());
    }
    auto log = readAtHand(m_surroundings, m_file, m_logbook, *needed);
    // Where an index leads to no edition there may be one all the same.
    return log && !log->log.firstEdition() ? readWhole() : log;
}

Result<LogAtHand> OpenLog::readWhole() const {
    return readWholeLog(m_surroundings, m_logbook).map([](WholeLog&& whole) {
        return LogAtHand{std::move(whole)};
    });
}

Result<void> OpenLog::read() {
    auto log = readNeeded();
    m_damage.reset();
    if (!log && m_ifDamaged == IfDamaged::ReadRound && isOfDamage(log.error())) {
        m_damage = std::move(log.error());
        log = readWholeLog(m_surroundings, m_file).map([](WholeLog&& whole) {
            return LogAtHand{std::move(whole)};
        });
    }
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    m_log.emplace(std::move(*log));
    m_gate.emplace(m_surroundings, m_file, *m_log);
    return {};
}

std::vector<std::string> OpenLog::damageTold(bool waits) const {
    const auto& words = m_surroundings.words;
    std::vector<std::string> told;
    if (m_log->verification && !m_log->verification->ok) {
        told.push_back(words.say("verify.file_damaged"));
    } else if (m_damage) {
        const bool isDisk = m_damage->code == "trouble.unreadable";
        told.push_back(words.say(isDisk ? "verify.read_round_disk" : "verify.read_round"));
    } else if (!waits && store::foreignSchemaAt(m_logbook.path())) {
        told.push_back(words.say("verify.file_damaged"));
    } else {
        told = breaksKnown(words, *m_log);
    }
    if (!waits && m_damage && !m_log->log.firstEdition()) {
        told.push_back(alsoOnPaper(words));
    }
    if (const auto named = store::refuseSecondName(m_logbook.path()); named && !waits) {
        const auto said = problemOf(words, *named).notice;
        told.push_back(said.says + " " + words.say("entry.on_paper_too", {{"do", said.action}}));
    }
    return told;
}

Result<bool> OpenLog::hasMoved() const {
    if (system::identityOf(m_file.path) != m_identity) {
        return tl::unexpected(otherFile(m_surroundings, m_file));
    }
    return m_logbook.lastArrival()
        .map([&](std::int64_t arrival) {
            return arrival != m_log->arrival || !m_log->reaches(m_surroundings.clock.now());
        })
        .map_error([&](const store::Trouble& trouble) {
            return problemOf(m_surroundings.words, trouble);
        });
}

Result<void> OpenLog::catchUp() {
    const auto moved = hasMoved();
    if (!moved) {
        return tl::unexpected(moved.error());
    }
    return *moved ? read() : Result<void>();
}

}  // namespace station
