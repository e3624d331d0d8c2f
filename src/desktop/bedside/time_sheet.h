// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When something was done: some minutes ago, or a time by the clock on the wall. Where the clock
// showed it twice it is asked which. Knows no entry.
#pragma once

#include "desktop/shell/sheet.h"
#include "logbook/instant.h"
#include "station/given_time.h"

#include <array>

class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace desktop {

class WrapLayout;
class Workplace;

inline constexpr std::array minutesAgo{5, 10, 20, 30};

class TimeSheet : public Sheet {
    Q_OBJECT
public:
    explicit TimeSheet(Workplace& workplace, QWidget* parent = nullptr);

Q_SIGNALS:
    void agoChosen(int minutes);  // 0: now
    void timeChosen(logbook::Instant at);

private:
    void makeAgo();
    void makeDays(QVBoxLayout& typed);
    void makeField(QVBoxLayout& typed);
    void read();
    void showReadAs();
    // What is typed as it is taken, with the day and how long ago; why it is none; "" while it is
    // not one yet.
    [[nodiscard]] QString readAs() const;
    void take(const station::GivenTime& time);
    void chooseDay(int daysAgo);
    void askWhich(const station::WallTime& time);
    void say(const QString& text);
    [[nodiscard]] QString noSuchTime() const;
    [[nodiscard]] QString objectionTo(const station::Result<logbook::Instant>& instant) const;
    [[nodiscard]] station::Result<logbook::Instant> instantOf(const station::GivenTime& time) const;

    Workplace& m_workplace;
    QLineEdit* m_field = nullptr;
    QLabel* m_readAs = nullptr;
    QLabel* m_said = nullptr;
    QWidget* m_which = nullptr;  // the two times that the clock showed alike
};

}  // namespace desktop
