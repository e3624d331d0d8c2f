// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrolling from fleet lists; see fleet_list.h.
#include "station/fleet_list.h"

#include "rules/authority.h"
#include "station/clock_doubt.h"
#include "station/doubts.h"
#include "station/fleet_check.h"
#include "station/own_records.h"
#include "words/record_words.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::body::Enrol;

json::Array listOf(const std::vector<std::string>& keys) {
    return {keys.begin(), keys.end()};
}

Result<void> requireEdition(const Surroundings& surroundings, const WholeLog& log) {
    if (!log.log.firstEdition()) {
        return tl::unexpected(problemOf(surroundings.words, "entry.no_edition"));
    }
    return {};
}

Result<exchange::FleetList> readList(const Surroundings& surroundings,
                                     const std::filesystem::path& path) {
    const auto bytes = system::readFile(path);
    if (!bytes) {
        return tl::unexpected(problemOf(surroundings.words, bytes.error(), path));
    }
    return exchange::readFleetList(*bytes).map_error(
        [&](const std::vector<exchange::FleetFault>& faults) {
            auto problem =
                problemOf(surroundings.words, "fleet.bad_list", {{"path", path.string()}});
            for (const auto& fault : faults) {
                problem.details.push_back(reasonOf(surroundings.words, fault).sentence.text());
            }
            return problem;
        });
}

// What the list got wrong by itself, and what the log says of the same row.
RefusedUnit refusedOf(const words::Words& words, const exchange::RefusedFleetRow& refused,
                      std::vector<FleetReason> inLog) {
    RefusedUnit unit{refused.row.line, refused.row.serial, {}};
    for (const auto& fault : refused.faults) {
        unit.reasons.push_back(reasonOf(words, fault));
    }
    std::ranges::move(inLog, std::back_inserter(unit.reasons));
    return unit;
}

class FleetWriting {
public:
    FleetWriting(const Surroundings& surroundings, const LogbookFile& file,
                 store::Logbook& logbook, const WholeLog& log)
        : m_surroundings(surroundings), m_logbook(logbook), m_log(log),
          m_gate(surroundings, file, log), m_check(surroundings, log.log) {}

    Result<FleetTaken> take(const FleetTaking& taking) {
        const auto name = nextName(m_surroundings, m_log);
        if (!name) {
            return tl::unexpected(name.error());
        }
        if (auto refused = refuseChanged(taking.preview)) {
            return tl::unexpected(*std::move(refused));
        }
        const auto signature = m_gate.sign(taking.by);
        if (!signature) {
            return tl::unexpected(signature.error());
        }
        auto settled =
            settleDoubts(m_surroundings, m_logbook, m_log, {taking.by, "enrol"}, true);
        if (!settled) {
            return tl::unexpected(std::move(settled.error()));
        }
        const auto now = m_surroundings.clock.now();
        const auto drafts = draftsOf(taking, *signature, now);
        if (auto refused = refuse(drafts, *name, now)) {
            return tl::unexpected(*std::move(refused));
        }
        auto written = appendOwn(m_surroundings, m_logbook, drafts, now);
        if (!written) {
            return tl::unexpected(std::move(written.error()));
        }
        // It is on the disk: that the clock could not be noted makes it no less.
        (void)noteClock(m_surroundings, m_logbook);
        return FleetTaken{signature->name, std::move(*written), std::move(settled->warnings)};
    }

private:
    // What was good when the person looked may have been enrolled since. The texts they looked at.
    [[nodiscard]] std::optional<Problem> refuseChanged(const FleetPreview& preview) const {
        const auto& words = m_surroundings.words;
        if (preview.good.empty()) {
            return problemOf(words, "fleet.nothing");
        }
        auto problem = problemOf(words, "fleet.changed");
        for (const auto& unit : preview.good) {
            for (const auto& reason : m_check.reasonsAgainst(unit.row, true)) {
                problem.details.push_back(
                    words.say("fleet.of_unit", {{"unit", unit.row.serial},
                                                {"sentence", reason.sentence.text()}}));
            }
        }
        return problem.details.empty() ? std::nullopt : std::optional(std::move(problem));
    }

    static std::vector<Draft> draftsOf(const FleetTaking& taking, const Signature& signature,
                                       logbook::Instant now) {
        std::vector<Draft> drafts;
        for (const auto& unit : taking.preview.good) {
            Draft draft{{taking.by, "enrol", unit.row.serial}, signature};
            draft.entry.body = enrolBody(unit.row.unit);
            draft.entry.batch = "fleet list " + toText(now);
            drafts.push_back(std::move(draft));
        }
        return drafts;
    }

    // Whoever may enrol one unit may enrol all.
    [[nodiscard]] std::optional<Problem> refuse(const std::vector<Draft>& drafts,
                                                const logbook::RecordName& name,
                                                logbook::Instant now) const {
        for (const auto& draft : drafts) {
            const auto record = recordOf(m_surroundings, draft, name, now);
            if (!record) {
                return record.error();
            }
            const auto permission = rules::mayWrite(m_check.state(), *record);
            if (!permission.allowed) {
                const words::Context context{m_surroundings.words, m_check.state(), nullptr,
                                             record->at, {}, {}};
                return Problem{Problem::Weight::Input, "refusal.roles",
                               words::refusal(context, *record, permission), {}};
            }
        }
        return std::nullopt;
    }

    const Surroundings& m_surroundings;
    store::Logbook& m_logbook;
    const WholeLog& m_log;
    Gate m_gate;
    FleetCheck m_check;
};

}  // namespace

json::Object enrolBody(const Enrol& unit) {
    json::Object body{{"model", unit.model},
                      {"groups", listOf(unit.groups)},
                      {"features", listOf(unit.features)},
                      {"commissioned", logbook::toText(unit.commissioned)}};
    const std::pair<const char*, const std::optional<std::string>*> others[] = {
        {"label", &unit.label},       {"asset", &unit.asset}, {"maker", &unit.maker},
        {"udi", &unit.udi},           {"location", &unit.location},
        {"owner", &unit.owner},       {"return_by", &unit.returnBy}};
    for (const auto& [field, text] : others) {
        if (*text) {
            body.emplace_back(field, **text);
        }
    }
    return body;
}

Result<FleetPreview> previewFleet(const Surroundings& surroundings, const LogbookFile& file,
                                  const FleetAsked& asked) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    if (const auto edition = requireEdition(surroundings, *log); !edition) {
        return tl::unexpected(edition.error());
    }
    auto list = readList(surroundings, asked.list);
    if (!list) {
        return tl::unexpected(std::move(list.error()));
    }
    const FleetCheck check(surroundings, log->log);
    FleetPreview preview{asked.list, {}, {}, std::move(list->ignored)};
    for (auto& row : list->rows) {
        auto reasons = check.reasonsInLog(row, asked.namesNoPatient);
        if (reasons.empty()) {
            auto remarks = check.remarksOn(row);
            preview.good.push_back({std::move(row), std::move(remarks)});
        } else {
            preview.refused.push_back({row.line, row.serial, std::move(reasons)});
        }
    }
    for (const auto& refused : list->refused) {
        preview.refused.push_back(
            refusedOf(surroundings.words, refused,
                      check.reasonsInLog(refused.row, asked.namesNoPatient)));
    }
    std::ranges::sort(preview.refused, {}, &RefusedUnit::line);
    return preview;
}

Result<FleetTaken> takeFleet(const Surroundings& surroundings, const LogbookFile& file,
                             const FleetTaking& taking) {
    return withLog(surroundings, file,
                   [&](store::Logbook& logbook, const WholeLog& log) -> Result<FleetTaken> {
                       if (const auto edition = requireEdition(surroundings, log); !edition) {
                           return tl::unexpected(edition.error());
                       }
                       return FleetWriting(surroundings, file, logbook, log).take(taking);
                   });
}

Result<std::vector<FleetReason>> lookOver(const Surroundings& surroundings,
                                          const LogbookFile& file, const NewUnit& unit) {
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    if (const auto edition = requireEdition(surroundings, *log); !edition) {
        return tl::unexpected(edition.error());
    }
    return FleetCheck(surroundings, log->log)
        .reasonsAgainst({0, unit.serial, unit.unit}, unit.namesNoPatient);
}

Result<Written> enrolUnit(const Surroundings& surroundings, const LogbookFile& file,
                          const Writer& by, const NewUnit& unit) {
    const auto reasons = lookOver(surroundings, file, unit);
    if (!reasons) {
        return tl::unexpected(reasons.error());
    }
    if (!reasons->empty()) {
        auto problem =
            problemOf(surroundings.words, "fleet.bad_unit", {{"unit", unit.serial}});
        for (const auto& reason : *reasons) {
            problem.details.push_back(reason.sentence.text());
        }
        return tl::unexpected(std::move(problem));
    }
    Entry entry{by, "enrol", unit.serial};
    entry.body = enrolBody(unit.unit);
    entry.namesNoPatient = unit.namesNoPatient;
    return writeEntry(surroundings, file, entry);
}

}  // namespace station
