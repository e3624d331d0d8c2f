// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Start, pause, resumption and end of a use. What is lacking is told and never stands in the way.
#include "desktop/bedside/acts/forms.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"

namespace desktop {

namespace {

using station::Act;

Act startOf(const Answers& answers) {
    Act act{"use_start", bodyOf(answers, {"group", "location", "reason"})};
    if (const auto precautions = answer(answers, "precautions"); !precautions.empty())
        act.body.emplace_back("precautions", precautions == "yes");
    return act;
}

bool isReady(const ActScene& scene) {
    const auto& identity = scene.unit.bedside.identity;
    return identity.verdict == rules::Verdict::Ready && !identity.inDoubt;
}

}  // namespace

// What puts the unit out of service, in one line with a ready unit to take instead; "" where
// nothing does.
QString UseForms::standsAgainst(const ActScene& scene) {
    const auto& unit = scene.unit.bedside.identity;
    if (unit.verdict != rules::Verdict::Withdrawn) return {};
    const auto lacking = whatIsLacking(scene);
    const auto why = lacking.isEmpty() ? shownText(unit.verdictWord) : lacking.front();
    const auto other = readyInstead(scene);
    return other.isEmpty() ? tr("%1. Look whether another unit is at hand.").arg(why)
                           : tr("%1: take %2 if you can.").arg(why, other);
}

// A start is never held up for want of a place; that none was said is.
QString UseForms::placed(const QString& says, const Answers& answers) {
    return answer(answers, "location").empty() ? tr("%1, place not said").arg(says) : says;
}

std::optional<logbook::RecordName> UseForms::useOf(const ActScene& scene) {
    const auto& bedside = scene.unit.bedside;
    const auto* device = scene.unit.fleet->standing->state.device(bedside.identity.device);
    return device != nullptr && device->use ? std::optional(device->use->start.name)
                                            : std::nullopt;
}

ActForm UseForms::start(const ActScene& scene) {
    ActForm form{tr("Start of use")};
    form.use = useOf(scene);
    const bool isInUse = scene.unit.bedside.identity.inUse;
    if (const auto lacking = whatIsLacking(scene); !lacking.isEmpty() && !isInUse) {
        form.told << (isReady(scene) ? tr("Still to be made sure of at the bedside:")
                                     : tr("Not ready by the log. The start is kept all the same."))
                  << lacking;
    }
    const auto group = groupField(scene, tr("For which patient group?"));
    if (isInUse) {
        form.told << tr("By the log this unit is in use.");
        form.fields = {choiceField("before", tr("Is it the same patient?"),
                                   {{"ended", tr("That use is over, another patient")},
                                    {"same", tr("The same patient")}})};
    }
    form.fields.push_back(group);
    form.fields.push_back(startPlaceField(scene, tr("W&here? It may stay empty")));
    form.fields.push_back(choiceField("precautions", tr("Isolation precautions?"),
                                      {{"no", tr("No precautions")}, {"yes", tr("Precautions")}}));
    if (!isReady(scene))
        form.fields.push_back(textField("reason", tr("Wh&y before it was ready? It may stay empty"),
                                        {tr("No other unit at hand"), tr("Patient unstable")}));
    form.says = [group](const Answers& answers) {
        if (answer(answers, "before") == "same") return tr("The use goes on, same patient");
        const auto label = labelOf(group, answers);
        return placed(label.isEmpty() ? tr("The use began")
                                      : tr("The use began, for %1").arg(label),
                      answers);
    };
    form.acts = [](const Answers& answers) {
        auto start = startOf(answers);
        const auto before = answer(answers, "before");
        if (before == "same") start.body.emplace_back("same_patient", true);
        if (before != "ended") return std::vector<Act>{std::move(start)};
        return std::vector<Act>{{"use_end", {}}, std::move(start)};
    };
    return form;
}

ActForm UseForms::emergency(const ActScene& scene) {
    ActForm form{tr("Emergency start"), true};
    form.told << tr("Ventilate first. This can be entered afterwards, too.")
              << standsAgainst(scene);
    if (scene.unit.bedside.identity.inUse)
        form.told << tr("By the log this unit is in use: look at its serial again. The start is "
                        "kept all the same, and ends that use.");
    if (scene.unit.fleet->unrecorded.contains(scene.unit.bedside.identity.device))
        form.told << tr("A start of this unit is not recorded yet and is tried again by itself. "
                        "Enter only what is another start: each is kept.");
    const auto group = groupField(scene, tr("Patient group"));
    form.fields = {group, startPlaceField(scene, tr("W&here? It may stay empty"))};
    form.says = [group](const Answers& answers) {
        const auto label = labelOf(group, answers);
        return placed(label.isEmpty() ? tr("Started in an emergency")
                                      : tr("Started in an emergency, for %1").arg(label),
                      answers);
    };
    form.acts = [](const Answers& answers) {
        auto start = startOf(answers);
        start.body.emplace_back("emergency", true);
        return std::vector{std::move(start)};
    };
    return form;
}

ActForm UseForms::pause(const ActScene& scene) {
    ActForm form{tr("Pause")};
    form.use = useOf(scene);
    form.told << tr("The patient is disconnected for a while and stays with this unit.");
    form.fields = {textField("reason", tr("Wh&y? It may stay empty"),
                             {tr("Circuit change"), tr("Break from the mask"), tr("Transport")})};
    form.says = [](const Answers&) { return tr("Disconnected for a while"); };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"use_pause", {{"reason", answer(answers, "reason")}}}};
    };
    return form;
}

ActForm UseForms::resume(const ActScene& scene) {
    ActForm form{tr("Resume")};
    form.use = useOf(scene);
    if (const auto lacking = whatIsLacking(scene); !lacking.isEmpty())
        form.told << tr("This stands meanwhile. The resumption is kept all the same.") << lacking;
    form.says = [](const Answers&) { return tr("Connected again, same patient"); };
    form.acts = [](const Answers&) { return std::vector<Act>{{"use_resume", {}}}; };
    return form;
}

ActForm UseForms::end(const ActScene& scene) {
    ActForm form{tr("End of use")};
    form.use = useOf(scene);
    form.told << tr("What was on the patient counts as used from then on.");
    form.says = [](const Answers&) { return tr("This use is over"); };
    form.acts = [](const Answers&) { return std::vector<Act>{{"use_end", {}}}; };
    return form;
}

}  // namespace desktop
