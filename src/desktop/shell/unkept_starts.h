// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts that are not in the log, across the window whichever desk is in front: which
// unit, when and by whom, why, and what becomes of it. Where text is large they are one line, whose
// press shows them on a sheet, so that the list of ready units keeps its room.
#pragma once

#include "desktop/shell/desk.h"

#include <QWidget>
#include <vector>

class QLabel;
class QVBoxLayout;

namespace desktop {

class WrappedButton;
struct StandingStart;

// One of them: what is told, and the two presses.
class UnkeptRow : public QWidget {
    Q_OBJECT
public:
    UnkeptRow(Workplace& workplace, int number, QWidget* parent = nullptr);
    [[nodiscard]] int number() const { return m_number; }
    // As it stands now; it is one of the workplace's.
    void show(const StandingStart& start);
    using QWidget::show;

private:
    void askToDrop();

    Workplace& m_workplace;
    const int m_number;
    QLabel* m_text = nullptr;
    WrappedButton* m_again = nullptr;
};

// All of them, one below the other.
class UnkeptRows : public QWidget {
    Q_OBJECT
public:
    explicit UnkeptRows(Workplace& workplace, QWidget* parent = nullptr);
    [[nodiscard]] bool isEmpty() const;

Q_SIGNALS:
    void shown();

private:
    [[nodiscard]] QWidget* makeDamaged();
    void showStarts();

    Workplace& m_workplace;
    QVBoxLayout* m_layout = nullptr;
    QWidget* m_damaged = nullptr;  // of notes that cannot be read
    QLabel* m_damagedText = nullptr;
    std::vector<UnkeptRow*> m_rows;
};

class UnkeptStarts : public QWidget {
    Q_OBJECT
public:
    explicit UnkeptStarts(DeskTools tools, QWidget* parent = nullptr);

    // A line for each, for whoever closes the window; "" for none. What is noted is recorded once
    // it is opened again, what is not is lost.
    struct IfClosed {
        QString lost, waits;
    };
    [[nodiscard]] static IfClosed ifClosed(Workplace& workplace);

    // "NOT recorded: emergency start of KB-0102, 04:31."
    [[nodiscard]] static QString sentence(const Workplace& workplace, const StandingStart& start);

private:
    void fit();
    void openSheet();

    DeskTools m_tools;
    UnkeptRows* m_rows = nullptr;
    WrappedButton* m_line = nullptr;
};

}  // namespace desktop
