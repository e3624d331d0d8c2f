// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for unconfirmed entries and confirming them; see confirmation.h.
#include "station/confirmation.h"

#include "rules/authority.h"
#include "rules/people.h"
#include "station/own_records.h"
#include "words/record_words.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Record;

// All of them lack a signature, so that no line says it.
std::string lineOf(const words::Context& context, Record record) {
    record.confirmed = true;
    const words::Gaps gaps{{"record", toText(record.name)},
                           {"time", context.times().time(record.at)},
                           {"device", record.device},
                           {"entry", words::recordLine(context, record)}};
    return context.words.say(record.device.empty() ? "confirm.line_department" : "confirm.line",
                             gaps);
}

// Of one person, or of all.
std::vector<Unconfirmed> listOf(const Surroundings& surroundings, const WholeLog& log,
                                const Gate& gate, const std::optional<std::string>& person) {
    std::vector<Unconfirmed> list;
    if (gate.people() == nullptr) {
        return list;
    }
    const words::Context context{surroundings.words, *gate.people(), nullptr, gate.now(), {}, {}};
    for (const auto index : rules::unconfirmed(log.log)) {
        const auto& record = log.log.records()[index];
        if (!person || record.by == *person) {
            list.push_back({record.name, record.at, record.by, gate.nameOf(record.by),
                            record.device, lineOf(context, record),
                            !record.device.empty(), gate.knows(record.by)});
        }
    }
    return list;
}

class Confirming {
public:
    Confirming(const Surroundings& surroundings, const LogbookFile& file,
               store::Logbook& logbook, const WholeLog& log)
        : m_surroundings(surroundings), m_logbook(logbook), m_log(log),
          m_gate(surroundings, file, log) {}

    Result<std::vector<Unconfirmed>> run(const Confirmation& confirmation) {
        if (const auto name = nextName(m_surroundings, m_log); !name) {
            return tl::unexpected(name.error());
        }
        const auto signature = m_gate.sign(confirmation.by);
        if (!signature) {
            return tl::unexpected(signature.error());
        }
        auto chosen = choose(confirmation.records, signature->person);
        if (!chosen || chosen->empty()) {
            return chosen;
        }
        std::vector<Draft> drafts;
        for (const auto& entry : *chosen) {
            drafts.push_back(draftOf(entry, confirmation.by, *signature));
        }
        if (auto refused = refuse(drafts.front())) {
            return tl::unexpected(*std::move(refused));
        }
        const auto written =
            appendOwn(m_surroundings, m_logbook, drafts, m_surroundings.clock.now());
        if (!written) {
            return tl::unexpected(written.error());
        }
        return chosen;
    }

private:
    Result<std::vector<Unconfirmed>> choose(const std::vector<logbook::RecordName>& names,
                                            const std::string& person) const {
        auto own = listOf(m_surroundings, m_log, m_gate, person);
        std::erase_if(own, [](const Unconfirmed& entry) { return !entry.canBeConfirmed; });
        if (names.empty()) {
            return own;
        }
        std::vector<Unconfirmed> chosen;
        for (const auto& name : names) {
            const auto found = std::ranges::find(own, name, &Unconfirmed::record);
            if (found == own.end()) {
                return tl::unexpected(problemOf(m_surroundings.words, "confirm.not_yours",
                                                {{"record", toText(name)},
                                                 {"person", m_gate.nameOf(person)}}));
            }
            if (std::ranges::find(chosen, name, &Unconfirmed::record) == chosen.end()) {
                chosen.push_back(*found);
            }
        }
        return chosen;
    }

    static Draft draftOf(const Unconfirmed& entry, const Writer& by, const Signature& signature) {
        Draft draft{{by, "review", entry.device}, signature};
        draft.entry.body = {{"target", toText(entry.record)},
                            {"disposition", "confirmed"},
                            {"text", ""}};
        return draft;
    }

    // Whoever may review one may review all.
    [[nodiscard]] std::optional<Problem> refuse(const Draft& draft) const {
        const auto now = m_surroundings.clock.now();
        const auto record = recordOf(m_surroundings, draft, *nextName(m_surroundings, m_log), now);
        if (!record) {
            return record.error();
        }
        const auto people = rules::peopleAt(m_log.log, record->at);
        const auto permission = rules::mayWrite(people, *record);
        if (permission.allowed) {
            return std::nullopt;
        }
        const words::Context context{m_surroundings.words, people, nullptr, record->at, {}, {}};
        return Problem{Problem::Weight::Input, "refusal.roles",
                       words::refusal(context, *record, permission), {}};
    }

    const Surroundings& m_surroundings;
    store::Logbook& m_logbook;
    const WholeLog& m_log;
    Gate m_gate;
};

}  // namespace

Result<std::vector<Unconfirmed>> unconfirmed(const Surroundings& surroundings,
                                             const LogbookFile& file,
                                             const std::optional<std::string>& who) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    std::optional<std::string> person;
    if (who) {
        const auto found = gate.personOf(*who);
        if (!found) {
            return tl::unexpected(found.error());
        }
        person = *found;
    }
    return listOf(surroundings, *log, gate, person);
}

Result<std::vector<Unconfirmed>> confirm(const Surroundings& surroundings,
                                         const LogbookFile& file,
                                         const Confirmation& confirmation) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const auto log = readWholeLog(surroundings, *logbook);
    if (!log) {
        return tl::unexpected(log.error());
    }
    return Confirming(surroundings, file, *logbook, *log).run(confirmation);
}

}  // namespace station
