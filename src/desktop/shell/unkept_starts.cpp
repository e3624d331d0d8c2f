// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Starts that are not in the log; see unkept_starts.h.
#include "desktop/shell/unkept_starts.h"

#include "desktop/shell/emergency_starts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/sheet.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/context.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

QString unitOf(const StandingStart& start) {
    return shownText(words::shown(start.entry().device));
}

QString timeText(const Workplace& workplace, const StandingStart& start) {
    const auto& fleet = workplace.fleet();
    if (!fleet) return shownText(toText(*start.entry().at));  // no zone is known yet
    const words::Context context{workplace.words(), fleet->board.state, nullptr,
                                 workplace.clock().now(), {}, {}};
    return shownText(context.times().time(*start.entry().at));
}

QString nameOf(const Workplace& workplace, const StandingStart& start) {
    const auto& who = start.entry().by.who;
    const auto& fleet = workplace.fleet();
    return shownText(fleet ? words::personName(fleet->board.context(workplace.words()), who)
                           : words::shown(who));
}

// The sheet that the line opens; gone once nothing stands any more.
class UnkeptSheet : public Sheet {
    Q_DECLARE_TR_FUNCTIONS(desktop::UnkeptStarts)
public:
    explicit UnkeptSheet(Workplace& workplace)
        : Sheet(tr("Emergency starts that are not recorded")) {
        auto* rows = new UnkeptRows(workplace);
        content()->addWidget(rows);
        content()->addStretch();
        auto* back = new WrappedButton(tr("Back"));
        foot()->addWidget(back);
        connect(back, &QPushButton::clicked, this, &Sheet::callOff);
        connect(rows, &UnkeptRows::shown, this, [this, rows] {
            if (rows->isEmpty()) callOff();
        });
    }
};

}  // namespace

UnkeptRow::UnkeptRow(Workplace& workplace, int number, QWidget* parent)
    : QWidget(parent), m_workplace(workplace), m_number(number) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    m_text = textLabel({}, TextRole::Strong);
    m_text->setProperty("banner", true);
    layout->addWidget(m_text);
    auto* presses = new WrapLayout(WrapLayout::Manner::Packed);
    layout->addLayout(presses);
    m_again = new WrappedButton(QString());
    m_again->setMain(true);
    auto* never = new WrappedButton(tr("It is not to be recorded"));
    presses->addWidget(m_again);
    presses->addWidget(never);
    connect(m_again, &QPushButton::clicked, this,
            [this] { m_workplace.starts().tryAgain(m_number); });
    connect(never, &QPushButton::clicked, this, &UnkeptRow::askToDrop);
}

void UnkeptRow::show(const StandingStart& start) {
    const auto& starts = m_workplace.starts();
    QStringList text;
    if (!start.refused && start.isTried) {
        text << tr("Not recorded yet: emergency start of %1, %2. It is being written.")
                    .arg(unitOf(start), timeText(m_workplace, start));
    } else {
        text << UnkeptStarts::sentence(m_workplace, start)
             << tr("Pressed by %1.").arg(nameOf(m_workplace, start));
    }
    if (!starts.isHere(start)) {
        text << tr("It was pressed for the logbook %1.")
                    .arg(shownText(words::shown(start.file.path.string())));
    } else if (start.refused) {
        text << tr("It is tried again every few seconds, until it is recorded.")
             << shownText(start.refused->notice.says);
        if (start.note.empty())
            text << tr("It is held in this window alone: leave it open.");
    }
    m_text->setText(text.join(QLatin1Char(' ')));
    m_again->setText(starts.isHere(start)
                         ? tr("Record the start of %1 now").arg(unitOf(start))
                         : tr("Record the start of %1 in this logbook").arg(unitOf(start)));
    m_again->setVisible(starts.isOfThisLog(start));
    setEnabled(!start.isPressedAgain);
}

void UnkeptRow::askToDrop() {
    const auto& all = m_workplace.starts().all();
    const auto start = std::ranges::find(all, m_number, &StandingStart::number);
    if (start == all.end()) return;
    m_workplace.ask({tr("Is the emergency start of unit %1, %2, not to be recorded? The unit is "
                        "shown again as it was before.")
                         .arg(unitOf(*start), timeText(m_workplace, *start)),
                     tr("It was not started: record nothing"),
                     tr("Back, it is still to be recorded")},
                    [starts = QPointer<EmergencyStarts>(&m_workplace.starts()), number = m_number,
                     device = start->entry().device](bool isYes) {
                        if (isYes && starts) starts->drop(number, device);
                    });
}

UnkeptRows::UnkeptRows(Workplace& workplace, QWidget* parent)
    : QWidget(parent), m_workplace(workplace) {
    m_layout = new QVBoxLayout(this);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(targetGap);
    m_damaged = makeDamaged();
    m_layout->addWidget(m_damaged);
    connect(&workplace.starts(), &EmergencyStarts::changed, this, &UnkeptRows::showStarts);
    // Times and names are told by the fleet, and the log is known by then.
    connect(&workplace, &Workplace::fleetChanged, this, &UnkeptRows::showStarts);
    showStarts();
}

QWidget* UnkeptRows::makeDamaged() {
    auto* box = new QWidget;
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    m_damagedText = textLabel({}, TextRole::Strong);
    m_damagedText->setProperty("banner", true);
    auto* seen = new WrappedButton(tr("I have read that"));
    layout->addWidget(m_damagedText);
    layout->addWidget(seen, 0, Qt::AlignLeft);
    connect(seen, &QPushButton::clicked, this, [this] { m_workplace.starts().endDamaged(); });
    return box;
}

bool UnkeptRows::isEmpty() const {
    return m_rows.empty() && m_workplace.starts().damaged().empty();
}

// What stands already stays where it is: a press is under way on it, maybe.
void UnkeptRows::showStarts() {
    QStringList damaged;
    for (const auto& problem : m_workplace.starts().damaged()) damaged << problemText(problem);
    m_damagedText->setText(damaged.join(QLatin1Char('\n')));
    m_damaged->setVisible(!damaged.isEmpty());
    const auto& all = m_workplace.starts().all();
    const auto stands = [&](const UnkeptRow* row) {
        return std::ranges::any_of(all, [&](const StandingStart& start) {
            return start.number == row->number() && start.isTold;
        });
    };
    std::erase_if(m_rows, [&](UnkeptRow* row) {
        if (stands(row)) return false;
        row->hide();
        row->deleteLater();
        return true;
    });
    for (const auto& start : all) {
        if (!start.isTold) continue;
        auto row = std::ranges::find(m_rows, start.number, &UnkeptRow::number);
        if (row == m_rows.end()) {
            row = m_rows.insert(m_rows.end(), new UnkeptRow(m_workplace, start.number));
            m_layout->addWidget(*row);
        }
        (*row)->show(start);
    }
    Q_EMIT shown();
}

UnkeptStarts::UnkeptStarts(DeskTools tools, QWidget* parent) : QWidget(parent), m_tools(tools) {
    setAccessibleName(tr("Emergency starts that are not recorded"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    m_line = new WrappedButton(QString());
    m_line->setMain(true);
    m_rows = new UnkeptRows(tools.workplace);
    layout->addWidget(m_line);
    layout->addWidget(m_rows);
    connect(m_line, &QPushButton::clicked, this, &UnkeptStarts::openSheet);
    connect(m_rows, &UnkeptRows::shown, this, &UnkeptStarts::fit);
    connect(&tools.workplace, &Workplace::appearanceChanged, this, &UnkeptStarts::fit);
    fit();
}

QString UnkeptStarts::sentence(const Workplace& workplace, const StandingStart& start) {
    return tr("NOT recorded: emergency start of %1, %2.")
        .arg(unitOf(start), timeText(workplace, start));
}

void UnkeptStarts::fit() {
    QStringList units;
    QString one;
    for (const auto& start : m_tools.workplace.starts().all()) {
        if (!start.isTold) continue;
        units << unitOf(start);
        one = sentence(m_tools.workplace, start);
    }
    if (units.isEmpty()) one = tr("A note of an emergency start cannot be read.");
    m_line->setText(units.size() <= 1 ? one + QStringLiteral(" …")
                                      : tr("NOT recorded: emergency starts of %1 …")
                                            .arg(units.join(QStringLiteral(", "))));
    m_line->setVisible(isTextLarge());
    m_rows->setVisible(!isTextLarge());
    setVisible(!m_rows->isEmpty());
}

void UnkeptStarts::openSheet() {
    if (m_tools.sheets.isEmpty()) m_tools.sheets.put(new UnkeptSheet(m_tools.workplace));
}

UnkeptStarts::IfClosed UnkeptStarts::ifClosed(Workplace& workplace) {
    QStringList lost, waits;
    for (const auto& start : workplace.starts().all())
        (start.note.empty() ? lost : waits) << sentence(workplace, start);
    return {lost.join(QLatin1Char('\n')), waits.join(QLatin1Char('\n'))};
}

}  // namespace desktop
