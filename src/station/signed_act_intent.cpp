// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is looked at before anybody is asked for anything: badges, the format, forms, and what an
// entry says it takes the place of; see signed_act.h.
#include "station/signed_act.h"

#include "station/forms.h"
#include "store/foreign_schema.h"
#include "store/page_damage.h"
#include "store/second_name.h"

#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Record;

// The first edition is nobody's to sign for; another is, also where the first cannot be read.
bool isFirstEdition(const OpenLog& open) {
    const auto& log = open.log();
    return log.log.groundwork().adoptions().empty() && log.unread.empty() && log.gone.empty() &&
           !open.damage();
}

bool waitsAt(const OpenLog& open, logbook::Kind kind, const std::string& device,
             logbook::Instant at) {
    const auto& log = open.log();
    if (log.log.firstEdition()) {
        return waitsForPin(stateOf(log, at), kind, device);
    }
    return kind == logbook::Kind::Adopt ? !isFirstEdition(open)
                                        : waitsForPin(rules::State{}, kind, device);
}

bool waits(const OpenLog& open, const Record& record) {
    return waitsAt(open, record.kind(), record.device, record.at);
}

bool mayWait(const OpenLog& open, const Entry& entry) {
    const auto kind = logbook::kindOf(entry.kind);
    const auto at = entry.at.value_or(open.surroundings().clock.now());
    return !kind || waitsAt(open, *kind, entry.device, at);
}

bool isStruck(const rules::Log& log, const std::string& record) {
    const auto name = logbook::parseRecordName(record);
    const auto index = name ? log.find(*name) : std::nullopt;
    return index && log.struckBy(*index) != nullptr;
}

// Whom a `person` record is about; empty for other kinds.
std::string personNamed(const Entry& entry) {
    const auto body = json::Value(entry.body);
    const auto* person = entry.kind == "person" ? body.find("person") : nullptr;
    return person != nullptr && person->string() != nullptr ? *person->string() : std::string();
}

}  // namespace

Result<void> SignedAct::intend() {
    auto intended = m_intent(m_open);
    if (!intended) {
        return tl::unexpected(std::move(intended.error()));
    }
    m_intended = std::move(*intended);
    for (const auto step :
         {&SignedAct::readBadges, &SignedAct::checkFormats, &SignedAct::checkForms}) {
        if (auto sound = (this->*step)(); !sound) {
            return sound;
        }
    }
    return {};
}

// A badge stands for its person wherever one is named.
Result<void> SignedAct::readBadges() {
    for (auto& intended : m_intended) {
        auto& entry = intended.entry;
        if (intended.isReentry()) {
            continue;
        }
        const auto done = m_open.gate().personOf(entry.doneBy.value_or(""));
        const auto named = personNamed(entry);
        const auto found = m_open.gate().personOf(named);
        // What must not wait is not held up by a name either.
        if (!found || (!done && mayWait(m_open, entry))) {
            return tl::unexpected(done ? found.error() : done.error());
        }
        if (done && entry.doneBy) {
            entry.doneBy = *done;
        }
        if (*found != named) {
            return tl::unexpected(problemOf(m_open.surroundings().words, "people.key_is_badge",
                                            {{"person", named}}));
        }
    }
    return {};
}

// What is no record is refused before anybody is asked for anything.
Result<void> SignedAct::checkFormats() {
    const auto name = firstName();
    if (!name) {
        return tl::unexpected(name.error());
    }
    m_waits = m_founding != nullptr || m_intended.empty();
    for (const auto& intended : m_intended) {
        const auto& entry = intended.entry;
        const auto record = recordOf(m_open.surroundings(), {entry, {entry.by.who, "", true}},
                                     *name, m_open.surroundings().clock.now());
        if (!record) {
            return tl::unexpected(about(intended, record.error()));
        }
        m_waits = m_waits || waits(m_open, *record);
    }
    return {};
}

Problem SignedAct::pagesDamaged() const {
    return problemOf(m_open.surroundings().words, "trouble.pages_damaged",
                     {{"path", m_open.logbook().path().string()}}, Problem::Weight::Logbook);
}

// Before anybody is asked for anything.
Result<void> SignedAct::refuseDamaged() {
    if (!m_waits) {
        return {};
    }
    if (m_open.damage()) {
        return tl::unexpected(*m_open.damage());
    }
    if (const auto named = store::refuseSecondName(m_open.logbook().path())) {
        return tl::unexpected(problemOf(m_open.surroundings().words, *named));
    }
    const auto& verified = m_open.log().verification;
    // Where entries are gone that is told first, by what they are wanted for.
    const bool isGone = !m_open.log().gone.empty() || (verified && !verified->breaks.empty());
    if (auto refused = isGone ? Result<void>() : refuseForeign(); !refused) {
        return refused;
    }
    return verified && store::arePagesDamaged(*verified) ? tl::unexpected(pagesDamaged())
                                                         : Result<void>();
}

// Whoever has changed the schema may have changed what will become of an entry.
Result<void> SignedAct::refuseForeign() {
    const auto foreign =
        m_waits ? store::foreignSchemaAt(m_open.logbook().path()) : std::nullopt;
    return foreign ? tl::unexpected(problemOf(m_open.surroundings().words, *foreign))
                   : Result<void>();
}

Result<void> SignedAct::checkForms() {
    for (const auto& intended : m_intended) {
        const auto& entry = intended.entry;
        const auto& words = m_open.surroundings().words;
        if (!m_waits || intended.isReentry()) {
            continue;
        }
        if (entry.movedFrom && !isStruck(m_open.log().log, *entry.movedFrom)) {
            return tl::unexpected(
                problemOf(words, "entry.not_moved", {{"record", *entry.movedFrom}}));
        }
        if (!entry.form) {
            continue;
        }
        if (standingOf(m_open.log(), *entry.form) == FormStanding::NotYet) {
            return tl::unexpected(problemOf(words, "entry.form_not_issued",
                                            {{"form", *entry.form},
                                             {"station", *m_open.log().ownStation}}));
        }
        const auto record = recordOf(m_open.surroundings(), {entry, {entry.by.who, "", true}},
                                     *firstName(), m_open.surroundings().clock.now());
        if (const auto* before = enteredBefore(m_open.log().log, *record)) {
            return tl::unexpected(problemOf(words, "entry.form_entered",
                                            {{"form", *entry.form},
                                             {"record", toText(before->name)}}));
        }
    }
    return {};
}

}  // namespace station
