// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Alarms, faults, out of service and back: the codes of the policy edition as buttons.
#include "desktop/bedside/acts/forms.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "report/entry_choices.h"

namespace desktop {

namespace {

using station::Act;

// The code of a fault that the edition does not name.
constexpr const char* otherFault = "other";

}  // namespace

ActForm TroubleForms::alarm(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& code : report::alarmCodes(rulebookOf(scene.unit)))
        choices.push_back({code, shownText(words::capitalized(words::alarmLabel(context, code)))});
    ActForm form{tr("Alarm")};
    form.told << tr("An alarm of the unit that bears on whether it is ready.");
    auto code = choiceField("code", tr("Which alarm?"), std::move(choices));
    form.fields = {code};
    form.says = [code](const Answers& answers) {
        return tr("The unit raised this alarm: %1").arg(labelOf(code, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"alarm", bodyOf(answers, {"code"})}};
    };
    return form;
}

std::vector<ActChoice> TroubleForms::faults(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& fault : rulebookOf(scene.unit).faults)
        choices.push_back({fault.key, shownText(words::faultLabel(context, fault.key)),
                           report::faultBlocks(rulebookOf(scene.unit), fault.key)
                               ? QString()
                               : tr("does not stand against ready")});
    if (rulebookOf(scene.unit).fault(otherFault) == nullptr)
        choices.push_back({otherFault, tr("Another fault")});
    return choices;
}

ActForm TroubleForms::fault(const ActScene& scene) {
    ActForm form{tr("Fault")};
    auto code = choiceField("code", tr("Which fault?"), faults(scene));
    form.fields = {code, textField("text", tr("&What was seen? It may stay empty"))};
    form.says = [code](const Answers& answers) {
        return tr("The unit has this fault: %1").arg(labelOf(code, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"fault", bodyOf(answers, {"code", "text"})}};
    };
    return form;
}

ActForm TroubleForms::clear(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& [code, standing] : deviceOf(scene.unit).faults)
        choices.push_back({code, shownText(words::faultLabel(context, code)),
                           tr("since %1").arg(
                               shownText(context.times().time(standing.record.at)))});
    ActForm form{tr("Fault put right")};
    form.told << whoMayEnter(scene.unit, scene.words, logbook::Kind::Clear);
    auto code = choiceField("code", tr("Which fault?"), std::move(choices));
    form.fields = {code};
    form.says = [code](const Answers& answers) {
        return tr("Put right: %1").arg(labelOf(code, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"clear", bodyOf(answers, {"code"})}};
    };
    return form;
}

namespace {

QString liftersOf(const words::Context& context, const std::string& hold) {
    const auto roles = words::rolesFor(context, logbook::Kind::Release, hold);
    return roles.empty() ? QString() : shownText(words::rolesWithPeople(context, roles));
}

}  // namespace

ActForm TroubleForms::withdraw(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& hold : rulebookOf(scene.unit).holds) {
        const auto lifters = liftersOf(context, hold.key);
        choices.push_back({hold.key, shownText(words::holdLabel(context, hold.key)),
                           lifters.isEmpty() ? tr("Anyone may lift it")
                                             : tr("Lifted by %1").arg(lifters)});
    }
    ActForm form{tr("Out of service")};
    auto hold = choiceField("hold", tr("Why?"), std::move(choices));
    form.fields = {hold, textField("reason", tr("&What happened? It may stay empty"))};
    form.says = [hold](const Answers& answers) {
        return tr("Take it out of service: %1").arg(labelOf(hold, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"withdraw",
                                 {{"hold", answer(answers, "hold")},
                                  {"reason", answer(answers, "reason")}}}};
    };
    return form;
}

ActForm TroubleForms::release(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& [key, standing] : deviceOf(scene.unit).holds) {
        const auto lifters = liftersOf(context, key);
        choices.push_back({key, shownText(words::holdLabel(context, key)),
                           lifters.isEmpty() ? tr("Anyone may lift it")
                                             : tr("Lifted by %1").arg(lifters)});
    }
    ActForm form{tr("Back in service")};
    auto hold = choiceField("hold", tr("Which reason is gone?"), std::move(choices));
    form.fields = {hold};
    form.says = [hold](const Answers& answers) {
        return tr("This reason is gone: %1").arg(labelOf(hold, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"release", bodyOf(answers, {"hold"})}};
    };
    return form;
}

}  // namespace desktop
