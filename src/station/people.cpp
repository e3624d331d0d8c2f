// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// First start, PINs and badges; see people.h.
#include "station/people.h"

#include "logbook/text.h"
#include "rules/people.h"
#include "rules/rulebook_reader.h"
#include "station/signed_act.h"
#include "words/record_words.h"

#include <utility>

namespace station {

namespace {

namespace json = logbook::json;

Problem notManager(const Surroundings& surroundings, const Gate& gate, const std::string& person) {
    const auto& people = *gate.people();
    const words::Context context{surroundings.words, people, nullptr, gate.now(), {}, {}};
    return problemOf(surroundings.words, "people.not_manager",
                     {{"person", gate.nameOf(person)},
                      {"roles", words::rolesWithPeople(
                                    context, words::rolesFor(context, logbook::Kind::Person))}});
}

// What the first start writes, by the log as it stands.
class Starting {
public:
    explicit Starting(const FirstStart& start) : m_start(start) {}

    // What belongs to the call and not to the log: the rulebook, read once.
    [[nodiscard]] Result<void> readAdoption(const Surroundings& surroundings) {
        if (!m_start.adoption) {
            return {};
        }
        auto entry = adoptionOf(surroundings, *m_start.adoption, m_warnings);
        if (!entry) {
            return tl::unexpected(std::move(entry.error()));
        }
        m_adoption = std::move(*entry);
        m_rulebook = *rules::readRulebook(*json::Value(m_adoption->body).find("text")->string(),
                                          surroundings.zones)
                          .rulebook;
        return {};
    }

    [[nodiscard]] Result<std::vector<Intended>> intended(const OpenLog& open) const {
        const auto* people = open.gate().people();
        std::vector<Intended> all;
        if (people == nullptr && !m_adoption) {
            return tl::unexpected(lackOfEdition(open.surroundings(), open.log(),
                                                refused(open, "people.no_edition").value()));
        }
        if (people != nullptr && m_adoption) {
            return refused(open, "people.edition_is_there");
        }
        if (m_adoption) {
            all.push_back({*m_adoption});
        }
        if (people != nullptr && !people->persons.empty()) {
            if (!open.gate().isManager(m_start.manager)) {
                return tl::unexpected(
                    notManager(open.surroundings(), open.gate(), m_start.manager));
            }
            return all;
        }
        if (!m_start.name) {
            return refused(open, "people.no_name");
        }
        all.push_back({personOf(people != nullptr ? *people->rulebook : *m_rulebook)});
        return all;
    }

    // By the log, or as the call says.
    [[nodiscard]] std::string managerName(const Gate& gate) const {
        const bool known = gate.people() != nullptr && !gate.people()->persons.empty();
        return known ? gate.nameOf(m_start.manager) : m_start.name.value_or(m_start.manager);
    }

    [[nodiscard]] std::optional<std::string> edition() const {
        return m_rulebook ? std::optional(m_rulebook->edition) : std::nullopt;
    }
    [[nodiscard]] const std::vector<std::string>& warnings() const { return m_warnings; }

private:
    [[nodiscard]] tl::unexpected<Problem> refused(const OpenLog& open,
                                                  std::string_view code) const {
        return tl::unexpected(problemOf(open.surroundings().words, code,
                                        {{"person", managerName(open.gate())}}));
    }

    // Every role that the edition asks for.
    [[nodiscard]] Entry personOf(const rules::Rulebook& rulebook) const {
        json::Array roles;
        for (const auto& role : rules::rolesOfAuthority(rulebook)) {
            roles.emplace_back(role);
        }
        Entry entry{m_start.manager, "person"};
        entry.body = {{"person", m_start.manager},
                      {"name", *m_start.name},
                      {"roles", std::move(roles)}};
        return entry;
    }

    const FirstStart& m_start;
    std::optional<Entry> m_adoption{};
    std::optional<rules::Rulebook> m_rulebook{};
    std::vector<std::string> m_warnings{};
};

// Refused before anybody is asked: another name than the station has, one that somebody has begun.
Result<void> checkStation(OpenLog& open, const FirstStart& start) {
    const auto& own = open.log().ownStation;
    if (own && *own != start.station) {
        // Which says why not, and writes nothing.
        return open.logbook()
            .setStation(start.station, open.gate().writing(start.manager))
            .map_error([&](const store::Trouble& trouble) {
                return problemOf(open.surroundings().words, trouble);
            });
    }
    const auto unopened = open.gate().isUnopened();
    if (!unopened) {
        return tl::unexpected(unopened.error());
    }
    return *unopened ? Result<void>()
                     : tl::unexpected(problemOf(open.surroundings().words, "people.begun"));
}

// Why the writer, who has signed in, may not change what belongs to `person`.
Result<void> checkChange(const OpenLog& open, const Signature& signature,
                         const std::string& person, bool ownToo) {
    if (!signature.isManager && !(ownToo && signature.person == person)) {
        return tl::unexpected(notManager(open.surroundings(), open.gate(), signature.person));
    }
    if (!open.gate().knows(person)) {
        return tl::unexpected(
            problemOf(open.surroundings().words, "people.unknown", {{"person", person}}));
    }
    return {};
}

// The same by the log as it stands once all secrets have been typed.
Result<void> checkChangeAnew(const OpenLog& open, const Signature& signature,
                             const std::string& person, bool ownToo) {
    const auto renewed = open.gate().renewed(signature);
    return renewed ? checkChange(open, *renewed, person, ownToo)
                   : tl::unexpected(renewed.error());
}

// By the clock alone: the code is the way back in where the log says that the clock is wrong.
Result<void> checkRecovering(const OpenLog& open, const std::string& person) {
    const auto& surroundings = open.surroundings();
    if (open.gate().people() == nullptr) {
        return tl::unexpected(
            lackOfEdition(surroundings, open.log(),
                          problemOf(surroundings.words, "people.no_edition")));
    }
    const auto now = surroundings.clock.now();
    return rules::isManager(rules::peopleAt(open.log().log, now), person, now)
               ? Result<void>()
               : tl::unexpected(notManager(surroundings, open.gate(), person));
}

// A secret is changed by who may, and nothing else of the log bears on that.
Result<Needed> peopleAlone(const store::Logbook&) {
    return Needed{};
}

}  // namespace

Result<Staffing> staffingOf(const Surroundings& surroundings, const LogbookFile& file) {
    const auto log = readPeople(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    const auto unopened = gate.isUnopened();
    if (!unopened) {
        return tl::unexpected(unopened.error());
    }
    const auto* people = gate.people();
    // What is gone is not begun anew.
    if (people == nullptr || people->persons.empty()) {
        if (auto lack = lackOfEdition(surroundings, *log, {}); !lack.code.empty()) {
            return tl::unexpected(std::move(lack));
        }
    }
    return Staffing{*unopened, people != nullptr, people != nullptr && !people->persons.empty()};
}

Result<Begun> begin(const Surroundings& surroundings, const LogbookFile& file,
                    const FirstStart& start) {
    const auto open = OpenLog::open(surroundings, file, [&](const store::Logbook& logbook) {
        return neededFor(surroundings, logbook, {});
    });
    if (!open) {
        return tl::unexpected(open.error());
    }
    Starting starting(start);
    if (auto checked = checkStation(**open, start); !checked) {
        return tl::unexpected(std::move(checked.error()));
    }
    if (auto read = starting.readAdoption(surroundings); !read) {
        return tl::unexpected(std::move(read.error()));
    }
    const auto name = starting.managerName((*open)->gate());
    Founding founding{start.station, (*open)->gate().signatureOfFounder(start.manager, name),
                      start.askPin, makeCode()};
    SignedAct act(**open, [&](const OpenLog& log) { return starting.intended(log); });
    const auto kept = act.found(founding);
    if (!kept) {
        return tl::unexpected(kept.error());
    }
    Begun begun{name, starting.edition(), {}, starting.warnings(), std::move(founding.code)};
    begun.warnings.insert(begun.warnings.end(), kept->warnings.begin(), kept->warnings.end());
    for (const auto& record : kept->records) {
        begun.records.push_back(record.name);
    }
    return begun;
}

Result<std::string> setPin(const Surroundings& surroundings, const LogbookFile& file,
                           const PinChange& change) {
    const auto open = OpenLog::open(surroundings, file, peopleAlone);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto signature = (*open)->gate().sign(change.by);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    const auto person = (*open)->gate().personOf(change.person);
    if (!person) {
        return tl::unexpected(person.error());
    }
    if (auto may = checkChange(**open, *signature, *person, true); !may) {
        return tl::unexpected(std::move(may.error()));
    }
    const auto pin = askNewPin(surroundings.words, change.askNew,
                               (*open)->gate().nameOf(*person));
    if (!pin) {
        return tl::unexpected(pin.error());
    }
    const auto set = (*open)->writeAsRead(
        [&] { return checkChangeAnew(**open, *signature, *person, true); },
        [&] {
            return (*open)
                ->gate()
                .credentials()
                .onlyAt((*open)->log().arrival)
                .setPin(*person, pin->text(), (*open)->gate().writing(signature->person))
                .map([] { return true; });
        });
    if (!set) {
        return tl::unexpected(set.error());
    }
    return (*open)->gate().nameOf(*person);
}

Result<Secret> renewCode(const Surroundings& surroundings, const LogbookFile& file,
                         const Writer& by) {
    const auto open = OpenLog::open(surroundings, file, peopleAlone);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto signature = (*open)->gate().sign(by);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    auto code = makeCode();
    const auto set = (*open)->writeAsRead(
        [&] { return checkChangeAnew(**open, *signature, signature->person, false); },
        [&] {
            return (*open)
                ->gate()
                .credentials()
                .onlyAt((*open)->log().arrival)
                .setCode(code.text(), (*open)->gate().writing(signature->person))
                .map([] { return true; });
        });
    if (!set) {
        return tl::unexpected(set.error());
    }
    return code;
}

Result<std::string> setBadge(const Surroundings& surroundings, const LogbookFile& file,
                             const BadgeChange& change) {
    const auto open = OpenLog::open(surroundings, file, peopleAlone);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto signature = (*open)->gate().sign(change.by);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    const auto judge = [&]() -> Result<void> {
        if (auto may = checkChangeAnew(**open, *signature, change.person, false); !may) {
            return may;
        }
        const bool isBad = change.badge && (!logbook::isName(*change.badge) ||
                                            (*open)->gate().knows(*change.badge));
        return isBad ? tl::unexpected(problemOf(surroundings.words, "people.bad_badge"))
                     : Result<void>();
    };
    const auto set = (*open)->writeAsRead(judge, [&] {
        return (*open)
            ->gate()
            .credentials()
            .onlyAt((*open)->log().arrival)
            .setBadge(change.person, change.badge, (*open)->gate().writing(signature->person));
    });
    if (!set) {
        return tl::unexpected(set.error());
    }
    if (!*set) {
        return tl::unexpected(problemOf(surroundings.words, "people.badge_taken"));
    }
    return (*open)->gate().nameOf(change.person);
}

Result<Recovered> recover(const Surroundings& surroundings, const LogbookFile& file,
                          const Recovering& recovering) {
    const auto open = OpenLog::open(surroundings, file, peopleAlone);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto& person = recovering.person;
    const auto judge = [&] { return checkRecovering(**open, person); };
    if (auto may = judge(); !may) {
        return tl::unexpected(std::move(may.error()));
    }
    Recovered recovered{(*open)->gate().nameOf(person), makeCode()};
    const auto typed = recovering.askCode ? recovering.askCode(recovered.name) : std::nullopt;
    if (!typed) {
        return tl::unexpected(problemOf(surroundings.words, "people.no_code"));
    }
    const auto pin = askNewPin(surroundings.words, recovering.askNew, recovered.name);
    if (!pin) {
        return tl::unexpected(pin.error());
    }
    const auto code = codeMeant(*typed);
    const auto trial = (*open)->writeAsRead(judge, [&] {
        return (*open)
            ->gate()
            .credentials()
            .onlyAt((*open)->log().arrival)
            .recover({person, code.text(), pin->text(), recovered.code.text()},
                     [&] { return surroundings.clock.now(); });
    });
    if (!trial) {
        return tl::unexpected(trial.error());
    }
    if (trial->outcome != store::Trial::Outcome::Right) {
        const bool waits = trial->outcome == store::Trial::Outcome::Waiting;
        return tl::unexpected(problemOf(surroundings.words,
                                        waits ? "people.code_waiting" : "people.wrong_code",
                                        {{"wait", secondsOf(trial->wait)}}));
    }
    return recovered;
}

}  // namespace station
