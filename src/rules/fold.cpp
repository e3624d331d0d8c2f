// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One record onto a state: whether it may have an effect, and the effect of each kind. Parts and
// checks are in fold_parts.cpp and judge.cpp, what events bring about in voiding.cpp.
#include "rules/fold.h"

#include "rules/assess.h"
#include "rules/authority.h"
#include "rules/evaluate.h"
#include "rules/folding.h"
#include "rules/indexed_state.h"
#include "rules/waivers.h"

#include <algorithm>
#include <cassert>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Kind;
using logbook::Record;

void endUse(Folding& folding, Device& device) {
    device.use.reset();
    raise(folding, device.serial, {EventKind::UseEnd, ""});
}

// What stands in the way of a resumed use: checks that could have been done while it was paused,
// and the parts. Judged on the state before the record.
bool resumesUnready(const Folding& folding, const Device& device) {
    const auto assessment =
        assess(folding.state, device, {folding.record.at, std::nullopt, false, false});
    return std::any_of(
        assessment.findings.begin(), assessment.findings.end(), [&](const Finding& finding) {
            if (finding.code == FindingCode::Due || finding.code == FindingCode::Failed) {
                const Check* check = folding.rulebook.check(finding.subject);
                return check && !check->duringUse;
            }
            const bool ofPart =
                finding.code == FindingCode::Missing || finding.code == FindingCode::Mismatch;
            return ofPart && folding.rulebook.position(finding.subject);
        });
}

// The keys that an edition names and the one before it did not.
template <class Named>
std::vector<std::string> namedAnew(const std::vector<Named>& now,
                                   const std::vector<Named>& before) {
    std::vector<std::string> keys;
    for (const Named& named : now) {
        const bool known = std::any_of(before.begin(), before.end(),
                                       [&](const Named& other) { return other.key == named.key; });
        if (!known) keys.push_back(named.key);
    }
    return keys;
}

void endWaivers(Device& device, const std::string& subject,
                const std::vector<std::string>& findings) {
    for (const std::string& finding : findings) device.waivers.erase({finding, subject});
}

// What an edition names anew begins without a past: nothing recorded before may count for it.
void resetNamedAnew(State& state, const Rulebook& now, const RecordRef& record) {
    const auto checks = namedAnew(now.checks, state.rulebook->checks);
    const auto services = namedAnew(now.services, state.rulebook->services);
    const auto positions = namedAnew(now.positions, state.rulebook->positions);
    if (checks.empty() && services.empty() && positions.empty()) return;
    for (auto& [serial, shared] : state.devices) {
        Device& device = shared.edit();
        for (const std::string& key : checks) {
            device.checks.erase(key);
            endWaivers(device, key, {"due", "lapsed"});
        }
        for (const std::string& key : services) {
            if (!now.service(key)->dueAfter.empty()) device.services[key].triggered = record;
            endWaivers(device, key, {"service_overdue"});
        }
        for (const std::string& key : positions) {
            takeOut(state, device, key);
            endWaivers(device, key, {"change_due"});
        }
    }
}

void foldAdopt(Folding& folding, const Editions& editions) {
    const auto edition = editions.find(folding.record.name);
    if (edition == editions.end() || !edition->second) {
        folding.effect.effective = false;
        return;
    }
    adopt(folding.state, edition->second, folding.ref());
}

void foldDepartmentWide(Folding& folding, const Editions& editions) {
    const Record& record = folding.record;
    if (record.kind() == Kind::Adopt) foldAdopt(folding, editions);
    if (const auto* person = std::get_if<body::Person>(&record.body)) {
        folding.state.persons.insert_or_assign(person->person, KnownPerson{*person, folding.ref()});
    }
    if (const auto* notice = std::get_if<body::Notice>(&record.body)) {
        folding.state.notices.insert_or_assign(notice->key, KnownNotice{*notice, folding.ref()});
    }
    if (const auto* reprocess = std::get_if<body::Reprocess>(&record.body)) {
        foldReprocess(folding, *reprocess);
    }
}

void foldEnrol(Folding& folding, const body::Enrol& enrol) {
    const std::string& serial = folding.record.device;
    const Device* known = folding.device;
    if (!known || known->retired) {
        folding.device = nullptr;
        Device device;
        device.serial = serial;
        device.enrolled = folding.ref();
        device.enrolment = enrol;
        device.location = enrol.location.value_or("");
        device.last = folding.ref();
        folding.state.devices.insert_or_assign(serial, Shared<Device>(std::move(device)));
        return;
    }
    Device& device = edit(folding, serial);
    const auto before = device.group();
    device.enrolment = enrol;
    if (enrol.location) device.location = *enrol.location;
    if (device.group() != before) raise(folding, serial, {EventKind::Group, ""});
}

void foldRetire(Folding& folding, Device& device) {
    device.use.reset();
    device.holds.clear();
    device.faults.clear();
    while (!device.fitted.empty()) takeOut(folding, device, device.fitted.begin()->first);
    device.retired = true;
}

void foldUseStart(Folding& folding, Device& device, const body::UseStart& start) {
    if (device.use && start.samePatient) {
        folding.effect.effective = false;
        return;
    }
    folding.effect.countedStart = true;
    if (device.use) {
        folding.note(AnomalyCode::UseEndMissing);
        endUse(folding, device);
    }
    device.use = Use{folding.ref(), false};
    device.precautions = start.precautions.value_or(false);
    if (start.location) device.location = *start.location;
    markUsed(folding, device, true);
    raise(folding, device.serial, {EventKind::UseStart, ""});
}

// Which key of the edition a waiver is about; false if the edition does not name it.
bool waiverSubjectKnown(const Rulebook& rulebook, const body::Waive& waive) {
    if (waive.finding == "service_overdue") return rulebook.service(waive.subject);
    if (waive.finding == "change_due") return rulebook.position(waive.subject);
    if (waive.finding == "due" || waive.finding == "lapsed") return rulebook.check(waive.subject);
    return true;
}

bool waiverAllowed(const Rulebook& rulebook, const Record& record, const body::Waive& waive) {
    return waive.until <= latestWaiverEnd(rulebook, record.at) &&
           mayBeWaived(rulebook, waive.finding, waive.subject);
}

void foldWaive(Folding& folding, Device& device, const body::Waive& waive) {
    folding.effect.effective = false;
    if (!waiverSubjectKnown(folding.rulebook, waive)) {
        folding.note(AnomalyCode::UnknownKey);
    } else if (!waiverAllowed(folding.rulebook, folding.record, waive)) {
        folding.note(AnomalyCode::WaiverRefused);
    } else {
        folding.effect.effective = true;
        device.waivers.insert_or_assign({waive.finding, waive.subject},
                                        StandingWaiver{folding.ref(), waive.until, waive.reason});
    }
}

void foldService(Folding& folding, Device& device, const body::Service& service) {
    if (!folding.rulebook.service(service.service)) {
        folding.note(AnomalyCode::UnknownKey);
        folding.effect.effective = false;
        return;
    }
    const bool passed = service.outcome == logbook::Outcome::Pass;
    if (!passed && service.outcome != logbook::Outcome::Fail) return;
    ServiceState& state = device.services[service.service];
    state.lastResult = folding.ref();
    state.lastFailed = !passed;
    if (passed) state.lastPass = folding.ref();
    raise(folding, device.serial, {EventKind::Service, service.service});
}

void foldPower(Folding& folding, Device& device, bool on) {
    if (device.poweredSince.has_value() == on) {
        folding.effect.effective = false;
        return;
    }
    device.poweredSince = on ? std::optional(folding.record.at) : std::nullopt;
    raise(folding, device.serial, {on ? EventKind::PowerOn : EventKind::PowerOff, ""});
}

// A visitor with one overload a kind that changes a device; the other kinds change nothing.
struct DeviceEffects {
    Folding& folding;
    Device& device;

    void happened(EventKind kind, const std::string& subject = "") const {
        raise(folding, device.serial, {kind, subject});
    }
    void nothing() const { folding.effect.effective = false; }

    template <class Other>
    void operator()(const Other&) const {}

    void operator()(const body::Retire&) const { foldRetire(folding, device); }
    void operator()(const body::Group& body) const {
        const auto before = device.group();
        device.selectedGroup = body.group;
        if (before == body.group) return nothing();
        happened(EventKind::Group);
    }
    void operator()(const body::Power& body) const { foldPower(folding, device, body.on); }
    void operator()(const body::Move& body) const {
        device.location = body.location;
        happened(EventKind::Move);
    }
    void operator()(const body::Sighted& body) const { device.location = body.location; }
    void operator()(const body::Software& body) const {
        device.software = body.version;
        happened(EventKind::Software);
    }
    void operator()(const body::Fit& body) const { foldFit(folding, body); }
    void operator()(const body::Remove& body) const { foldRemove(folding, body); }
    void operator()(const body::Reprocess& body) const { foldReprocess(folding, body); }
    void operator()(const body::Soil&) const {
        markUsed(folding, device, false);
        happened(EventKind::Soil);
    }
    void operator()(const body::Check& body) const { foldCheck(folding, body); }
    void operator()(const body::Alarm& body) const { happened(EventKind::Alarm, body.code); }
    void operator()(const body::Fault& body) const {
        device.faults.insert_or_assign(
            body.code, StandingFault{folding.ref(), body.blocking, body.text.value_or("")});
        happened(EventKind::Fault, body.code);
    }
    void operator()(const body::Clear& body) const {
        if (device.faults.erase(body.code) == 0) return nothing();
        happened(EventKind::Clear, body.code);
    }
    void operator()(const body::Withdraw& body) const {
        device.holds.insert_or_assign(body.hold, StandingHold{folding.ref(), body.reason});
    }
    void operator()(const body::Release& body) const {
        if (device.holds.erase(body.hold) == 0) return nothing();
        happened(EventKind::Release, body.hold);
    }
    void operator()(const body::Waive& body) const { foldWaive(folding, device, body); }
    void operator()(const body::NoticeDone& body) const {
        device.noticesDone.insert_or_assign(body.key, folding.ref());
    }
    void operator()(const body::Service& body) const { foldService(folding, device, body); }
    void operator()(const body::UseStart& body) const { foldUseStart(folding, device, body); }
    void operator()(const body::UsePause&) const {
        if (!device.use || device.use->paused) return nothing();
        device.use->paused = true;
        happened(EventKind::UsePause);
    }
    void operator()(const body::UseResume&) const {
        if (!device.use || !device.use->paused) return nothing();
        if (folding.tellsAll() && resumesUnready(folding, device)) {
            folding.note(AnomalyCode::ResumedUnready);
        }
        device.use->paused = false;
        markUsed(folding, device, true);
        happened(EventKind::UseResume);
    }
    void operator()(const body::UseEnd&) const {
        if (!device.use) return nothing();
        endUse(folding, device);
        folding.effect.endedUse = true;
    }
};

// A failure counts whoever wrote it, also one that only a measure shows.
bool failsByMeasure(const Folding& folding) {
    const auto* attempt = std::get_if<body::Check>(&folding.record.body);
    const Device* device = folding.device;
    if (!attempt || !device || device->retired) return false;
    const Check* check = folding.rulebook.check(attempt->check);
    return check && applies(*check, *device, folding.rulebook) &&
           judge(folding, *device, *check, *attempt).failure;
}

bool needsEnrolment(Kind kind) {
    return kind != Kind::Note && kind != Kind::Review && kind != Kind::Strike;
}

void foldOnDevice(Folding& folding) {
    const Record& record = folding.record;
    if (const auto* enrol = std::get_if<body::Enrol>(&record.body)) {
        return foldEnrol(folding, *enrol);
    }
    Device* device = folding.device;
    if (!device || device->retired) {
        folding.effect.effective = false;
        folding.effect.countedStart = record.kind() == Kind::UseStart;
        if (needsEnrolment(record.kind())) folding.note(AnomalyCode::Unenrolled);
        return;
    }
    std::visit(DeviceEffects{folding, *device}, record.body);
}

Shared<Device>* findDevice(Folding& folding, const std::string& serial) {
    if (folding.indexed) return folding.indexed->device(serial);
    const auto found = folding.state.devices.find(serial);
    return found == folding.state.devices.end() ? nullptr : &found->second;
}

void foldRecord(Folding folding, const Editions& editions) {
    const Record& record = folding.record;
    Effect& effect = folding.effect;
    effect.effective = true;
    effect.endedUse = effect.countedStart = false;
    effect.anomalies.clear();
    effect.events.clear();
    const auto rulebook =
        record.kind() == Kind::Adopt ? folding.state.rulebook : nullptr;  // outlives it
    if (auto* seen = findDevice(folding, record.device)) {
        folding.device = &seen->edit();
        folding.device->last = refOf(record);
    }
    // Whether a strike has effect depends on the record it strikes, which a state does not hold.
    const bool allowed = record.kind() == Kind::Strike || mayWrite(folding.state, record).allowed;
    if (!allowed && !failsByMeasure(folding)) {
        effect.effective = false;
        folding.note(AnomalyCode::Unauthorised);
        return;
    }
    if (record.device.empty()) {
        foldDepartmentWide(folding, editions);
    } else {
        foldOnDevice(folding);
    }
    std::sort(effect.anomalies.begin(), effect.anomalies.end(),
              [](AnomalyCode a, AnomalyCode b) { return name(a) < name(b); });
}

}  // namespace

Device& edit(Folding& folding, const std::string& serial) {
    if (folding.device && folding.device->serial == serial) return *folding.device;
    assert(folding.reach == Reach::All || serial == folding.record.device);
    return findDevice(folding, serial)->edit();
}

Effect fold(State& state, const Record& record, const Editions& editions) {
    Effect effect;
    fold(state, record, editions, effect);
    return effect;
}

void fold(State& state, const Record& record, const Editions& editions, Effect& effect) {
    foldRecord({state, record, *state.rulebook, effect}, editions);
}

void foldStateOnly(IndexedState& indexed, const Record& record, const Editions& editions,
                   Reach reach) {
    State& state = indexed.state();
    Effect untold;
    foldRecord({state, record, *state.rulebook, untold, &indexed, reach}, editions);
}

void adopt(State& state, const std::shared_ptr<const Rulebook>& edition, const RecordRef& record) {
    if (state.adopted) resetNamedAnew(state, *edition, record);
    state.rulebook = edition;
    state.adopted = record;
}

void applyImpliedUseEnd(State& state, const Record& start) {
    const Device* device = state.device(start.device);
    if (!device || device->retired || !device->use) return;
    if (std::get<body::UseStart>(start.body).samePatient) return;
    Effect effect;
    const std::shared_ptr<const Rulebook> rulebook = state.rulebook;
    Folding folding{state, start, *rulebook, effect};
    endUse(folding, edit(folding, start.device));
}

}  // namespace rules
