// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One act of one person that writes: they sign in, doubts are settled, each record is held against
// the log, all are appended together or none, and the clock is noted. Others may write between the
// first question and the last answer: then all is judged anew on what they wrote, and nobody is
// asked the same twice. Knows no use case.
#pragma once

#include "station/doubts.h"
#include "station/entry.h"
#include "station/open_log.h"
#include "station/own_records.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace station {

struct Intended {
    Entry entry;
    // The entry that it corrects, which a refusal names.
    std::optional<logbook::RecordName> of{};

    // What takes the place of an entry keeps what was verified then.
    [[nodiscard]] bool isReentry() const { return of && entry.movedFrom; }
};

// What the act writes, by the log as it stands; nothing, if there is nothing to write. Asked again
// whenever the log has moved.
using Intent = std::function<Result<std::vector<Intended>>(const OpenLog& open)>;

struct Kept {
    std::vector<logbook::Record> records;
    Signature signature;
    // Of each record: what it does not do, or what is odd about it.
    std::vector<std::vector<std::string>> checked{};
    std::vector<std::string> warnings{};  // what was doubted, and of the logbook
};

// The first start of a station, at which nobody can sign in yet.
struct Founding {
    std::string station;
    Signature manager;
    AskPin askPin{};  // for the PIN that they will have
    Secret code{};    // gives a manager a new one
};

class SignedAct {
public:
    // The log must outlive it, and hold what is needed for whatever may be intended. After writing
    // it is that before the records written.
    SignedAct(OpenLog& open, Intent intent) : m_open(open), m_intent(std::move(intent)) {}

    // Each entry is held against the log with those before it, not against the log as it stands.
    void inTurn() { m_inTurn = true; }
    // Nothing is written but by the log as it was judged, also where it must not wait: then that
    // the log has moved is a refusal in the end.
    void onlyAsJudged() { m_onlyAsJudged = true; }

    // Refused, with nothing written: what is no record, a form that this station has not printed,
    // who has not signed in where that is needed, what they do not stand by, what checkEntry
    // refuses. Nobody is asked for anything before the first two.
    [[nodiscard]] Result<Kept> write(const Writer& by);

    // The same, with the station's name and first PIN: all of it or nothing. Refused besides: a
    // station at which somebody has a PIN, a name that it cannot have, a PIN that is none.
    [[nodiscard]] Result<Kept> found(Founding& founding);

private:
    [[nodiscard]] Result<Kept> run();
    [[nodiscard]] Result<void> keep();
    [[nodiscard]] Result<void> prepare();
    [[nodiscard]] Result<void> intend();
    [[nodiscard]] Result<void> readBadges();
    [[nodiscard]] Result<void> checkFormats();
    [[nodiscard]] Result<void> checkForms();
    [[nodiscard]] Result<void> refuseDamaged();
    [[nodiscard]] Result<void> refuseForeign();
    [[nodiscard]] Problem pagesDamaged() const;
    [[nodiscard]] Result<void> sign();
    [[nodiscard]] Result<Signature> renewed() const;
    [[nodiscard]] Result<void> signWitnesses();
    [[nodiscard]] Result<void> signWitness(Entry& entry);
    [[nodiscard]] Result<void> askFirstPin();
    [[nodiscard]] Result<void> settle();
    [[nodiscard]] Result<void> judge(logbook::Instant now);
    [[nodiscard]] Result<std::vector<std::string>> judgeOne(const Intended& intended,
                                                            const logbook::Record& record);
    // False: the log has moved.
    [[nodiscard]] Result<bool> append(bool onlyAsRead);
    [[nodiscard]] Result<bool> appendFirst(logbook::Instant now);
    [[nodiscard]] Result<logbook::RecordName> firstName() const;
    [[nodiscard]] std::vector<logbook::Record> recordsFrom(logbook::RecordName name,
                                                           logbook::Instant now) const;
    [[nodiscard]] bool byIssuedForm(const Entry& entry) const;
    void addUnknown(const Intended& intended, std::vector<std::string>& remarks) const;
    [[nodiscard]] Problem about(const Intended& intended, Problem problem) const;
    void noteTheClock();

    OpenLog& m_open;
    Intent m_intent;
    const Writer* m_by = nullptr;
    Founding* m_founding = nullptr;
    bool m_inTurn = false;
    bool m_onlyAsJudged = false;

    std::vector<Intended> m_intended{};
    bool m_waits = true;  // whether somebody must have signed in
    std::optional<Signature> m_signature{};
    // Second persons, as they were named: who has signed in; none, if they have not.
    std::map<std::string, std::optional<std::string>> m_witnesses{};
    std::vector<std::string> m_missing{};  // why not
    std::optional<Secret> m_firstPin{};
    std::optional<Doubts> m_doubts{};
    std::vector<logbook::Record> m_records{};
    std::vector<std::vector<std::string>> m_checked{};
    std::optional<std::pair<logbook::Instant, rules::State>> m_state{};  // of the log, then
};

}  // namespace station
