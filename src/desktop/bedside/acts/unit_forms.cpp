// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Group, power, place, soiling, notes.
#include "desktop/bedside/acts/forms.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"

namespace desktop {

using station::Act;

ActForm UnitForms::group(const ActScene& scene) {
    ActForm form{tr("Patient group")};
    const auto& now = scene.unit.bedside.identity.group;
    form.told << (now ? tr("Selected now: %1. With another group its checks fall due again.")
                            .arg(shownText(scene.unit.bedside.identity.groupText))
                      : tr("No group is selected by the log."));
    auto group = groupField(scene, tr("Which group was selected on the unit?"));
    group.value.clear();
    form.fields = {group};
    form.says = [group](const Answers& answers) {
        return tr("Selected on the unit: %1").arg(labelOf(group, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"group", {{"group", answer(answers, "group")}}}};
    };
    return form;
}

ActForm UnitForms::powerOn(const ActScene&) {
    ActForm form{tr("Switched on")};
    form.told << tr("What has to warm up is waited for from then on.");
    form.says = [](const Answers&) { return tr("The unit was switched on"); };
    form.acts = [](const Answers&) { return std::vector<Act>{{"power", {{"on", true}}}}; };
    return form;
}

ActForm UnitForms::powerOff(const ActScene&) {
    ActForm form{tr("Switched off")};
    form.says = [](const Answers&) { return tr("The unit was switched off"); };
    form.acts = [](const Answers&) { return std::vector<Act>{{"power", {{"on", false}}}}; };
    return form;
}

ActForm UnitForms::soil(const ActScene&) {
    ActForm form{tr("Soiled")};
    form.told << tr("Soiled without a use. The parts that are fitted count as used.");
    form.fields = {textField("reason", tr("By &what? It may stay empty"),
                             {tr("Stood in an isolation room"), tr("Splash")})};
    form.says = [](const Answers&) { return tr("The unit was soiled"); };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"soil", {{"reason", answer(answers, "reason")}}}};
    };
    return form;
}

ActForm UnitForms::place(const ActScene& scene) {
    ActForm form{tr("Seen here")};
    form.told << tr("By the log: %1.").arg(shownText(scene.unit.bedside.identity.place));
    auto how = choiceField("how", tr("Found there, or taken there?"),
                           {{"sighted", tr("Seen there")}, {"move", tr("Moved there")}});
    how.value = "sighted";
    auto place = placeField(scene, tr("W&here? Scan or type the place"));
    form.fields = {how, place};
    form.says = [](const Answers& answers) {
        const auto where = shownText(answer(answers, "location"));
        return answer(answers, "how") == "move" ? tr("The unit was moved to %1").arg(where)
                                                : tr("The unit was seen at %1").arg(where);
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{answer(answers, "how"), bodyOf(answers, {"location"})}};
    };
    return form;
}

ActForm UnitForms::note(const ActScene&) {
    ActForm form{tr("Note")};
    form.told << tr("For people only: it changes nothing about ready. Never name a patient.");
    auto text = textField("text", tr("What is to be &noted?"));
    form.fields = {text};
    form.says = [](const Answers&) { return tr("Keep this note"); };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"note", bodyOf(answers, {"text"})}};
    };
    return form;
}

}  // namespace desktop
