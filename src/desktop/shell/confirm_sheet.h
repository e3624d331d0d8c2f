// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was kept under somebody's name before they signed in: they say that it was they, of one
// entry or of all, or that it was somebody else. Only for whoever is signed in.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"
#include "station/confirmation.h"

#include <string>
#include <vector>

class QLabel;
class QPushButton;

namespace desktop {

using WaitingEntries = std::vector<station::Unconfirmed>;

class ConfirmSheet : public Sheet {
    Q_OBJECT
public:
    ConfirmSheet(DeskTools tools, const WaitingEntries& entries, QWidget* parent = nullptr);

private:
    void readAgain();
    void show(const WaitingEntries& entries);
    void addEntry(const station::Unconfirmed& entry);
    void addAnswer(const station::Unconfirmed& entry, bool isMine, QLayout& row);
    void answer(const std::vector<logbook::RecordName>& records, bool isMine);
    void take(const station::Result<WaitingEntries>& answered,
              const station::Confirmation& asked);
    void setKeeping(bool isKeeping);

    DeskTools m_tools;
    WaitingEntries m_entries;
    QWidget* m_list = nullptr;
    QLabel* m_nothing = nullptr;  // there is nothing left
    QLabel* m_trouble = nullptr;
    QPushButton* m_all = nullptr;
    bool m_isAnswering = false;  // from the press until what came of it is known
};

}  // namespace desktop
