// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A line at the foot of the window for whoever has signed in: how many entries wait for their
// name. It can be put off, and is then silent until they sign in again or more entries wait.
#pragma once

#include "desktop/shell/confirm_sheet.h"
#include "station/waiting_log.h"

#include <QWidget>
#include <functional>
#include <memory>
#include <set>
#include <string>

class QPushButton;

namespace desktop {

class WaitingHint : public QWidget {
    Q_OBJECT
public:
    explicit WaitingHint(DeskTools tools, QWidget* parent = nullptr);

    // The sheet; whoever is not signed in does that first, and where nothing waits that is told.
    void open();

private:
    using TakeWaiting = std::function<void(const station::Result<station::Waiting>&)>;
    void read();
    // What waits for that person; not handed over before a fleet is there.
    void readFor(const std::string& person, TakeWaiting taken);
    void show(const WaitingEntries& entries);
    void openFor(const std::string& person);

    DeskTools m_tools;
    // Only the thread that reads looks into it.
    std::shared_ptr<station::WaitingLog> m_log = std::make_shared<station::WaitingLog>();
    WaitingEntries m_entries;
    std::set<logbook::RecordName> m_putOff;
    QPushButton* m_look = nullptr;
};

}  // namespace desktop
