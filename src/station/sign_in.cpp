// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in; see sign_in.h.
#include "station/sign_in.h"

#include "rules/authority.h"
#include "rules/people.h"
#include "station/log_at_hand.h"
#include "words/as_word.h"

#include <algorithm>

namespace station {

namespace {

using Outcome = store::Trial::Outcome;

std::string_view wordOf(PinFault fault) {
    switch (fault) {
        case PinFault::NotDigits: return "pin.not_digits";
        case PinFault::TooShort: return "pin.too_short";
        case PinFault::AllEqual: return "pin.all_equal";
        case PinFault::Sequence: break;
    }
    return "pin.sequence";
}

}  // namespace

std::string secondsOf(logbook::Duration wait) {
    return std::to_string((wait.ms + 999) / 1000);
}

Result<Secret> askNewPin(const words::Words& words, const AskPin& ask, const std::string& name) {
    auto pin = ask ? ask(name) : std::nullopt;
    if (!pin) {
        return tl::unexpected(problemOf(words, "pin.not_given", {{"person", name}}));
    }
    if (const auto fault = faultOf(*pin)) {
        return tl::unexpected(problemOf(words, wordOf(*fault)));
    }
    return std::move(*pin);
}

Gate::Gate(const Surroundings& surroundings, const LogbookFile& file, const WholeLog& log)
    : m_surroundings(surroundings),
      m_file(file),
      m_identity(system::identityOf(file.path)),
      m_now(surroundings.clock.now()),
      m_asOf(std::max(m_now, log.reached)),
      m_mayBeUnread(!log.unread.empty() || !log.gone.empty() || log.isDamaged) {
    if (log.log.firstEdition()) {
        m_people = rules::peopleAt(log.log, m_asOf);
    }
}

const rules::State* Gate::people() const {
    return m_people ? &*m_people : nullptr;
}

bool Gate::knows(const std::string& person) const {
    return m_people && rules::isKnown(*m_people, person, m_asOf);
}

bool Gate::isManager(const std::string& person) const {
    return m_people && rules::isManager(*m_people, person, m_asOf);
}

store::Credentials Gate::credentials() const {
    return store::Credentials(m_file.path, m_file.trustLocks);
}

store::Writing Gate::writing(const std::string& person) const {
    return {person, m_surroundings.clock.now()};
}

Result<bool> Gate::isUnopened() const {
    const auto pins = credentials().pins();
    if (!pins) {
        return tl::unexpected(problemOf(m_surroundings.words, pins.error()));
    }
    return pins->empty();
}

Result<std::string> Gate::personOf(const std::string& who) const {
    if (who.empty() || knows(who)) {
        return who;
    }
    const auto badges = credentials().badges();
    if (!badges) {
        return tl::unexpected(problemOf(m_surroundings.words, badges.error()));
    }
    const auto found = std::ranges::find(*badges, who, &store::Badge::badge);
    return found == badges->end() ? who : found->person;
}

std::string Gate::nameOf(const std::string& person) const {
    if (m_people) {
        const auto found = m_people->persons.find(person);
        if (found != m_people->persons.end() && !found->second.person.name.empty()) {
            return found->second.person.name;
        }
    }
    return person;
}

Problem Gate::unknownPerson(const std::string& who) const {
    const bool nobody = !m_people || m_people->persons.empty();
    return problemOf(m_surroundings.words,
                     nobody          ? "sign_in.nobody"
                     : m_mayBeUnread ? "sign_in.unknown_unread"
                                     : "sign_in.unknown",
                     {{"person", who}, {"logbook", words::asWord(m_file.path.string())}});
}

std::string Gate::unknownTold(const std::string& who) const {
    return m_surroundings.words.say(
        m_mayBeUnread ? "entry.person_unread" : "entry.unknown_person", {{"person", who}});
}

Problem Gate::noPinGiven(const std::string& person) const {
    return problemOf(m_surroundings.words, "sign_in.no_pin_given", {{"person", nameOf(person)}});
}

std::optional<Problem> Gate::refusalOf(const store::Trial& trial,
                                       const std::string& person) const {
    const words::Gaps gaps{{"person", nameOf(person)},
                           {"key", person},
                           {"wait", secondsOf(trial.wait)},
                           {"left", std::to_string(store::failuresUntilLocked - trial.failures)},
                           {"logbook", words::asWord(m_file.path.string())}};
    switch (trial.outcome) {
        case Outcome::Right: return std::nullopt;
        case Outcome::Waiting: return problemOf(m_surroundings.words, "sign_in.waiting", gaps);
        case Outcome::Locked: return problemOf(m_surroundings.words, "sign_in.locked", gaps);
        case Outcome::Wrong:
            return problemOf(m_surroundings.words,
                             trial.failures < store::failuresUntilLocked ? "sign_in.wrong"
                                                                         : "sign_in.locked",
                             gaps);
        case Outcome::NotSet: break;
    }
    return problemOf(m_surroundings.words, "sign_in.no_pin_here", gaps);
}

Session Gate::sessionOf(const std::string& person) const {
    Session session;
    session.m_person = person;
    session.m_name = nameOf(person);
    session.m_since = m_surroundings.clock.now();
    session.m_isManager = isManager(person);
    session.m_logbook = m_file.path;
    return session;
}

Result<Session> Gate::signIn(const std::string& who, const Secret& pin) const {
    const auto person = personOf(who);
    if (!person) {
        return tl::unexpected(person.error());
    }
    if (!knows(*person)) {
        return tl::unexpected(unknownPerson(*person));
    }
    // A PIN that was typed for the file that stood here is not tried at another.
    if (system::identityOf(m_file.path) != m_identity) {
        return tl::unexpected(otherFile(m_surroundings, m_file));
    }
    const auto trial = credentials().tryPin(*person, pin.text(), [this] {
        return m_surroundings.clock.now();
    });
    if (!trial) {
        return tl::unexpected(problemOf(m_surroundings.words, trial.error()));
    }
    if (auto refused = refusalOf(*trial, *person)) {
        return tl::unexpected(*std::move(refused));
    }
    return sessionOf(*person);
}

Result<Signature> Gate::signBySession(const Session& session) const {
    // A session is for the logbook it was made at, while its person is known there.
    if (session.m_logbook != m_file.path || !knows(session.person())) {
        return tl::unexpected(unknownPerson(session.person()));
    }
    const auto now = sessionOf(session.person());
    return Signature{now.person(), now.name(), true, now.isManager()};
}

Result<Signature> Gate::renewed(const Signature& signature) const {
    auto now = signature;
    now.isKnown = knows(signature.person);
    if (signature.confirmed && !now.isKnown) {
        return tl::unexpected(unknownPerson(signature.person));
    }
    now.name = nameOf(signature.person);
    now.isManager = isManager(signature.person);
    return now;
}

Result<Signature> Gate::sign(const Writer& writer) const {
    if (writer.session) {
        return signBySession(*writer.session);
    }
    const auto person = personOf(writer.who);
    if (!person) {
        return tl::unexpected(person.error());
    }
    if (!knows(*person)) {
        return tl::unexpected(unknownPerson(*person));
    }
    const auto pins = credentials().pins();
    if (!pins) {
        return tl::unexpected(problemOf(m_surroundings.words, pins.error()));
    }
    // Nobody is asked for what cannot be right.
    if (std::ranges::find(*pins, *person, &store::Credential::person) == pins->end()) {
        return tl::unexpected(
            pins->empty() ? problemOf(m_surroundings.words, "sign_in.not_begun",
                                      {{"logbook", words::asWord(m_file.path.string())}})
                          : *refusalOf({Outcome::NotSet}, *person));
    }
    const auto pin = writer.ask ? writer.ask(nameOf(*person)) : std::nullopt;
    if (!pin || pin->text().empty()) {
        return tl::unexpected(noPinGiven(*person));
    }
    const auto session = signIn(*person, *pin);
    if (!session) {
        return tl::unexpected(session.error());
    }
    return Signature{session->person(), session->name(), true, session->isManager()};
}

Result<Signature> Gate::signUnwaiting(const Writer& writer) const {
    const auto person = personOf(writer.who).value_or(writer.who);
    Signature signature{person, nameOf(person), false, false, knows(person)};
    if (writer.session || (writer.offered && writer.ask)) {
        auto signedIn = sign(writer);
        if (signedIn) {
            return signedIn;
        }
        const auto& problem = signedIn.error();
        const bool isUntold = m_mayBeUnread && problem.code == "sign_in.nobody";
        signature.remarks.push_back(isUntold ? unknownTold(person) : problem.notice.says);
    } else if (!knows(person)) {
        signature.remarks.push_back(m_surroundings.words.say(
            m_mayBeUnread ? "sign_in.taken_unread" : "sign_in.taken_unknown",
            {{"person", person}}));
    }
    return signature;
}

Signature Gate::signatureOfFounder(const std::string& person, const std::string& name) const {
    return {person, name, true, true};
}

Result<Session> signIn(const Surroundings& surroundings, const LogbookFile& file,
                       const std::string& who, const Secret& pin) {
    const auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto log = readAtHand(surroundings, file, *logbook, {});
    if (!log) {
        return tl::unexpected(log.error());
    }
    return Gate(surroundings, file, *log).signIn(who, pin);
}

}  // namespace station
