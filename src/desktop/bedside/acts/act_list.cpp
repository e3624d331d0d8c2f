// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list; see act_list.h.
#include "desktop/bedside/acts/act_list.h"

#include "desktop/bedside/acts/forms.h"
#include "desktop/bedside/unit_facts.h"
#include "report/bedside_acts.h"

#include <cstdlib>

namespace desktop {

namespace {

class ActList {
    Q_DECLARE_TR_FUNCTIONS(desktop::ActList)
public:
    static std::vector<ActGroup> groups() {
        return {{tr("Use"),
                 {{ActKind::Start, tr("&Start of use")},
                  {ActKind::Emergency, tr("E&mergency start")},
                  {ActKind::Pause, tr("&Pause")},
                  {ActKind::Resume, tr("&Resume")},
                  {ActKind::End, tr("&End of use")},
                  {ActKind::SwapUnits, tr("S&wap for another unit")}}},
                {tr("Unit"),
                 {{ActKind::Group, tr("Patient &group")},
                  {ActKind::PowerOn, tr("Switched &on")},
                  {ActKind::PowerOff, tr("Switched o&ff")},
                  {ActKind::Place, tr("Seen &here")},
                  {ActKind::Soil, tr("So&iled")},
                  {ActKind::Note, tr("&Note")}}},
                {tr("Trouble"),
                 {{ActKind::Alarm, tr("&Alarm")},
                  {ActKind::Fault, tr("Fa&ult")},
                  {ActKind::Clear, tr("Fault put righ&t")},
                  {ActKind::Withdraw, tr("Out of ser&vice")},
                  {ActKind::Release, tr("&Back in service")}}},
                {tr("Department"),
                 {{ActKind::Service, tr("Servi&ce")},
                  {ActKind::Waive, tr("Permit a &deviation")},
                  {ActKind::NoticeDone, tr("Notice carried out (&Q)")}}}};
    }

    static QString ofUse(ActKind kind, const report::BedsideIdentity& unit) {
        switch (kind) {
            case ActKind::Pause:
                if (!unit.inUse) return notInUse();
                return unit.paused ? tr("The use is paused already.") : QString();
            case ActKind::Resume:
                if (!unit.inUse) return notInUse();
                return unit.paused ? QString() : tr("The use is not paused.");
            case ActKind::End:
            case ActKind::SwapUnits: return unit.inUse ? QString() : notInUse();
            default: return {};
        }
    }

    static QString ofUnit(ActKind kind, const ActScene& scene) {
        const auto& device = deviceOf(scene.unit);
        switch (kind) {
            case ActKind::PowerOn:
                return device.poweredSince ? tr("By the log the unit is on.") : QString();
            case ActKind::PowerOff:
                return device.poweredSince ? QString()
                                           : tr("It is not recorded that the unit is on.");
            case ActKind::Clear:
                return device.faults.empty() ? tr("No fault stands on this unit.") : QString();
            case ActKind::Release:
                return device.holds.empty() ? tr("This unit is not out of service.") : QString();
            default: return ofEdition(kind, scene);
        }
    }

    static QString retired() { return tr("This unit is retired: only a note can be entered."); }

private:
    static QString notInUse() { return tr("By the log this unit is not in use."); }

    static QString ofEdition(ActKind kind, const ActScene& scene) {
        const auto& rulebook = rulebookOf(scene.unit);
        switch (kind) {
            case ActKind::Withdraw:
                return rulebook.holds.empty()
                           ? tr("The policy edition names no reason to be out of service.")
                           : QString();
            case ActKind::Service:
                return rulebook.services.empty() ? tr("The policy edition names no service.")
                                                 : QString();
            case ActKind::Alarm:
                return TroubleForms::alarm(scene).fields.front().choices.empty()
                           ? tr("The policy edition names no alarm.")
                           : QString();
            case ActKind::Waive:
                return DepartmentForms::waivable(scene).empty()
                           ? tr("Nothing that stands on this unit may be permitted.")
                           : QString();
            case ActKind::NoticeDone:
                return DepartmentForms::notices(scene).empty()
                           ? tr("No field notice stands on this unit.")
                           : QString();
            default: return {};
        }
    }
};

}  // namespace

std::vector<ActGroup> actGroups() {
    return ActList::groups();
}

QString whyNot(ActKind kind, const ActScene& scene) {
    const auto& unit = scene.unit.bedside.identity;
    if (unit.verdict == rules::Verdict::Retired)
        return kind == ActKind::Note ? QString() : ActList::retired();
    const auto ofUse = ActList::ofUse(kind, unit);
    return ofUse.isEmpty() ? ActList::ofUnit(kind, scene) : ofUse;
}

namespace {

ActForm formAsMade(ActKind kind, const ActScene& scene) {
    switch (kind) {
        case ActKind::Start: return UseForms::start(scene);
        case ActKind::Emergency: return UseForms::emergency(scene);
        case ActKind::Pause: return UseForms::pause(scene);
        case ActKind::Resume: return UseForms::resume(scene);
        case ActKind::End: return UseForms::end(scene);
        case ActKind::Group: return UnitForms::group(scene);
        case ActKind::PowerOn: return UnitForms::powerOn(scene);
        case ActKind::PowerOff: return UnitForms::powerOff(scene);
        case ActKind::Place: return UnitForms::place(scene);
        case ActKind::Soil: return UnitForms::soil(scene);
        case ActKind::Note: return UnitForms::note(scene);
        case ActKind::Alarm: return TroubleForms::alarm(scene);
        case ActKind::Fault: return TroubleForms::fault(scene);
        case ActKind::Clear: return TroubleForms::clear(scene);
        case ActKind::Withdraw: return TroubleForms::withdraw(scene);
        case ActKind::Release: return TroubleForms::release(scene);
        case ActKind::Service: return DepartmentForms::service(scene);
        case ActKind::Waive: return DepartmentForms::waive(scene);
        case ActKind::NoticeDone: return DepartmentForms::noticeDone(scene);
        case ActKind::SwapUnits: break;
    }
    std::abort();
}

logbook::Kind recordOf(ActKind kind) {
    using logbook::Kind;
    switch (kind) {
        case ActKind::Start:
        case ActKind::Emergency: return Kind::UseStart;
        case ActKind::Pause: return Kind::UsePause;
        case ActKind::Resume: return Kind::UseResume;
        case ActKind::End: return Kind::UseEnd;
        case ActKind::Group: return Kind::Group;
        case ActKind::PowerOn:
        case ActKind::PowerOff: return Kind::Power;
        case ActKind::Place: return Kind::Sighted;
        case ActKind::Soil: return Kind::Soil;
        case ActKind::Note: return Kind::Note;
        case ActKind::Alarm: return Kind::Alarm;
        case ActKind::Fault: return Kind::Fault;
        case ActKind::Clear: return Kind::Clear;
        case ActKind::Withdraw: return Kind::Withdraw;
        case ActKind::Release: return Kind::Release;
        case ActKind::Service: return Kind::Service;
        case ActKind::Waive: return Kind::Waive;
        case ActKind::NoticeDone: return Kind::NoticeDone;
        case ActKind::SwapUnits: break;
    }
    std::abort();
}

}  // namespace

ActForm formOf(ActKind kind, const ActScene& scene) {
    auto form = formAsMade(kind, scene);
    for (auto& field : form.fields)
        field.isWanted = report::mustBeAnswered(recordOf(kind), field.key);
    return form;
}

}  // namespace desktop
