// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// First start, PINs and badges; see people.h.
#include "station/people.h"

#include "logbook/text.h"
#include "rules/people.h"
#include "station/own_records.h"
#include "words/record_words.h"

#include <utility>

namespace station {

namespace {

namespace json = logbook::json;

std::string_view wordOf(PinFault fault) {
    switch (fault) {
        case PinFault::NotDigits: return "pin.not_digits";
        case PinFault::TooShort: return "pin.too_short";
        case PinFault::AllEqual: return "pin.all_equal";
        case PinFault::Sequence: break;
    }
    return "pin.sequence";
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

Problem notManager(const Surroundings& surroundings, const Gate& gate, const std::string& person) {
    const auto& people = *gate.people();
    const words::Context context{surroundings.words, people, nullptr, gate.now(), {}, {}};
    return problemOf(surroundings.words, "people.not_manager",
                     {{"person", gate.nameOf(person)},
                      {"roles", words::rolesWithPeople(
                                    context, words::rolesFor(context, logbook::Kind::Person))}});
}

// An open logbook with its log, and where people sign in to it.
struct Opened {
    store::Logbook logbook;
    WholeLog log;
};

Result<Opened> open(const Surroundings& surroundings, const LogbookFile& file) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    auto log = readWholeLog(surroundings, *logbook);
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    return Opened{std::move(*logbook), std::move(*log)};
}

// The first start of one station.
class Starting {
public:
    Starting(const Surroundings& surroundings, const LogbookFile& file, Opened& opened,
             const FirstStart& start)
        : m_surroundings(surroundings), m_opened(opened), m_start(start),
          m_gate(surroundings, file, opened.log), m_begun{start.name.value_or(start.manager)} {}

    Result<Begun> run() {
        for (const auto step : {&Starting::checkStation, &Starting::draftAdoption,
                                &Starting::draftPerson, &Starting::openToManager}) {
            if (auto done = (this->*step)(); !done) {
                return tl::unexpected(std::move(done.error()));
            }
        }
        return std::move(m_begun);
    }

private:
    [[nodiscard]] tl::unexpected<Problem> refused(std::string_view code) const {
        return tl::unexpected(problemOf(m_surroundings.words, code,
                                        {{"person", m_begun.name}}));
    }

    Result<void> checkStation() {
        if (m_opened.log.ownStation && *m_opened.log.ownStation != m_start.station) {
            return nameStation();  // which says why not
        }
        const auto unopened = m_gate.isUnopened();
        if (!unopened) {
            return tl::unexpected(unopened.error());
        }
        return *unopened ? Result<void>() : refused("people.begun");
    }

    Result<void> nameStation() {
        return m_opened.logbook.setStation(m_start.station, m_gate.writing(m_start.manager))
            .map_error([&](const store::Trouble& trouble) {
                return problemOf(m_surroundings.words, trouble);
            });
    }

    Result<void> draftAdoption() {
        m_rulebook = m_opened.log.log.firstEdition();
        if (m_rulebook != nullptr) {
            return m_start.adoption ? refused("people.edition_is_there") : Result<void>();
        }
        if (!m_start.adoption) {
            return refused("people.no_edition");
        }
        auto entry = adoptionOf(m_surroundings, *m_start.adoption, m_begun.warnings);
        if (!entry) {
            return tl::unexpected(std::move(entry.error()));
        }
        m_begun.edition = *json::Value(entry->body).find("edition")->string();
        m_text = *json::Value(entry->body).find("text")->string();
        return add(std::move(*entry));
    }

    Result<void> draftPerson() {
        if (const auto* people = m_gate.people(); people && !people->persons.empty()) {
            m_begun.name = m_gate.nameOf(m_start.manager);
            if (!m_gate.isManager(m_start.manager)) {
                return tl::unexpected(notManager(m_surroundings, m_gate, m_start.manager));
            }
            return {};
        }
        if (!m_start.name) {
            return refused("people.no_name");
        }
        json::Array roles;
        for (const auto& role : rules::rolesOfAuthority(rulebookInForce())) {
            roles.emplace_back(role);
        }
        Entry entry{m_start.manager, "person"};
        entry.body = {{"person", m_start.manager},
                      {"name", *m_start.name},
                      {"roles", std::move(roles)}};
        return add(std::move(entry));
    }

    // The one that is adopted now, or that is in force.
    rules::Rulebook rulebookInForce() const {
        if (m_gate.people() != nullptr) {
            return *m_gate.people()->rulebook;
        }
        return *rules::readRulebook(m_text, m_surroundings.zones).rulebook;
    }

    Result<void> add(Entry entry) {
        Draft draft{std::move(entry), m_gate.signatureOfFounder(m_start.manager, m_begun.name)};
        if (const auto record = recordOf(m_surroundings, draft, {m_start.station, 1},
                                         m_gate.now());
            !record) {
            return tl::unexpected(record.error());
        }
        m_drafts.push_back(std::move(draft));
        return {};
    }

    // The records first: where the PIN cannot be kept, the same call may be made again.
    Result<void> openToManager() {
        auto pin = askNewPin(m_surroundings.words, m_start.askPin, m_begun.name);
        if (!pin) {
            return tl::unexpected(std::move(pin.error()));
        }
        if (auto named = nameStation(); !named) {
            return named;
        }
        if (!m_drafts.empty()) {
            auto written = appendOwn(m_surroundings, m_opened.logbook, m_drafts,
                                     m_surroundings.clock.now());
            if (!written) {
                return tl::unexpected(std::move(written.error()));
            }
            m_begun.records = std::move(*written);
        }
        m_begun.code = makeCode();
        const auto set = m_gate.credentials().begin(m_start.manager, pin->text(),
                                                    m_begun.code.text(),
                                                    m_gate.writing(m_start.manager));
        if (!set) {
            return tl::unexpected(problemOf(m_surroundings.words, set.error()));
        }
        return *set ? Result<void>() : refused("people.begun");
    }

    const Surroundings& m_surroundings;
    Opened& m_opened;
    const FirstStart& m_start;
    Gate m_gate;
    Begun m_begun;
    std::shared_ptr<const rules::Rulebook> m_rulebook;
    std::string m_text;
    std::vector<Draft> m_drafts;
};

// The writer signed in, if they may change what belongs to `person`.
Result<Signature> signToChange(const Surroundings& surroundings, const Gate& gate,
                               const Writer& by, const std::string& person, bool ownToo) {
    auto signature = gate.sign(by);
    if (!signature) {
        return signature;
    }
    if (!signature->isManager && !(ownToo && signature->person == person)) {
        return tl::unexpected(notManager(surroundings, gate, signature->person));
    }
    if (!gate.knows(person)) {
        return tl::unexpected(
            problemOf(surroundings.words, "people.unknown", {{"person", person}}));
    }
    return signature;
}

}  // namespace

Result<Staffing> staffingOf(const Surroundings& surroundings, const LogbookFile& file) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    const auto unopened = gate.isUnopened();
    if (!unopened) {
        return tl::unexpected(unopened.error());
    }
    const auto* people = gate.people();
    return Staffing{*unopened, people != nullptr, people != nullptr && !people->persons.empty()};
}

Result<Begun> begin(const Surroundings& surroundings, const LogbookFile& file,
                    const FirstStart& start) {
    auto opened = open(surroundings, file);
    if (!opened) {
        return tl::unexpected(std::move(opened.error()));
    }
    return Starting(surroundings, file, *opened, start).run();
}

Result<std::string> setPin(const Surroundings& surroundings, const LogbookFile& file,
                           const PinChange& change) {
    const auto opened = open(surroundings, file);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    const Gate gate(surroundings, file, opened->log);
    const auto signature = signToChange(surroundings, gate, change.by, change.person, true);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    const auto name = gate.nameOf(change.person);
    const auto pin = askNewPin(surroundings.words, change.askNew, name);
    if (!pin) {
        return tl::unexpected(pin.error());
    }
    const auto set = gate.credentials().setPin(change.person, pin->text(),
                                               gate.writing(signature->person));
    if (!set) {
        return tl::unexpected(problemOf(surroundings.words, set.error()));
    }
    return name;
}

Result<std::string> setBadge(const Surroundings& surroundings, const LogbookFile& file,
                             const BadgeChange& change) {
    const auto opened = open(surroundings, file);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    const Gate gate(surroundings, file, opened->log);
    const auto signature = signToChange(surroundings, gate, change.by, change.person, false);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    if (change.badge && (!logbook::isName(*change.badge) || gate.knows(*change.badge))) {
        return tl::unexpected(problemOf(surroundings.words, "people.bad_badge"));
    }
    const auto set = gate.credentials().setBadge(change.person, change.badge,
                                                 gate.writing(signature->person));
    if (!set) {
        return tl::unexpected(problemOf(surroundings.words, set.error()));
    }
    if (!*set) {
        return tl::unexpected(problemOf(surroundings.words, "people.badge_taken"));
    }
    return gate.nameOf(change.person);
}

Result<Recovered> recover(const Surroundings& surroundings, const LogbookFile& file,
                          const Recovering& recovering) {
    const auto opened = open(surroundings, file);
    if (!opened) {
        return tl::unexpected(opened.error());
    }
    const Gate gate(surroundings, file, opened->log);
    const auto& person = recovering.person;
    if (!gate.isManager(person)) {
        return tl::unexpected(gate.people() != nullptr
                                  ? notManager(surroundings, gate, person)
                                  : problemOf(surroundings.words, "people.no_edition"));
    }
    Recovered recovered{gate.nameOf(person), makeCode()};
    const auto typed = recovering.askCode ? recovering.askCode(recovered.name) : std::nullopt;
    if (!typed) {
        return tl::unexpected(problemOf(surroundings.words, "people.no_code"));
    }
    const auto pin = askNewPin(surroundings.words, recovering.askNew, recovered.name);
    if (!pin) {
        return tl::unexpected(pin.error());
    }
    const auto code = codeMeant(*typed);
    const auto trial = gate.credentials().recover(
        {person, code.text(), pin->text(), recovered.code.text()}, gate.writing(person));
    if (!trial) {
        return tl::unexpected(problemOf(surroundings.words, trial.error()));
    }
    if (trial->outcome != store::Trial::Outcome::Right) {
        const bool waits = trial->outcome == store::Trial::Outcome::Waiting;
        return tl::unexpected(problemOf(
            surroundings.words, waits ? "people.code_waiting" : "people.wrong_code",
            {{"wait", std::to_string((trial->wait.ms + 999) / 1000)}}));
    }
    return recovered;
}

}  // namespace station
