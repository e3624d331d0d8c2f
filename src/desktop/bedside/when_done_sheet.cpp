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

#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

QString timeText(Workplace& workplace, logbook::Instant at) {
    const auto& zone = *workplace.fleet()->standing->state.rulebook->zone;
    return shownText(words::Times(workplace.words(), zone, workplace.clock().now()).time(at));
}

using Answered = std::function<void(std::optional<logbook::Instant>)>;

bool isBeingAsked(const DeskTools& tools, const Sheet& draft) {
    return std::ranges::any_of(tools.sheets.findChildren<WhenDoneSheet*>(),
                               [&](const auto* each) { return each->asksOf(draft); });
}

// One that comes back again before it could be asked waits once.
void askLater(const DeskTools& tools, const BegunDraft& draft, Answered answered) {
    const auto name = QStringLiteral("waits to be asked when it was done");
    for (auto* before : draft.sheet.findChildren<QObject*>(name)) delete before;
    auto* waiting = new QObject(&draft.sheet);
    waiting->setObjectName(name);
    QObject::connect(
        tools.sheets.top(), &Sheet::closed, waiting,
        [waiting, tools, draft, answered = std::move(answered)] {
            waiting->setObjectName({});
            waiting->deleteLater();
            askWhenDone(tools, draft, answered);
        },
        Qt::QueuedConnection);
}

void askNow(const DeskTools& tools, const BegunDraft& draft, Answered answered) {
    auto& workplace = tools.workplace;
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

}  // namespace

void askWhenDone(const DeskTools& tools, const BegunDraft& draft, Answered answered) {
    const bool isOld = tools.workplace.clock().now() - draft.begun > briefly;
    if (!isOld || !tools.workplace.fleet() || draft.isTimed()) return;
    // Put aside again, or closed, meanwhile; or asked already.
    if (!draft.sheet.isVisible() || isBeingAsked(tools, draft.sheet)) return;
    if (tools.sheets.top() == &draft.sheet) {
        askNow(tools, draft, std::move(answered));
    } else {
        askLater(tools, draft, std::move(answered));
    }
}

WhenDoneSheet::WhenDoneSheet(const DeskTools& tools, const BegunDraft& draft, QWidget* parent)
    : Sheet(draft.sheet.accessibleName(), parent), m_tools(tools), m_draft(&draft.sheet) {
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

void WhenDoneSheet::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        tell(tr("First say when it was done. What was left can be called off after that."));
    } else {
        Sheet::keyPressEvent(event);
    }
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
