// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Starts that are still to be kept; see unkept_starts.h.
#include "desktop/bedside/unkept_starts.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/context.h"
#include "words/shown.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

QString timeText(const Workplace& workplace, logbook::Instant instant) {
    const auto& fleet = workplace.fleet();
    if (!fleet) return {};
    const words::Context context{workplace.words(), fleet->board.state, nullptr,
                                 workplace.clock().now(), {}, {}};
    return shownText(context.times().time(instant));
}

}  // namespace

UnkeptStarts::UnkeptStarts(Workplace& workplace, QWidget* parent)
    : QWidget(parent), m_workplace(workplace) {
    m_rows = new QVBoxLayout(this);
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(targetGap);
    setAccessibleName(tr("Emergency starts that are not recorded"));
    hide();
}

QString UnkeptStarts::sentence(const Workplace& workplace, const std::string& device,
                               logbook::Instant pressed, const station::Problem& problem) {
    const auto& notice = problem.notice;
    return tr("NOT recorded: emergency start of %1, %2.")
               .arg(shownText(words::shown(device)), timeText(workplace, pressed)) +
           QLatin1Char(' ') + shownText(notice.says) + QLatin1Char(' ') +
           shownText(notice.action);
}

void UnkeptStarts::add(std::vector<station::Entry> entries, const StartPress& press,
                       const station::Problem& problem) {
    if (entries.empty()) return;
    for (auto& entry : entries)
        if (!entry.at) entry.at = press.at;
    // The time may have been chosen.
    const StartPress started{*entries.front().at, press.by};
    auto& start = m_starts.emplace_back(Start{std::move(entries), started});
    addRow(start);
    say(start, problem);
    show();
    Q_EMIT changed();
}

bool UnkeptStarts::has(const std::string& device) const {
    return std::ranges::any_of(m_starts, [&](const Start& start) {
        return start.entries.front().device == device;
    });
}

QString UnkeptStarts::lostIfClosed() const {
    QStringList lines;
    for (const auto& start : m_starts)
        lines << tr("NOT recorded: emergency start of %1, %2.")
                     .arg(unitOf(start), timeText(m_workplace, start.press.at));
    return lines.join(QLatin1Char('\n'));
}

void UnkeptStarts::addRow(Start& start) {
    start.row = new QWidget;
    auto* layout = new QVBoxLayout(start.row);
    layout->setContentsMargins(0, 0, 0, 0);
    start.text = textLabel({}, TextRole::Strong);
    start.text->setProperty("banner", true);
    layout->addWidget(start.text);
    auto* presses = new WrapLayout(WrapLayout::Manner::Packed);
    layout->addLayout(presses);
    auto* again = new WrappedButton(tr("Record the start of %1 now").arg(unitOf(start)));
    again->setMain(true);
    auto* never = new WrappedButton(tr("It is not to be recorded"));
    presses->addWidget(again);
    presses->addWidget(never);
    m_rows->addWidget(start.row);
    const auto* row = start.row;
    connect(again, &QPushButton::clicked, this, [this, row] { tryAgain(row); });
    connect(never, &QPushButton::clicked, this, [this, row] { askToDrop(row); });
}

UnkeptStarts::Starts::iterator UnkeptStarts::find(const QWidget* row) {
    return std::ranges::find(m_starts, row, &Start::row);
}

QString UnkeptStarts::unitOf(const Start& start) const {
    return shownText(words::shown(start.entries.front().device));
}

// By whoever is signed in, else by whoever says so. Where somebody else had pressed it, it stays
// that they did it.
void UnkeptStarts::tryAgain(const QWidget* row) {
    const auto start = find(row);
    if (start == m_starts.end()) return;
    start->row->setEnabled(false);
    auto entries = start->entries;
    const auto here = m_workplace.whoIsHere();
    const auto& by = start->press.by;
    if (!here.empty() && !by.empty() && by != here)
        for (auto& entry : entries)
            if (!entry.doneBy) entry.doneBy = by;
    Q_EMIT begun(entries.front().device);
    m_workplace.keep(std::move(entries), this,
                     [this, row](const Workplace::Kept& kept) { take(row, kept); },
                     tr("Emergency start of unit %1, %2")
                         .arg(unitOf(*start), timeText(m_workplace, start->press.at)));
}

void UnkeptStarts::take(const QWidget* row, const Workplace::Kept& kept) {
    const auto start = find(row);
    if (start == m_starts.end()) return;
    const auto device = start->entries.front().device;
    if (kept.isAll()) {
        drop(start);
    } else {
        start->row->setEnabled(true);
        if (kept.refused) say(*start, *kept.refused);
    }
    Q_EMIT ended(device, kept);
}

void UnkeptStarts::askToDrop(const QWidget* row) {
    const auto start = find(row);
    if (start == m_starts.end()) return;
    m_workplace.ask({tr("Is the emergency start of unit %1, %2, not to be recorded? The unit is "
                        "shown again as it was before.")
                         .arg(unitOf(*start), timeText(m_workplace, start->press.at)),
                     tr("It was not started: record nothing"),
                     tr("Back, it is still to be recorded")},
                    [this, row](bool isYes) {
                        const auto found = find(row);
                        if (isYes && found != m_starts.end()) drop(found);
                    });
}

void UnkeptStarts::drop(Starts::iterator start) {
    start->row->hide();
    start->row->deleteLater();
    m_starts.erase(start);
    setVisible(!m_starts.empty());
    Q_EMIT changed();
}

// On the desk, and below it in the place of what was said of the logbook alone.
void UnkeptStarts::say(const Start& start, const station::Problem& problem) const {
    const auto text = sentence(m_workplace, start.entries.front().device, start.press.at, problem);
    start.text->setText(text);
    Q_EMIT m_workplace.told(text);
}

}  // namespace desktop
