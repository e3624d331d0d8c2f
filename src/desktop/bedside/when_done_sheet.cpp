// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The question; see when_done_sheet.h.
#include "desktop/bedside/when_done_sheet.h"

#include "desktop/bedside/time_sheet.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "words/times.h"

#include <QLabel>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

namespace {

QString timeText(Workplace& workplace, logbook::Instant at) {
    const auto& zone = *workplace.fleet()->standing->state.rulebook->zone;
    return shownText(words::Times(workplace.words(), zone, workplace.clock().now()).time(at));
}

}  // namespace

void askWhenDone(const DeskTools& tools, const BegunDraft& draft,
                 std::function<void(std::optional<logbook::Instant>)> answered) {
    auto& workplace = tools.workplace;
    const bool isOld = workplace.clock().now() - draft.begun > briefly;
    // Of several that came back together the uppermost asks.
    if (!isOld || !workplace.fleet() || tools.sheets.top() != &draft.sheet) return;
    auto* sheet = new WhenDoneSheet(tools, draft);
    QObject::connect(
        sheet, &WhenDoneSheet::answered, &draft.sheet,
        [&workplace, &draftSheet = draft.sheet, begun = draft.begun,
         answered = std::move(answered)](std::optional<logbook::Instant> at) {
            answered(at);
            const auto since = timeText(workplace, begun);
            draftSheet.sayAtTop(
                at ? WhenDoneSheet::tr("Begun at %1. Done at %2.")
                         .arg(since, timeText(workplace, *at))
                   : WhenDoneSheet::tr("Begun at %1. Done now, when it is kept.").arg(since));
        });
    tools.sheets.put(sheet);
}

WhenDoneSheet::WhenDoneSheet(const DeskTools& tools, const BegunDraft& draft, QWidget* parent)
    : Sheet(draft.sheet.accessibleName(), parent), m_tools(tools) {
    const auto now = tools.workplace.clock().now();
    const auto since = timeText(tools.workplace, draft.begun);
    const auto ago = words::duration(tools.workplace.words(), now - draft.begun);
    content()->addWidget(textLabel(tr("Begun at %1, %2 ago, and not kept yet. When was this done?")
                                       .arg(since, shownText(ago)),
                                   TextRole::Strong));
    const auto add = [this](const QString& text, auto pressed) {
        auto* button = new WrappedButton(text);
        content()->addWidget(button);
        connect(button, &QPushButton::clicked, this, pressed);
    };
    add(tr("At %1, when it was begun").arg(since),
        [this, begun = draft.begun] { answer(begun); });
    add(tr("Now"), [this] { answer(std::nullopt); });
    add(tr("Another time"), [this] { askTime(); });
    content()->addStretch();
}

void WhenDoneSheet::answer(std::optional<logbook::Instant> at) {
    Q_EMIT answered(at);
    close();
}

void WhenDoneSheet::askTime() {
    auto* sheet = new TimeSheet(m_tools.workplace);
    connect(sheet, &TimeSheet::agoChosen, this, [this](int minutes) {
        const auto at = m_tools.workplace.clock().now() - logbook::Duration{minutes * 60'000LL};
        answer(minutes > 0 ? std::optional(at) : std::nullopt);
    });
    connect(sheet, &TimeSheet::timeChosen, this, [this](logbook::Instant at) { answer(at); });
    m_tools.sheets.put(sheet);
}

}  // namespace desktop
