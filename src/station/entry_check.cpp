// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries against the state before them; see entry_check.h.
#include "station/entry_check.h"

#include "logbook/unit.h"
#include "rules/authority.h"
#include "station/managers.h"
#include "station/notice_reach.h"
#include "words/entry_words.h"
#include "words/finding_words.h"
#include "words/record_words.h"
#include "words/times.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace station {

namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

// Kinds that mean nothing, or not what they say, without an edition that names their keys.
bool needsEdition(Kind kind) {
    switch (kind) {
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Reprocess:
        case Kind::Check:
        case Kind::Service:
        case Kind::Waive:
        case Kind::Group: return true;
        default: return false;
    }
}

// Those that have a meaning on a unit that is not enrolled. A start of use is never refused.
bool needsDevice(const Record& record) {
    switch (record.kind()) {
        case Kind::Enrol:
        case Kind::Note:
        case Kind::Review:
        case Kind::Strike:
        case Kind::UseStart: return false;
        default: return !record.device.empty();
    }
}

std::vector<std::string> positionsIn(const Record& record) {
    if (const auto* fit = std::get_if<body::Fit>(&record.body)) {
        return {fit->position};
    }
    if (const auto* remove = std::get_if<body::Remove>(&record.body)) {
        return {remove->position};
    }
    const auto* reprocess = std::get_if<body::Reprocess>(&record.body);
    if (reprocess == nullptr) {
        return {};
    }
    auto positions = reprocess->positions;
    for (const auto& part : reprocess->parts) {
        positions.push_back(part.position);
    }
    return positions;
}

class EntryCheck {
public:
    EntryCheck(const Surroundings& surroundings, const LogAtHand& log, const Record& record,
               const WriterStanding& writer)
        : m_surroundings(surroundings), m_words(surroundings.words), m_log(log),
          m_record(record), m_writer(writer) {}

    Result<std::vector<std::string>> run() {
        if (auto refused = checkStrike()) {
            return tl::unexpected(std::move(*refused));
        }
        if (auto refused = refuseMatch(m_words, m_record)) {
            return tl::unexpected(std::move(*refused));
        }
        if (!m_log.log.firstEdition()) {
            if (needsEdition(m_record.kind())) {
                return tl::unexpected(problemOf(m_words, "entry.no_edition"));
            }
            return std::vector<std::string>{};
        }
        m_state = m_writer.state != nullptr ? *m_writer.state
                                            : stateOf(m_log, m_record.at);
        for (auto check : {&EntryCheck::checkAuthority, &EntryCheck::checkDevice,
                           &EntryCheck::checkKeys, &EntryCheck::checkMeasures}) {
            if (auto refused = (this->*check)()) {
                return tl::unexpected(std::move(*refused));
            }
        }
        return tryOut();
    }

private:
    using Refused = std::optional<Problem>;

    [[nodiscard]] words::Context context(const rules::State& state) const {
        words::Context context{m_words, state, state.device(m_record.device), m_record.at, {}, {}};
        context.lookup = [this](const logbook::RecordName& name) -> const Record* {
            return name == m_record.name ? &m_record : recordIn(m_log, name);
        };
        return context;
    }

    [[nodiscard]] const Record* target() const {
        const auto* strike = std::get_if<body::Strike>(&m_record.body);
        return strike != nullptr ? recordIn(m_log, strike->target) : nullptr;
    }

    [[nodiscard]] Refused checkStrike() {
        const auto* strike = std::get_if<body::Strike>(&m_record.body);
        if (strike == nullptr) {
            return std::nullopt;
        }
        if (strike->reason.find_first_not_of(' ') == std::string::npos) {
            return problemOf(m_words, "entry.strike_without_reason");
        }
        const words::Gaps gaps{{"record", toText(strike->target)}};
        const auto index = m_log.log.find(strike->target);
        if (!index) {
            return problemOf(m_words, "entry.no_target", gaps);
        }
        const auto kind = m_log.log.records()[*index].kind();
        if (kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Strike) {
            return problemOf(m_words, "entry.not_strikable", gaps);
        }
        if (m_log.log.struckBy(*index) != nullptr) {
            return problemOf(m_words, "entry.struck_already", gaps);
        }
        return std::nullopt;
    }

    // A failure that only a measure shows counts whoever writes it: somebody without any role.
    [[nodiscard]] bool countsFromAnyone() const {
        if (m_record.kind() != Kind::Check || !m_state.rulebook->authority.contains(Kind::Check)) {
            return false;
        }
        auto after = m_state;
        auto anyones = m_record;
        anyones.by.clear();
        anyones.form.reset();
        const auto effect = rules::fold(after, anyones, m_log.log.editions());
        return std::ranges::find(effect.anomalies, rules::AnomalyCode::Unauthorised) ==
               effect.anomalies.end();
    }

    [[nodiscard]] Refused checkAuthority() {
        auto judged = m_record;
        if (!m_writer.formCounts) {
            judged.form.reset();
        }
        const bool setBack = m_writer.people != nullptr && m_record.entered < m_writer.asOf;
        auto later = judged;
        later.at = later.entered = m_writer.asOf;
        auto refused = setBack ? refuse(*m_writer.people, later) : std::nullopt;
        if (!refused) {
            refused = refuse(m_state, judged);
            if (refused && setBack) {
                refused = clockBehind();
            }
        }
        return refused && !countsFromAnyone() ? std::move(refused) : std::nullopt;
    }

    [[nodiscard]] Refused refuse(const rules::State& state, const Record& record) const {
        const auto permission = rules::mayWrite(state, record, target());
        if (permission.allowed) {
            return std::nullopt;
        }
        auto asked = context(state);
        asked.asked = record.at;
        return Problem{Problem::Weight::Input, "refusal.roles",
                       words::refusal(asked, record, permission), {}};
    }

    // It would have no effect, though the writer may write it: not by that time.
    [[nodiscard]] Problem clockBehind() const {
        const words::Times times(m_words, *m_writer.people->rulebook->zone, m_writer.asOf);
        const auto person = m_writer.people->persons.find(m_record.by);
        const bool named = person != m_writer.people->persons.end() &&
                           !person->second.person.name.empty();
        return problemOf(m_words, "entry.clock_behind",
                         {{"time", times.full(m_record.entered)},
                          {"last", times.full(m_writer.asOf)},
                          {"person", named ? person->second.person.name : m_record.by}});
    }

    [[nodiscard]] Refused checkDevice() {
        if (!needsDevice(m_record)) {
            return std::nullopt;
        }
        const auto* device = m_state.device(m_record.device);
        if (device != nullptr && !device->retired) {
            return std::nullopt;
        }
        const bool mayBeUnread = m_log.isDamaged || !m_log.unread.empty();
        return problemOf(m_words,
                         device != nullptr ? "entry.retired_device"
                         : mayBeUnread     ? "entry.unread_device"
                                           : "entry.unknown_device",
                         {{"device", m_record.device}});
    }

    template <class Rule>
    [[nodiscard]] Refused unknown(std::string_view code, const std::string& key,
                                  const std::vector<Rule>& rules) const {
        std::vector<std::string> keys;
        for (const auto& rule : rules) {
            keys.push_back(rule.key);
        }
        const auto known = keys.empty() ? m_words.say("plain.nothing") : m_words.anyOf(keys);
        return problemOf(m_words, code, {{"key", key}, {"keys", known}});
    }

    [[nodiscard]] Refused checkKeys() {
        const auto& rulebook = *m_state.rulebook;
        for (const auto& position : positionsIn(m_record)) {
            if (rulebook.position(position) == nullptr) {
                return unknown("entry.unknown_position", position, rulebook.positions);
            }
        }
        if (const auto* check = std::get_if<body::Check>(&m_record.body);
            check != nullptr && rulebook.check(check->check) == nullptr) {
            return unknown("entry.unknown_check", check->check, rulebook.checks);
        }
        if (const auto* service = std::get_if<body::Service>(&m_record.body);
            service != nullptr && rulebook.service(service->service) == nullptr) {
            return unknown("entry.unknown_service", service->service, rulebook.services);
        }
        if (const auto* group = std::get_if<body::Group>(&m_record.body);
            group != nullptr && rulebook.group(group->group) == nullptr) {
            return unknownGroup(group->group);
        }
        return std::nullopt;
    }

    [[nodiscard]] Refused unknownGroup(const std::string& group) const {
        return problemOf(m_words, "trouble.unknown_group",
                         {{"group", group}, {"groups", groupsNamed()}});
    }

    [[nodiscard]] std::string groupsNamed() const {
        std::vector<std::string> keys;
        for (const auto& each : m_state.rulebook->groups) {
            keys.push_back(each.key);
        }
        return m_words.anyOf(keys);
    }

    [[nodiscard]] Refused checkMeasures() {
        const auto* check = std::get_if<body::Check>(&m_record.body);
        const auto* rule = check ? m_state.rulebook->check(check->check) : nullptr;
        if (rule == nullptr) {
            return std::nullopt;
        }
        for (const auto& [key, measure] : check->measures) {
            const auto* wanted = rules::findMeasure(*rule, key);
            if (wanted != nullptr && !logbook::convert(measure.value, measure.unit, wanted->unit)) {
                const auto label = words::measureLabel(context(m_state), check->check, key);
                return problemOf(m_words, "entry.other_dimension",
                                 {{"measure", m_words.inside(label)},
                                  {"unit", measure.unit},
                                  {"wanted", wanted->unit}});
            }
        }
        return std::nullopt;
    }

    // What the entry would do is tried on a copy of the state.
    [[nodiscard]] Result<std::vector<std::string>> tryOut() {
        auto after = m_state;
        auto editions = m_log.log.editions();
        auto remarks = checkManagers(m_surroundings, m_log.log, m_record);
        if (!remarks || m_record.kind() == Kind::Adopt) {
            return remarks;
        }
        const auto effect = rules::fold(after, m_record, editions);
        auto warnings = std::move(*remarks);
        for (const auto code : effect.anomalies) {
            if (code == rules::AnomalyCode::WaiverRefused) {
                return tl::unexpected(problemOf(m_words, "entry.waiver_refused"));
            }
            warnings.push_back(words::anomaly(context(m_state), m_record, code).text());
        }
        if (!effect.effective && effect.anomalies.empty() && m_state.device(m_record.device)) {
            warnings.push_back(words::noEffect(context(m_state), m_record));
        }
        addFailure(after, warnings);
        addDiscount(after, warnings);
        addUnreadyStart(warnings);
        addReach(after, warnings);
        return warnings;
    }

    // A pass that its measures make a failure.
    void addFailure(const rules::State& after, std::vector<std::string>& warnings) const {
        const auto* check = std::get_if<body::Check>(&m_record.body);
        const auto* device = after.device(m_record.device);
        if (check == nullptr || device == nullptr || check->outcome == logbook::Outcome::Fail) {
            return;
        }
        const auto found = rules::assess(after, *device, {m_record.at, std::nullopt, true, false});
        for (const auto& finding : found.findings) {
            if (finding.code == rules::FindingCode::Failed && finding.subject == check->check &&
                finding.record->name == m_record.name) {
                warnings.push_back(words::groundSentence(context(after), finding).text());
            }
        }
    }

    void addReach(const rules::State& after, std::vector<std::string>& warnings) const {
        if (const auto* notice = std::get_if<body::Notice>(&m_record.body)) {
            auto reach = reachOf(m_words, after, *notice);
            std::ranges::move(reach.warnings, std::back_inserter(warnings));
        }
    }

    void addUnreadyStart(std::vector<std::string>& warnings) const {
        const auto* start = std::get_if<body::UseStart>(&m_record.body);
        auto before = m_state;
        const auto* device = before.device(m_record.device);
        if (start == nullptr || device == nullptr || device->retired ||
            (start->samePatient && device->use)) {
            return;
        }
        rules::applyImpliedUseEnd(before, m_record);
        auto group = start->group;
        if (group && m_state.rulebook->group(*group) == nullptr) {
            warnings.push_back(m_words.say("safeguard.unknown_group",
                                           {{"group", *group}, {"groups", groupsNamed()}}));
            group.reset();
        }
        const auto found = rules::assess(before, *before.device(m_record.device),
                                         {m_record.at, group, false, false});
        if (rules::blocked(found, true)) {
            warnings.push_back(words::unreadyStart(context(before), found));
        }
    }

    void addDiscount(const rules::State& after, std::vector<std::string>& warnings) const {
        const auto* check = std::get_if<body::Check>(&m_record.body);
        const auto* device = after.device(m_record.device);
        if (check == nullptr || device == nullptr) {
            return;
        }
        const auto found = device->checks.find(check->check);
        if (found != device->checks.end() && found->second.discounted &&
            found->second.discounted->record.name == m_record.name) {
            warnings.push_back(words::discountedSentence(context(after), check->check,
                                                         *found->second.discounted)
                                   .text());
        }
    }

    const Surroundings& m_surroundings;
    const words::Words& m_words;
    const LogAtHand& m_log;
    const Record& m_record;
    const WriterStanding& m_writer;
    rules::State m_state;
};

}  // namespace

Result<std::vector<std::string>> checkEntry(const Surroundings& surroundings,
                                            const LogAtHand& log, const Record& record,
                                            const WriterStanding& writer) {
    return EntryCheck(surroundings, log, record, writer).run();
}

}  // namespace station
