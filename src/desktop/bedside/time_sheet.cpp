// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When; see time_sheet.h.
#include "desktop/bedside/time_sheet.h"

#include "desktop/bedside/keypad.h"
#include "desktop/shell/text.h"
#include "desktop/shell/typed_time.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/times.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QRegularExpression>
#include <QVBoxLayout>
#include <chrono>
#include <utility>

namespace desktop {

TimeSheet::TimeSheet(Workplace& workplace, QWidget* parent)
    : Sheet(tr("When was it done?"), parent), m_workplace(workplace) {
    makeAgo();
    // The keys beside what they type: below it they would be out of sight in a low window.
    auto* typed = new QVBoxLayout;
    makeField(*typed);
    makeDays(*typed);
    typed->addStretch();
    auto* beside = new QHBoxLayout;
    beside->setSpacing(2 * targetGap);
    beside->addLayout(typed, 1);
    beside->addWidget(new Keypad(m_field, QLatin1Char(':')), 0, Qt::AlignTop);
    content()->addLayout(beside);
    content()->addStretch();
    auto* feet = foot();
    auto* back = new WrappedButton(tr("Back"));
    auto* take = new WrappedButton(tr("Take this time"));
    take->setMain(true);
    feet->addWidget(back);
    feet->addWidget(take);
    setFocusProxy(m_field);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(take, &QPushButton::clicked, this, &TimeSheet::read);
    connect(m_field, &QLineEdit::returnPressed, this, &TimeSheet::read);
}

void TimeSheet::makeAgo() {
    auto* chips = new WrapLayout;
    const auto add = [&](int minutes, const QString& text) {
        auto* chip = new WrappedButton(text);
        chips->addWidget(chip);
        connect(chip, &QPushButton::clicked, this, [this, minutes] {
            Q_EMIT agoChosen(minutes);
            close();
        });
    };
    add(0, tr("Now"));
    for (const int minutes : minutesAgo) add(minutes, tr("%n min ago", nullptr, minutes));
    content()->addLayout(chips);
}

void TimeSheet::makeField(QVBoxLayout& typed) {
    auto* label = new QLabel(tr("Or a &time by the clock on the wall, as 14:20. Of another day "
                                "with the date before it, as 2026-11-26 14:20"));
    label->setWordWrap(true);
    m_field = new QLineEdit;
    m_field->setFont(fontFor(TextRole::Large));
    m_field->setAccessibleName(tr("Time"));
    label->setBuddy(m_field);
    m_readAs = new QLabel;
    m_readAs->setWordWrap(true);
    m_readAs->setFont(fontFor(TextRole::Strong));
    m_readAs->setAccessibleName(tr("What the time is read as"));
    connect(m_field, &QLineEdit::textChanged, this, &TimeSheet::showReadAs);
    m_said = new QLabel;
    m_said->setWordWrap(true);
    m_said->setFont(fontFor(TextRole::Strong));
    m_said->hide();
    m_which = new QWidget;
    new QHBoxLayout(m_which);
    m_which->layout()->setContentsMargins(0, 0, 0, 0);
    m_which->layout()->setSpacing(targetGap);
    m_which->hide();
    for (auto* each : std::initializer_list<QWidget*>{label, m_field, m_readAs})
        typed.addWidget(each);
    showReadAs();
    for (auto* each : std::initializer_list<QWidget*>{m_said, m_which})
        overFoot()->addWidget(each);  // in sight whatever is scrolled
}

// What large keys alone would take long to type.
void TimeSheet::makeDays(QVBoxLayout& typed) {
    auto* chips = new WrapLayout;
    const auto add = [&](int daysAgo, const QString& text) {
        auto* chip = new WrappedButton(text);
        chips->addWidget(chip);
        connect(chip, &QPushButton::clicked, this, [this, daysAgo] { chooseDay(daysAgo); });
    };
    add(0, tr("Today"));
    add(1, tr("Yesterday"));
    add(2, tr("Two days ago"));
    typed.addLayout(chips);
}

// The time that is typed stays.
void TimeSheet::chooseDay(int daysAgo) {
    const auto& fleet = m_workplace.fleet();
    if (!fleet) return;
    const auto today = fleet->standing->state.rulebook->zone->dayOf(m_workplace.clock().now());
    const auto day = logbook::toText(today - std::chrono::days(daysAgo));
    static const QRegularExpression date(QStringLiteral("^\\d{4}-\\d{2}-\\d{2} ?"));
    m_field->setText(shownText(day) + QLatin1Char(' ') + m_field->text().simplified().remove(date));
    m_field->setFocus();
}

station::Result<logbook::Instant> TimeSheet::instantOf(const station::GivenTime& time) const {
    if (const auto* instant = std::get_if<logbook::Instant>(&time)) return *instant;
    const auto& zone = *m_workplace.fleet()->standing->state.rulebook->zone;
    return station::instantAt(m_workplace.words(), zone, std::get<station::WallTime>(time),
                              m_workplace.clock().now(), station::Tense::Past);
}

void TimeSheet::read() {
    m_which->hide();
    const auto time = station::parseGivenTime(plainText(completedTime(m_field->text())),
                                              m_workplace.words());
    if (const auto wrong = noSuchTime(); !time && !wrong.isEmpty()) {
        say(wrong);
        return;
    }
    if (!time || !m_workplace.fleet()) {
        say(tr("That is no time. Type hours and minutes, as 14:20, or the date before them, as "
               "2026-11-26 14:20."));
        return;
    }
    take(*time);
}

// What is below stays where it is, whether or not something is typed.
void TimeSheet::showReadAs() {
    m_said->hide();
    m_which->hide();
    const auto text = readAs();
    m_readAs->setText(text.isEmpty() ? QStringLiteral(" ") : text);
    m_field->setAccessibleDescription(text);
}

QString TimeSheet::readAs() const {
    const auto& fleet = m_workplace.fleet();
    const auto& words = m_workplace.words();
    const auto given = station::parseGivenTime(plainText(completedTime(m_field->text())), words);
    if (!fleet) return {};
    if (!given) return noSuchTime();
    const auto instant = instantOf(*given);
    if (!instant && instant.error().code == "time_given.twice")
        return tr("The clock showed that time twice: which one it was is asked next.");
    if (const auto wrong = objectionTo(instant); !wrong.isEmpty()) return wrong;
    const auto& zone = *fleet->standing->state.rulebook->zone;
    const auto now = m_workplace.clock().now();
    const auto day = std::chrono::weekday(zone.dayOf(*instant)).iso_encoding();
    const auto weekday = QLocale(shownText(words.language()))
                             .dayName(static_cast<int>(day), QLocale::ShortFormat);
    return tr("%1 %2, %3 ago")
        .arg(weekday, shownText(words::Times(words, zone, now).dated(*instant)),
             shownText(words::duration(words, now - *instant)));
}

// Of what is typed in full and no time all the same; "" while more may follow.
QString TimeSheet::noSuchTime() const {
    static const QRegularExpression whole(
        QStringLiteral("^(\\S+ )?(\\d{1,2})[:.]?(\\d{2})$"));
    const auto typed = whole.match(m_field->text().simplified());
    if (!typed.hasMatch()) return {};
    constexpr int lastHour = 23;
    constexpr int lastMinute = 59;
    if (typed.captured(2).toInt() > lastHour || typed.captured(3).toInt() > lastMinute)
        return tr("There is no such time: the hours go to 23, the minutes to 59.");
    return tr("That is no day. The date goes before the time, as 2026-11-26 14:20.");
}

// Why it cannot be when something was done; "" it can.
QString TimeSheet::objectionTo(const station::Result<logbook::Instant>& instant) const {
    if (!instant) {
        // How else it could be written is for the command line.
        const auto& notice = instant.error().notice;
        const bool isSkipped = instant.error().code == "time_given.skipped";
        return shownText(isSkipped ? notice.says + " " + notice.action : notice.says);
    }
    return *instant > m_workplace.clock().now() ? tr("That time has not come yet.") : QString();
}

void TimeSheet::take(const station::GivenTime& time) {
    const auto instant = instantOf(time);
    if (!instant && instant.error().code == "time_given.twice") {
        askWhich(std::get<station::WallTime>(time));
    } else if (const auto wrong = objectionTo(instant); !wrong.isEmpty()) {
        say(wrong);
    } else {
        Q_EMIT timeChosen(*instant);
        close();
    }
}

void TimeSheet::askWhich(const station::WallTime& time) {
    say(tr("The clock showed that time twice. Which one was it?"));
    qDeleteAll(m_which->findChildren<QPushButton*>());
    QWidget* before = m_field;
    const auto now = m_workplace.clock().now();
    const auto& zone = *m_workplace.fleet()->standing->state.rulebook->zone;
    const words::Times times(m_workplace.words(), zone, now);
    for (const int which : {1, 2}) {
        auto one = time;
        one.which = which;
        const auto instant = instantOf(one);
        if (!instant) continue;
        auto* button = new WrappedButton(shownText(times.time(*instant)));
        m_which->layout()->addWidget(button);
        QWidget::setTabOrder(std::exchange(before, button), button);
        connect(button, &QPushButton::clicked, this, [this, one] { take(one); });
    }
    m_which->show();
}

void TimeSheet::say(const QString& text) {
    m_readAs->setText(QStringLiteral(" "));  // it is said once
    m_said->setText(text);
    m_said->show();
    m_field->setFocus();
}

}  // namespace desktop
