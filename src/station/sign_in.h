// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in: a person whom the log knows shows by their PIN that it is they who write. What may be
// written by whom is not asked here.
#pragma once

#include "station/open.h"
#include "station/secret.h"
#include "store/credentials.h"

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace station {

// Somebody who has signed in to one logbook. Made by signing in only.
class Session {
public:
    [[nodiscard]] const std::string& person() const { return m_person; }
    [[nodiscard]] const std::string& name() const { return m_name; }
    [[nodiscard]] logbook::Instant since() const { return m_since; }
    [[nodiscard]] bool isManager() const { return m_isManager; }  // may write `person`, then

private:
    friend class Gate;
    Session() = default;
    std::string m_person, m_name;
    logbook::Instant m_since{};
    bool m_isManager = false;
    std::filesystem::path m_logbook;
};

// Asks the person of that name for their PIN. Nothing: nobody was there to ask, or none was given.
using AskPin = std::function<std::optional<Secret>(const std::string& name)>;

// Who writes: somebody who has signed in, or a name, by person key or badge. With a way to ask for
// the PIN the name is signed in where that is needed; with `offered` also where it is not.
struct Writer {
    Writer(std::string name) : who(std::move(name)) {}  // NOLINT: a name is a writer
    Writer(const char* name) : who(name) {}             // NOLINT
    Writer(Session signedIn) : who(signedIn.person()), session(std::move(signedIn)) {}  // NOLINT

    std::string who;
    AskPin ask{};
    bool offered = false;
    std::optional<Session> session{};
};

// Of an entry: under whose name, and whether they have signed in for it.
struct Signature {
    std::string person;
    std::string name;
    bool confirmed = true;
    bool isManager = false;
    bool isKnown = true;                 // to the log, so that it can be confirmed
    std::vector<std::string> remarks{};  // why not, where a PIN was offered
};

// Refused: somebody whom the log does not know at this time; who has no PIN at this station; a
// wrong PIN, one tried too soon, or a locked one. Each failure is counted in the logbook.
[[nodiscard]] Result<Session> signIn(const Surroundings& surroundings, const LogbookFile& file,
                                     const std::string& who, const Secret& pin);

// Asks for a PIN that a person will have. Refused: none, and one that faultOf finds bad.
[[nodiscard]] Result<Secret> askNewPin(const words::Words& words, const AskPin& ask,
                                       const std::string& name);

// A wait as it is told: in whole seconds, none too few.
[[nodiscard]] std::string secondsOf(logbook::Duration wait);

// A logbook that is open to be written, with its log: where people sign in. References must outlive
// it.
class Gate {
public:
    Gate(const Surroundings& surroundings, const LogbookFile& file, const WholeLog& log);

    // Persons and edition as of now. A clock behind what it has shown for certain
    // (WholeLog::reached) is not believed: who has left would come back. Null without an edition.
    [[nodiscard]] const rules::State* people() const;
    [[nodiscard]] logbook::Instant now() const { return m_now; }    // by the clock, when made
    [[nodiscard]] logbook::Instant asOf() const { return m_asOf; }  // that, or what is certain
    [[nodiscard]] bool knows(const std::string& person) const;
    [[nodiscard]] bool isManager(const std::string& person) const;

    // The key of the person whose key or badge that is; as it is, if it is nobody's.
    [[nodiscard]] Result<std::string> personOf(const std::string& who) const;
    [[nodiscard]] std::string nameOf(const std::string& person) const;

    // As signIn.
    [[nodiscard]] Result<Session> signIn(const std::string& who, const Secret& pin) const;

    // Who must have signed in.
    [[nodiscard]] Result<Signature> sign(const Writer& writer) const;
    // Who is taken at their word if need be, so that nothing waits for a PIN.
    [[nodiscard]] Result<Signature> signUnwaiting(const Writer& writer) const;

    // One that was made with an older log, by this one; refused like a session.
    [[nodiscard]] Result<Signature> renewed(const Signature& signature) const;

    // The signature of one who sets their first PIN in the same act.
    [[nodiscard]] Signature signatureOfFounder(const std::string& person,
                                               const std::string& name) const;

    [[nodiscard]] store::Credentials credentials() const;
    [[nodiscard]] store::Writing writing(const std::string& person) const;  // at this moment
    // Whether nobody has a PIN at this station yet.
    [[nodiscard]] Result<bool> isUnopened() const;

    [[nodiscard]] Problem unknownPerson(const std::string& who) const;
    // That the log does not know them; where not all of it can be read, that nobody can tell.
    [[nodiscard]] std::string unknownTold(const std::string& who) const;
    // Why a try did not open; none if it did.
    [[nodiscard]] std::optional<Problem> refusalOf(const store::Trial& trial,
                                                   const std::string& person) const;

private:
    [[nodiscard]] Result<Signature> signBySession(const Session& session) const;
    [[nodiscard]] Problem noPinGiven(const std::string& person) const;
    [[nodiscard]] Session sessionOf(const std::string& person) const;

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    std::optional<system::FileIdentity> m_identity;  // of the file when the log was read
    logbook::Instant m_now;   // by the clock
    logbook::Instant m_asOf;  // for which persons are asked
    std::optional<rules::State> m_people;
    bool m_mayBeUnread = false;  // a person may be among what cannot be read
};

}  // namespace station
