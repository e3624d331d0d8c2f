// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see swap_units_sheet.h.
#include "desktop/bedside/acts/swap_units_sheet.h"

#include "desktop/bedside/acts/forms.h"
#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/keeping.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/shell/unrecorded.h"
#include "report/gravity.h"
#include "rules/assess.h"
#include "words/finding_words.h"
#include "words/shown.h"
#include "words/times.h"

#include <QCoreApplication>
#include <QPointer>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

using station::Act;

constexpr const char* noFault = "-";

// The units of that serial or asset number that are not retired, whatever the case.
std::vector<const rules::Device*> unitsOf(const FleetView& fleet, const std::string& code) {
    std::vector<const rules::Device*> units;
    const auto is = [wanted = shownText(code)](const std::string& text) {
        return shownText(text).compare(wanted, Qt::CaseInsensitive) == 0;
    };
    for (const auto& [serial, device] : fleet.standing->state.devices) {
        if (device->retired) continue;
        if (serial == code) return {&*device};
        if (is(serial) || (device->enrolment.asset && is(*device->enrolment.asset)))
            units.push_back(&*device);
    }
    return units;
}

// The one unit that goes by it; null if there is none, or several.
const rules::Device* unitOf(const FleetView& fleet, const std::string& code) {
    const auto units = unitsOf(fleet, code);
    return units.size() == 1 ? units.front() : nullptr;
}

// The one that went by it and is retired.
const rules::Device* retiredUnitOf(const FleetView& fleet, const std::string& code) {
    const auto is = [wanted = shownText(code)](const std::string& text) {
        return shownText(text).compare(wanted, Qt::CaseInsensitive) == 0;
    };
    for (const auto& [serial, device] : fleet.standing->state.devices)
        if (device->retired &&
            (is(serial) || (device->enrolment.asset && is(*device->enrolment.asset))))
            return &*device;
    return nullptr;
}

// For which group the unit was started; the one selected where the start named none.
std::optional<std::string> groupOfUse(const UnitView& unit) {
    const auto& device = deviceOf(unit);
    const auto* start = device.use ? unit.lookup(device.use->start.name) : nullptr;
    if (start != nullptr)
        if (const auto* use = std::get_if<logbook::body::UseStart>(&start->body))
            if (use->group) return use->group;
    return device.group();
}

bool isInDoubt(const FleetView& fleet, const rules::Device& device) {
    return fleet.board.provenance.devicesInDoubt.contains(device.serial);
}

bool isReadyFor(const FleetView& fleet, const rules::Device& device, const ActScene& scene) {
    const auto group = groupOfUse(scene.unit);
    return !isInDoubt(fleet, device) && !fleet.unrecorded.contains(device.serial) &&
           rules::assess(fleet.standing->state, device, {scene.now, group}).verdict ==
               rules::Verdict::Ready;
}

// What stands against the unit that takes over, the gravest first; the first few.
QStringList against(const FleetView& fleet, const rules::Device& device, const ActScene& scene) {
    constexpr qsizetype most = 3;
    const auto group = groupOfUse(scene.unit);
    const auto& state = fleet.standing->state;
    const words::Context context{scene.words, state, &device, scene.now, group,
                                 fleet.standing->lookup};
    auto findings = rules::assess(state, device, {scene.now, group}).findings;
    std::erase_if(findings,
                  [](const auto& each) { return each.blocking() != rules::Blocks::Yes; });
    std::ranges::stable_sort(findings, {}, [&](const auto& each) {
        return report::gravity(context, each);
    });
    QStringList why;
    for (const auto& finding : findings) why << shownText(words::brief(context, finding));
    if (isInDoubt(fleet, device)) why.prepend(shownText(scene.words.say("verdict.not_known")));
    if (const auto start = fleet.unrecorded.find(device.serial); start != fleet.unrecorded.end())
        why.prepend(unrecordedText(fleet, scene.words, start->second));
    if (why.size() > most) {
        const auto more = static_cast<int>(why.size() - most);
        why.resize(most);
        why << QCoreApplication::translate("desktop::ActScene", "and %n more", nullptr, more);
    }
    return why;
}

struct SwapForm {
    Q_DECLARE_TR_FUNCTIONS(desktop::SwapUnitsSheet)
public:
    static QString faultReason() { return tr("Fault of the unit"); }

    // The reason is a fault, and none is named.
    static bool contradicts(const Answers& answers) {
        const auto fault = answer(answers, "fault");
        return shownText(answer(answers, "reason")) == faultReason() &&
               (fault.empty() || fault == noFault);
    }

    static ActForm of(const ActScene& scene, const Workplace& workplace) {
        const auto& unit = scene.unit.bedside.identity;
        ActForm form{tr("Swap for another unit")};
        form.told << (unit.location ? tr("The use of %1 ends. The other unit takes over for the "
                                         "same group, at the same place.")
                                    : tr("The use of %1 ends. The other unit takes over for the "
                                         "same group. Where %1 is was not said."))
                         .arg(shownText(unit.serial));
        auto other = textField("other", tr("&Which unit takes over? Scan or type it"));
        other.isWanted = true;
        std::vector<ActChoice> faults{{noFault, tr("No fault")}};
        for (auto& fault : TroubleForms::faults(scene)) faults.push_back(std::move(fault));
        auto fault = choiceField("fault", tr("Has %1 a fault?").arg(shownText(unit.serial)),
                                 std::move(faults));
        form.fields = {other, textField("reason", tr("Wh&y? It may stay empty"),
                                        {faultReason(), tr("Patient's needs")}),
                       fault};
        if (!unit.location)
            form.fields.push_back(startPlaceField(scene, tr("W&here? It may stay empty")));
        form.says = [scene, &workplace, from = shownText(unit.serial)](const Answers& answers) {
            // As last read, as in what is objected to.
            const auto newest = workplace.fleet();
            const auto& fleet = newest ? *newest : *scene.unit.fleet;
            const auto* to = unitOf(fleet, answer(answers, "other"));
            if (to == nullptr) return QString();
            const auto taker = shownText(to->serial);
            if (to->use)
                return tr("%1 is off the patient, %2 took over, which is in use by the log")
                    .arg(from, taker);
            return isReadyFor(fleet, *to, scene)
                       ? tr("%1 is off the patient, %2 took over").arg(from, taker)
                       : tr("%1 is off the patient, %2 took over although it is not ready for "
                            "this group")
                             .arg(from, taker);
        };
        return form;
    }

    static std::vector<Act> onTheFirst(const Answers& answers) {
        std::vector<Act> acts{{"use_end", {}}};
        const auto code = answer(answers, "fault");
        if (code.empty() || code == noFault) return acts;
        Act fault{"fault", {{"code", code}}};
        if (const auto reason = answer(answers, "reason"); !reason.empty())
            fault.body.emplace_back("text", reason);
        acts.push_back(std::move(fault));
        return acts;
    }

    static Act startOn(const UnitView& unit, const Answers& answers) {
        const auto& first = unit.bedside.identity;
        Act start{"use_start", bodyOf(answers, {"reason"})};
        if (const auto group = groupOfUse(unit)) start.body.emplace_back("group", *group);
        const auto place = first.location ? *first.location : answer(answers, "location");
        if (!place.empty()) start.body.emplace_back("location", place);
        return start;
    }
};

}  // namespace

SwapUnitsSheet::SwapUnitsSheet(const PanelTools& tools, SharedUnitView unit, QWidget* parent)
    : ActSheet(tools, unit,
               [&workplace = tools.desk.workplace](const ActScene& scene) {
                   return SwapForm::of(scene, workplace);
               },
               parent) {}

bool SwapUnitsSheet::takeScan(const QString& text) {
    const auto code = plainText(text.trimmed());
    const auto units = unitsOf(fleet(), code);
    if (units.empty()) {
        // Said on the button; nobody is asked to leave the sheet for it.
        const auto* retired = retiredUnitOf(fleet(), code);
        if (retired == nullptr) return ActSheet::takeScan(text);
        setField("other", shownText(retired->serial));
        return true;
    }
    setField("other", units.size() == 1 ? shownText(units.front()->serial) : text.trimmed());
    return true;
}

// As last read: the other unit may have been started since the sheet was opened.
const FleetView& SwapUnitsSheet::fleet() const {
    const auto& newest = workplace().fleet();
    return newest ? *newest : *unit().fleet;
}

QString SwapUnitsSheet::objection(const Answers& answers) const {
    const auto code = answer(answers, "other");
    const auto units = unitsOf(fleet(), code);
    if (const auto* retired = retiredUnitOf(fleet(), code); units.empty() && retired != nullptr)
        return tr("%1 is retired. Scan another unit that takes over.")
            .arg(shownText(retired->serial));
    if (units.empty()) return tr("No unit goes by %1.").arg(shownText(code));
    if (units.size() > 1)
        return tr("Several units go by %1. Type the serial of the one that takes over.")
            .arg(shownText(code));
    const auto* other = units.front();
    if (other->serial == unit().bedside.identity.device)
        return tr("That is the unit that is taken off. Scan the one that takes over.");
    if (SwapForm::contradicts(answers))
        return tr("The reason is a fault of %1. Press which fault, or another reason.")
            .arg(shownText(unit().bedside.identity.serial));
    return {};
}

QString SwapUnitsSheet::remark(const Answers& answers) const {
    const auto* other = unitOf(fleet(), answer(answers, "other"));
    const ActScene scene{unit(), workplace().words(), workplace().clock().now()};
    if (other == nullptr || isReadyFor(fleet(), *other, scene)) return {};
    const auto serial = shownText(words::shown(other->serial));
    if (!other->holds.empty()) return holdsOf(*other);
    const auto why = against(fleet(), *other, scene);
    if (why.isEmpty()) return {};
    const auto instead = readyInstead(scene);
    const auto told = tr("%1 is not ready: %2.").arg(serial, why.join(QStringLiteral("; ")));
    return instead.isEmpty() ? told : told + QLatin1Char(' ') + tr("Ready: %1.").arg(instead);
}

QString SwapUnitsSheet::holdsOf(const rules::Device& other) const {
    const auto& state = fleet().standing->state;
    const words::Context context{workplace().words(), state, &other, workplace().clock().now(),
                                 {}, {}};
    QStringList why;
    for (const auto& finding : rules::assess(state, other, {context.asked, {}}).findings)
        if (finding.code == rules::FindingCode::Withdrawn)
            why << shownText(words::sentence(context, finding).text());
    return shownText(words::shown(other.serial)) + QStringLiteral(": ") +
           why.join(QLatin1Char(' '));
}

std::vector<Act> SwapUnitsSheet::actsOf(const Answers& answers) const {
    auto acts = SwapForm::onTheFirst(answers);
    acts.push_back(SwapForm::startOn(unit(), answers));
    return acts;
}

// Either unit may be held, with a sheet of what must stay as it is; and the one that takes over may
// be in use by the log, which forbids nothing: whoever stands before it knows better.
void SwapUnitsSheet::keepAll(const Answers& answers, Workplace::TakeKept taken) {
    const auto* taker = unitOf(fleet(), answer(answers, "other"));
    const Takeover swap{taker->serial, SwapForm::onTheFirst(answers),
                        SwapForm::startOn(unit(), answers), std::move(taken)};
    const auto& first = unit().bedside.identity.device;
    askForHold(workplace(), first, swap.off, this,
               [this, swap](bool isYes) { isYes ? askOfTheUse(swap) : giveUp(swap); });
}

void SwapUnitsSheet::giveUp(const Takeover& swap) {
    swap.taken({{}, {}, true});
}

std::optional<rules::RecordRef> SwapUnitsSheet::useOf(const std::string& device) const {
    const auto* known = fleet().standing->state.device(device);
    return known != nullptr && known->use ? std::optional(known->use->start) : std::nullopt;
}

// As said at its start, or where the unit was last known to be.
QString SwapUnitsSheet::placeOfUse(const std::string& device) const {
    const auto& standing = *fleet().standing;
    const auto* known = standing.state.device(device);
    const auto* start = known->use ? standing.lookup(known->use->start.name) : nullptr;
    const auto* use =
        start != nullptr ? std::get_if<logbook::body::UseStart>(&start->body) : nullptr;
    const auto place = shownText(words::shown(known->location));
    if (place.isEmpty()) return tr("place unknown");
    return use != nullptr && !use->location
               ? tr("place not said at its start, last known: %1").arg(place)
               : tr("place: %1").arg(place);
}

void SwapUnitsSheet::askOfTheUse(Takeover swap) {
    const auto use = useOf(swap.other);
    swap.over = use ? std::optional(use->name) : std::nullopt;
    if (!use) {
        askOfTheTaker(swap);
        return;
    }
    const words::Times times(workplace().words(), *rulebookOf(unit()).zone,
                             workplace().clock().now());
    const auto serial = shownText(words::shown(swap.other));
    const auto from = shownText(unit().bedside.identity.serial);
    const auto since = shownText(times.time(use->at));
    workplace().ask(
        {tr("By the log %1 is in use since %2, %4. Is that use over? If it is of the same patient "
            "as %3, go back, and enter only the end of use of %3.")
             .arg(serial, since, from, placeOfUse(swap.other)),
         tr("That use is over, %1 took over").arg(serial), tr("Back, look again")},
        [self = QPointer<SwapUnitsSheet>(this), swap](bool isYes) {
            if (!self) return;
            isYes ? self->askOfTheTaker(swap) : self->giveUp(swap);
        });
}

// While it was asked the unit may have been started, or its use may have ended: what was said of
// another use is not said of this one.
bool SwapUnitsSheet::isStillSo(const Takeover& swap) const {
    const auto use = useOf(swap.other);
    return use ? swap.over == use->name : !swap.over;
}

void SwapUnitsSheet::askOfTheTaker(const Takeover& swap) {
    if (!isStillSo(swap)) {
        askOfTheUse(swap);
        return;
    }
    std::vector<Act> on{swap.start};
    if (swap.over) on.insert(on.begin(), {"use_end", {}});
    askForHold(workplace(), swap.other, on, this, [this, swap, on](bool isYes) {
        if (!isYes) {
            giveUp(swap);
        } else if (isStillSo(swap)) {
            keepBoth(swap.off, on, swap.other, swap.taken);
        } else {
            askOfTheUse(swap);
        }
    });
}

void SwapUnitsSheet::keepBoth(const std::vector<Act>& off, const std::vector<Act>& on,
                              const std::string& other, const Workplace::TakeKept& taken) {
    const auto making = strip().take();
    auto entries = strip().entriesOf(unit().bedside.identity.device, off, making);
    const auto more = strip().entriesOf(other, on, making);
    entries.insert(entries.end(), more.begin(), more.end());
    const auto take = [this, making, other = shownText(other), taken](const Workplace::Kept& kept) {
        if (kept.isAll()) {
            Q_EMIT tookOver(other);
        } else {
            strip().giveBack(making);
        }
        taken(kept);
    };
    const auto writer = workplace().whoIsHere();
    askForEnd(workplace(), entries, this, [this, entries, take, writer](bool isYes) {
        const bool isKept =
            isYes && isStillTheirs(workplace(), unit().bedside.identity.device, writer);
        isKept ? workplace().keep(entries, this, take) : take({{}, {}, true});
    });
}

}  // namespace desktop
