// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Services, permitted deviations, field notices.
#include "desktop/bedside/acts/forms.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "report/entry_choices.h"
#include "words/finding_words.h"
#include "words/shown.h"

namespace desktop {

namespace {

using rules::FindingCode;
using station::Act;

}  // namespace

ActForm DepartmentForms::service(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> services;
    for (const auto& service : rulebookOf(scene.unit).services)
        services.push_back({service.key, shownText(words::serviceLabel(context, service.key))});
    ActForm form{tr("Service")};
    form.told << whoMayEnter(scene.unit, scene.words, logbook::Kind::Service);
    auto service = choiceField("service", tr("Which service?"), std::move(services));
    auto outcome = choiceField("outcome", tr("What came of it?"),
                               {{"pass", tr("Passed")},
                                {"fail", tr("Failed")},
                                {"in_use", tr("The unit was in use")},
                                {"not_located", tr("The unit was not found")},
                                {"deferred", tr("Put off")}});
    form.fields = {service, outcome};
    form.says = [service, outcome](const Answers& answers) {
        return tr("%1: %2").arg(labelOf(service, answers), labelOf(outcome, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"service", bodyOf(answers, {"service", "outcome"})}};
    };
    return form;
}

std::vector<ActChoice> DepartmentForms::waivable(const ActScene& scene) {
    const auto context = contextOf(scene.unit, scene.words);
    std::vector<ActChoice> choices;
    for (const auto& finding : report::waivable(rulebookOf(scene.unit), findingsOf(scene.unit)))
        choices.push_back({rules::toText(finding),
                           shownText(words::capitalized(words::brief(context, finding)))});
    return choices;
}

ActForm DepartmentForms::waive(const ActScene& scene) {
    const words::Times times(scene.words, *rulebookOf(scene.unit).zone, scene.now);
    std::vector<ActChoice> ends;
    for (const auto end : report::waiverEnds(rulebookOf(scene.unit), scene.now))
        ends.push_back({toText(end), tr("until %1").arg(shownText(times.time(end)))});
    ActForm form{tr("Permit a deviation")};
    form.told << whoMayEnter(scene.unit, scene.words, logbook::Kind::Waive)
              << tr("It is shown wherever the unit is, and on the month's report.");
    auto finding = choiceField("finding", tr("What is permitted?"), waivable(scene));
    auto until = choiceField("until", tr("For how long?"), std::move(ends));
    auto reason = textField("reason", tr("Wh&y?"));
    form.fields = {finding, until, reason};
    form.says = [finding, until](const Answers& answers) {
        return tr("Permit it %1: %2").arg(labelOf(until, answers), labelOf(finding, answers));
    };
    form.acts = [](const Answers& answers) {
        const auto permitted = answer(answers, "finding");
        const auto blank = permitted.find(' ');
        auto body = bodyOf(answers, {"until", "reason"});
        body.emplace_back("finding", permitted.substr(0, blank));
        body.emplace_back("subject", permitted.substr(blank + 1));
        return std::vector<Act>{{"waive", std::move(body)}};
    };
    return form;
}

std::vector<ActChoice> DepartmentForms::notices(const ActScene& scene) {
    const auto& known = scene.unit.fleet->standing->state.notices;
    std::vector<ActChoice> choices;
    for (const auto& finding : findingsOf(scene.unit)) {
        if (finding.code != FindingCode::Notice) continue;
        const auto notice = known.find(finding.subject);
        const auto title = notice == known.end() ? std::string() : notice->second.notice.title;
        choices.push_back({finding.subject,
                           tr("Notice %1").arg(shownText(words::readable(finding.subject))),
                           shownText(words::shown(title))});
    }
    return choices;
}

ActForm DepartmentForms::noticeDone(const ActScene& scene) {
    ActForm form{tr("Field notice carried out")};
    form.told << whoMayEnter(scene.unit, scene.words, logbook::Kind::NoticeDone);
    auto notice = choiceField("key", tr("Which notice?"), notices(scene));
    form.fields = {notice, textField("text", tr("&What was done? It may stay empty"))};
    form.says = [notice](const Answers& answers) {
        return tr("Carried out on this unit: %1").arg(labelOf(notice, answers));
    };
    form.acts = [](const Answers& answers) {
        return std::vector<Act>{{"notice_done", bodyOf(answers, {"key", "text"})}};
    };
    return form;
}

}  // namespace desktop
