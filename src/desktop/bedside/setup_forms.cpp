// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The forms; see setup_forms.h.
#include "desktop/bedside/setup_forms.h"

#include "desktop/shell/text.h"

namespace desktop {

namespace {

constexpr const char* sentAway = "sent";

QString partOf(const report::SetupPosition& position) {
    const auto label = shownText(position.label);
    if (!position.fitted || position.fitted->name.empty()) return label;
    return label + QStringLiteral(", ") + shownText(position.fitted->name);
}

}  // namespace

ActForm SetupForms::remove(const report::SetupPosition& position) {
    ActForm form{tr("Take out: %1").arg(shownText(position.label))};
    form.told << partOf(position) << tr("The position is left empty.");
    form.says = [](const Answers&) { return tr("It was taken out"); };
    form.acts = [key = position.key](const Answers&) {
        return std::vector{station::removeOf(key)};
    };
    return form;
}

ActForm SetupForms::reprocess(const report::SetupPosition& position, const words::Words& words) {
    ActForm form{tr("Reprocessing: %1").arg(shownText(position.label))};
    form.told << partOf(position)
              << tr("Wanted: at least %1.").arg(shownText(position.levelText));
    ActField what{"what", tr("What was done?"), ActField::What::Choice, true};
    what.choices = {{sentAway, tr("Taken out and sent away"), tr("the position is left empty")}};
    for (const auto level :
         {logbook::Level::Low, logbook::Level::High, logbook::Level::Sterile}) {
        const auto name = std::string(logbook::name(level));
        what.choices.push_back(
            {name, tr("Reprocessed: %1").arg(shownText(words.say("level." + name)))});
    }
    form.fields = {what,
                   {"load", tr("&Load, if it was reprocessed in one"), ActField::What::Text}};
    form.says = [](const Answers& answers) {
        return answer(answers, "what") == sentAway ? tr("It was taken out and sent away")
                                                   : tr("It was reprocessed");
    };
    form.acts = [key = position.key](const Answers& answers) {
        const auto done = answer(answers, "what");
        if (done == sentAway) return std::vector{station::removeOf(key)};
        return std::vector{
            station::reprocessOf({key}, *logbook::levelOf(done), answer(answers, "load"))};
    };
    return form;
}

}  // namespace desktop
