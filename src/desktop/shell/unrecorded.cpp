// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units put in doubt; see unrecorded.h.
#include "desktop/shell/unrecorded.h"

#include "desktop/shell/large_value.h"
#include "desktop/shell/text.h"
#include "words/context.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

struct UnrecordedWords {
    Q_DECLARE_TR_FUNCTIONS(desktop::Unrecorded)
public:
    static QString brief(const QString& time) {
        return tr("not recorded: emergency start %1").arg(time);
    }
    static QString ofUnit(const QString& time) {
        return tr("Not recorded: emergency start %1. By the log the unit may look as if nobody "
                  "used it: whether it is ready is not known. Look at the unit.")
            .arg(time);
    }
    static QString leftOut(const QString& units) {
        return tr("Left out, since an emergency start of them is not recorded: %1.").arg(units);
    }
};

QString timeText(const FleetView& fleet, const words::Words& words, logbook::Instant at) {
    const words::Context context{words, fleet.board.state, nullptr, fleet.board.asked, {}, {}};
    return shownText(context.times().time(at));
}

// What else is told of it stays.
void mark(FleetView& view, std::size_t index, const words::Words& words, logbook::Instant at) {
    auto& row = view.board.rows[index];
    auto& line = view.lines[index];
    auto& found = row.assessment;
    row.inDoubt = true;
    if (found.verdict == rules::Verdict::Ready) {
        for (auto& group : view.board.groups)
            if (found.group == group.group) --group.ready;
        found.verdict = rules::Verdict::NotReady;
        found.readyUntil.reset();
        line.until.clear();
    }
    if (found.verdict == rules::Verdict::NotReady) line.verdict = words.say("verdict.not_known");
    const auto told = plainText(unrecordedText(view, words, at));
    line.missing = line.missing.empty() ? told : told + "; " + line.missing;
}

}  // namespace

SharedFleetView withUnrecorded(const SharedFleetView& read,
                               const std::map<std::string, logbook::Instant>& units,
                               const words::Words& words) {
    if (!read || units.empty()) return read;
    const auto view = makeLarge<FleetView>();
    *view = *read;
    view->unrecorded = units;
    for (std::size_t i = 0; i < view->board.rows.size(); ++i) {
        const auto unit = units.find(view->board.rows[i].assessment.device);
        if (unit != units.end()) mark(*view, i, words, unit->second);
    }
    return view;
}

rules::State stateWithout(const FleetView& fleet) {
    auto state = fleet.board.state;
    for (const auto& [device, at] : fleet.unrecorded) state.devices.erase(device);
    return state;
}

QString leftOutSentence(const FleetView& fleet, const words::Words& words) {
    if (fleet.unrecorded.empty()) return {};
    std::vector<std::string> units;
    for (const auto& [device, at] : fleet.unrecorded) units.push_back(words::shown(device));
    return UnrecordedWords::leftOut(shownText(words.all(units)));
}

QString unrecordedText(const FleetView& fleet, const words::Words& words, logbook::Instant at) {
    return UnrecordedWords::brief(timeText(fleet, words, at));
}

// Its rows stay but for the way, which counts on a unit that stands free.
void tellUnrecorded(report::Bedside& bedside, const FleetView& fleet, const words::Words& words) {
    auto& identity = bedside.identity;
    const auto unit = fleet.unrecorded.find(identity.device);
    if (unit == fleet.unrecorded.end()) return;
    const auto told = UnrecordedWords::ofUnit(timeText(fleet, words, unit->second));
    identity.inDoubt = true;
    identity.doubtText = plainText(told);
    identity.readyUntil.reset();
    identity.readyUntilText.clear();
    if (identity.verdict == rules::Verdict::Ready) identity.verdict = rules::Verdict::NotReady;
    if (identity.verdict == rules::Verdict::NotReady)
        identity.verdictWord = identity.verdictText = words.say("verdict.not_known");
    if (identity.inUse) return;
    std::erase_if(bedside.rows, [](const report::BedsideRow& row) {
        return row.part == report::RowPart::Step;
    });
    bedside.next.reset();
    bedside.readyAt.reset();
    bedside.runsOut.clear();
    bedside.notProved.clear();
    bedside.headline = plainText(told);
}

}  // namespace desktop
