// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The question before; see keeping.h.
#include "desktop/bedside/keeping.h"

#include "desktop/bedside/entry_strip.h"
#include "desktop/shell/text.h"

#include <QCoreApplication>
#include <QPointer>
#include <algorithm>

namespace desktop {

bool disturbsHold(const report::BedsideIdentity& unit, const std::vector<station::Act>& acts) {
    return !unit.sheets.empty() && std::ranges::any_of(acts, [](const station::Act& act) {
        const auto kind = logbook::kindOf(act.kind);
        return kind && report::disturbsEvidence(*kind);
    });
}

struct HoldQuestion {
    Q_DECLARE_TR_FUNCTIONS(desktop::Keeping)
public:
    static Question of(const report::BedsideIdentity& unit) {
        QStringList lines;
        for (const auto& sheet : unit.sheets) {
            lines << tr("%1, since %2:").arg(shownText(sheet.label), shownText(sheet.since));
            for (const auto& line : sheet.lines) lines << shownText(line);
            if (!sheet.lifters.empty()) lines << shownText(sheet.lifters);
        }
        lines << QString() << tr("This entry may change what has to stay as it is.");
        return {lines.join(QLatin1Char('\n')), tr("It was done: keep the entry"),
                tr("Leave the unit as it is")};
    }
};

void askForHold(const PanelTools& tools, const report::BedsideIdentity& unit,
                const std::vector<station::Act>& acts, QObject* receiver,
                std::function<void(bool)> then) {
    if (!disturbsHold(unit, acts)) {
        then(true);
        return;
    }
    tools.desk.workplace.ask(HoldQuestion::of(unit), [receiver = QPointer<QObject>(receiver),
                                                  then = std::move(then)](bool isYes) {
        if (receiver) then(isYes);
    });
}

void keepActs(const PanelTools& tools, const report::BedsideIdentity& unit,
              std::vector<station::Act> acts, QObject* receiver, Workplace::TakeKept taken) {
    askForHold(tools, unit, acts, receiver,
               [&strip = tools.strip, device = unit.device, acts, receiver, taken](bool isYes) {
                   if (isYes) {
                       strip.keep(device, acts, receiver, taken);
                   } else if (taken) {
                       taken({{}, {}, true});
                   }
               });
}

}  // namespace desktop
