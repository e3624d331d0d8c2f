// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The steps of an act, in their order; see signed_act.h.
#include "station/signed_act.h"

#include "logbook/text.h"
#include "station/clock_doubt.h"
#include "station/damage.h"
#include "station/entry_check.h"
#include "station/forms.h"
#include "store/foreign_schema.h"
#include "store/page_damage.h"
#include "store/second_name.h"

#include <cstdio>
#include <cstdlib>
#include <utility>

namespace station {

namespace {

using logbook::Instant;
using logbook::Record;
using logbook::RecordName;

Problem logMoved(const words::Words& words) {
    return problemOf(words, store::Trouble{store::Trouble::Code::LogMoved});
}

// Why what can wait is not written.
std::optional<store::Trouble> refusedAt(const std::filesystem::path& path) {
    auto named = store::refuseSecondName(path);
    return named ? named : store::refuseSchemaAt(path);
}

}  // namespace

Result<Kept> SignedAct::write(const Writer& by) {
    m_by = &by;
    return run();
}

Result<Kept> SignedAct::found(Founding& founding) {
    m_founding = &founding;
    return run();
}

Result<Kept> SignedAct::run() {
    const auto& words = m_open.surroundings().words;
    if (auto done = keep(); !done) {
        return tl::unexpected(!m_waits && cannotBeKept(done.error())
                                  ? onPaper(words, std::move(done.error()))
                                  : std::move(done.error()));
    }
    // Nothing that can wait is written into a file that is damaged.
    if (!m_records.empty() && !m_open.damage()) {
        noteTheClock();
    }
    Kept kept{std::move(m_records), *m_signature, std::move(m_checked), m_doubts->warnings()};
    kept.warnings.insert(kept.warnings.end(), m_missing.begin(), m_missing.end());
    for (auto& told : m_open.damageTold(m_waits)) {
        kept.warnings.push_back(std::move(told));
    }
    return kept;
}

Result<void> SignedAct::keep() {
    for (int times = 1;; ++times) {
        if (auto ready = prepare(); !ready) {
            return ready;
        }
        // What must not wait is written in the end, whatever the others do.
        const bool isLast = times == OpenLog::mostAttempts;
        const auto moved = m_open.hasMoved();
        if (!moved) {
            return tl::unexpected(moved.error());
        }
        if (!*moved || isLast) {
            const auto done = append(m_waits || m_onlyAsJudged || !isLast);
            if (!done) {
                return tl::unexpected(done.error());
            }
            if (*done) {
                return {};
            }
        }
        if (isLast) {
            return tl::unexpected(logMoved(m_open.surroundings().words));
        }
        if (auto current = m_open.catchUp(); !current) {
            return current;
        }
    }
}

Result<void> SignedAct::prepare() {
    for (const auto step : {&SignedAct::intend, &SignedAct::refuseDamaged, &SignedAct::sign,
                            &SignedAct::signWitnesses, &SignedAct::settle}) {
        if (auto done = (this->*step)(); !done) {
            return done;
        }
    }
    return {};
}

bool SignedAct::byIssuedForm(const Entry& entry) const {
    return entry.form && standingOf(m_open.log(), *entry.form) == FormStanding::Issued;
}

// Whoever has left since they signed in is taken at their word, as if they had not, where nothing
// is to wait.
Result<Signature> SignedAct::renewed() const {
    auto signature = m_open.gate().renewed(*m_signature);
    if (!signature && !m_waits) {
        auto atTheirWord = *m_signature;
        atTheirWord.confirmed = atTheirWord.isManager = atTheirWord.isKnown = false;
        atTheirWord.remarks.push_back(signature.error().notice.says);
        return atTheirWord;
    }
    return signature;
}

// Who has signed in is asked no more, but looked up in what others have written since.
Result<void> SignedAct::sign() {
    if (m_founding != nullptr) {
        m_signature = m_founding->manager;
        return m_firstPin ? Result<void>() : askFirstPin();
    }
    const auto& gate = m_open.gate();
    const bool isSigned = m_signature && (m_signature->confirmed || !m_waits);
    auto signature = isSigned  ? renewed()
                     : m_waits ? gate.sign(*m_by)
                               : gate.signUnwaiting(*m_by);
    if (!signature && signature.error().code == "sign_in.nobody") {
        // Nobody is known where the edition itself is of no use.
        const auto& words = m_open.surroundings().words;
        const auto& faults = m_open.log().log.groundwork().faults();
        return tl::unexpected(lackOfEdition(
            m_open.surroundings(), m_open.log(),
            faults.empty() ? std::move(signature.error()) : problemOf(words, faults.front())));
    }
    if (!signature) {
        return tl::unexpected(std::move(signature.error()));
    }
    m_signature = std::move(*signature);
    return {};
}

Result<void> SignedAct::askFirstPin() {
    auto pin = askNewPin(m_open.surroundings().words, m_founding->askPin,
                         m_founding->manager.name);
    if (!pin) {
        return tl::unexpected(std::move(pin.error()));
    }
    m_firstPin = std::move(*pin);
    return {};
}

Result<void> SignedAct::signWitnesses() {
    for (auto& intended : m_intended) {
        auto& entry = intended.entry;
        if (!entry.witness || intended.isReentry()) {
            continue;
        }
        // Who has signed the form need not be here, but cannot be the one who did it.
        const bool onForm = byIssuedForm(entry) && entry.witness->who != entry.doneBy;
        if (auto done = onForm ? Result<void>() : signWitness(entry); !done) {
            return done;
        }
    }
    return {};
}

// A second person verifies in their own name. What must not wait does not wait for them either.
Result<void> SignedAct::signWitness(Entry& entry) {
    const auto& gate = m_open.gate();
    const auto who = entry.witness->who;
    const auto& words = m_open.surroundings().words;
    if (!m_witnesses.contains(who)) {
        const auto signature = gate.sign(*entry.witness);
        if (!signature && m_waits) {
            return tl::unexpected(signature.error());
        }
        m_witnesses[who] = signature ? std::optional(signature->person) : std::nullopt;
        if (!signature) {
            m_missing.push_back(words.say("entry.witness_left_out",
                                          {{"person", gate.nameOf(who)},
                                           {"reason", signature.error().notice.says}}));
        }
    }
    auto& person = m_witnesses[who];
    if (person && !gate.knows(*person)) {
        auto unknown = gate.unknownPerson(*person);
        if (m_waits) {
            return tl::unexpected(std::move(unknown));
        }
        m_missing.push_back(words.say("entry.witness_left_out",
                                      {{"person", gate.nameOf(*person)},
                                       {"reason", unknown.notice.says}}));
        person.reset();
    }
    if (person && (person == m_signature->person || person == entry.doneBy)) {
        auto same = problemOf(words, "entry.same_witness", {{"person", gate.nameOf(*person)}});
        if (m_waits) {
            return tl::unexpected(std::move(same));
        }
        m_missing.push_back(same.notice.says);
        person.reset();
    }
    entry.witness = person ? std::optional(Writer(*person)) : std::nullopt;
    return {};
}

Result<void> SignedAct::settle() {
    if (!m_doubts) {
        m_doubts.emplace(m_open.surroundings());
    }
    std::vector<Entry*> stated;
    for (auto& intended : m_intended) {
        if (!intended.isReentry()) {
            stated.push_back(&intended.entry);
        }
    }
    return m_doubts->settle(m_open, {std::move(stated), m_signature->person, m_waits});
}

Problem SignedAct::about(const Intended& intended, Problem problem) const {
    if (intended.of) {
        problem.details.insert(problem.details.begin(),
                               m_open.surroundings().words.say(
                                   "correction.of_entry", {{"record", toText(*intended.of)}}));
    }
    return problem;
}

Result<RecordName> SignedAct::firstName() const {
    if (m_founding == nullptr) {
        // Where it is kept that page may be the one that cannot be read.
        return !m_open.log().ownStation && m_open.damage()
                   ? Result<RecordName>(tl::unexpected(*m_open.damage()))
                   : nextName(m_open.surroundings(), m_open.log());
    }
    const auto& station = m_founding->station;
    // One that was typed wrongly is told of the record that it would be in.
    return logbook::isStationName(station)
               ? nextName(m_open.surroundings(), m_open.log(), station)
               : RecordName{station, 1};
}

// The intended as records, from `name` on.
std::vector<Record> SignedAct::recordsFrom(RecordName name, Instant now) const {
    std::vector<Record> records;
    for (const auto& intended : m_intended) {
        auto record = recordOf(m_open.surroundings(), {intended.entry, *m_signature}, name, now);
        if (!record) {
            std::fputs("signed act: what was held for a record is none\n", stderr);
            std::abort();
        }
        records.push_back(std::move(*record));
        ++name.seq;
    }
    return records;
}

Result<void> SignedAct::judge(Instant now) {
    const auto name = firstName();
    if (!name) {
        return tl::unexpected(name.error());
    }
    m_checked.clear();
    m_records.clear();
    m_state.reset();
    auto next = *name;
    for (const auto& intended : m_intended) {
        const auto record =
            recordOf(m_open.surroundings(), {intended.entry, *m_signature}, next, now);
        ++next.seq;
        if (!record) {
            return tl::unexpected(about(intended, record.error()));
        }
        auto checked = judgeOne(intended, *record);
        if (!checked) {
            return tl::unexpected(about(intended, std::move(checked.error())));
        }
        addUnknown(intended, *checked);
        m_checked.push_back(std::move(*checked));
        m_records.push_back(*record);
    }
    return {};
}

Result<std::vector<std::string>> SignedAct::judgeOne(const Intended& intended,
                                                     const Record& record) {
    const auto& surroundings = m_open.surroundings();
    const auto& log = m_open.log();
    WriterStanding writer{m_open.gate().people(), m_open.gate().asOf(),
                          intended.isReentry() || byIssuedForm(intended.entry)};
    if (m_inTurn && !m_records.empty()) {
        return checkEntry(surroundings, extended(surroundings, log, m_records), record, writer);
    }
    // One act often holds many entries of one moment.
    if (log.log.firstEdition() && (!m_state || m_state->first != record.at)) {
        m_state.emplace(record.at, stateOf(log, record.at));
    }
    writer.state = m_state ? &m_state->second : nullptr;
    auto checked = checkEntry(surroundings, log, record, writer);
    if (!checked && checked.error().code == "entry.no_edition") {
        return tl::unexpected(
            lackOfEdition(surroundings, m_open.log(), std::move(checked.error())));
    }
    return checked;
}

// Whoever is named beside the writer, and is nobody in the log.
void SignedAct::addUnknown(const Intended& intended, std::vector<std::string>& remarks) const {
    const auto& entry = intended.entry;
    const auto witness = entry.witness ? std::optional(entry.witness->who) : std::nullopt;
    for (const auto& person : {entry.doneBy, witness}) {
        if (person && !intended.isReentry() && m_open.gate().people() != nullptr &&
            !m_open.gate().knows(*person)) {
            remarks.push_back(m_open.gate().unknownTold(*person));
        }
    }
}

Result<bool> SignedAct::append(bool onlyAsRead) {
    const auto now = m_open.surroundings().clock.now();
    if (auto judged = judge(now); !judged) {
        return tl::unexpected(std::move(judged.error()));
    }
    if (m_founding != nullptr) {
        return appendFirst(now);
    }
    if (m_intended.empty()) {
        return true;
    }
    std::optional<store::Trouble> foreign;  // whoever has changed it since
    bool moved = false;
    bool damaged = false;  // as a verify has found since
    const auto build = [&](const RecordName& next) -> std::vector<Record> {
        const auto arrival = m_open.logbook().lastArrival();
        const auto verified = m_open.logbook().lastVerification();
        damaged = m_waits &&
                  (!verified || (*verified && store::arePagesDamaged(**verified)));
        moved = onlyAsRead && (!arrival || *arrival != m_open.log().arrival);
        foreign = m_waits ? refusedAt(m_open.logbook().path()) : std::nullopt;
        const bool isNone = moved || damaged || foreign;
        return m_records = isNone ? std::vector<Record>() : recordsFrom(next, now);
    };
    const auto written = m_open.logbook().appendOwn(build, {m_signature->person, now});
    if (!written) {
        return tl::unexpected(problemOf(m_open.surroundings().words, written.error()));
    }
    if (foreign) {
        return tl::unexpected(problemOf(m_open.surroundings().words, *foreign));
    }
    if (damaged) {
        return tl::unexpected(pagesDamaged());
    }
    return !moved;
}

Result<bool> SignedAct::appendFirst(Instant now) {
    const auto& words = m_open.surroundings().words;
    const auto build = [&](const RecordName& next) {
        return m_records = recordsFrom(next, now);
    };
    const auto begun =
        m_open.gate().credentials().onlyAt(m_open.log().arrival).begin(
            {m_signature->person, m_firstPin->text(), m_founding->code.text(),
             m_founding->station, build},
            {m_signature->person, now});
    if (!begun && begun.error().code == store::Trouble::Code::LogMoved) {
        return false;
    }
    if (!begun) {
        return tl::unexpected(problemOf(words, begun.error()));
    }
    if (!*begun) {
        return tl::unexpected(problemOf(words, "people.begun"));
    }
    return true;
}

// It is on the disk: that the clock could not be noted makes it no less.
void SignedAct::noteTheClock() {
    const auto& surroundings = m_open.surroundings();
    if (m_doubts->clockSeemsAhead()) {
        (void)noteClockAhead(surroundings, m_open.logbook(), m_open.log(),
                             m_records.back().name.seq);
    } else {
        (void)noteClock(surroundings, m_open.logbook());
    }
}

}  // namespace station
