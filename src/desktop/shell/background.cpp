// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The thread; see background.h.
#include "desktop/shell/background.h"

#include "station/system.h"

#include <QMetaObject>

namespace desktop {

Background::Background(Pace pace, QObject* parent) : QObject(parent), m_pace(pace) {
    m_pool.setMaxThreadCount(1);
}

Background::~Background() {
    m_pool.clear();
    m_pool.waitForDone();
}

void Background::giveWay(Pace pace) {
    using station::system::Way;
    station::system::giveWay(pace == Pace::Prompt ? Way::ToPainting : Way::ToAll);
}

void Background::post(std::function<std::function<void()>()> work, Urgency urgency) {
    m_pool.start(
        [this, work = std::move(work)] {
            giveWay(m_pace);
            QMetaObject::invokeMethod(this, work(), Qt::QueuedConnection);
        },
        // What wakes a thread that waits has priority 0 there, whatever is asked for: so that all
        // that is urgent stays in its order, it has no other.
        urgency == Urgency::Soon ? 0 : -1);
}

}  // namespace desktop
