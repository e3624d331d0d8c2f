// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who is signed in; see presence.h.
#include "desktop/shell/presence.h"

#include "desktop/shell/text.h"

#include <QCoreApplication>
#include <QEvent>
#include <utility>

namespace desktop {

Presence::Presence(QObject* parent) : QObject(parent) {
    m_idle.setSingleShot(true);
    m_idle.setInterval(std::chrono::seconds(90));
    connect(&m_idle, &QTimer::timeout, this, &Presence::lock);
    QCoreApplication::instance()->installEventFilter(this);
}

QString Presence::name() const {
    return m_session ? shownText(m_session->name()) : QString();
}

bool Presence::wasHere(const std::string& person) const {
    return m_wereHere.contains(person);
}

void Presence::begin(station::Session session) {
    lock();
    m_wereHere.insert(session.person());
    m_session = std::move(session);
    m_idle.start();
    Q_EMIT came(m_session->person());
    Q_EMIT changed();
}

void Presence::lock() {
    if (!m_session) return;
    const auto person = m_session->person();
    m_session.reset();
    m_idle.stop();
    Q_EMIT left(person);
    Q_EMIT changed();
}

void Presence::lockAfter(std::chrono::milliseconds span) {
    // What is the same already must not begin the time anew.
    if (m_idle.intervalAsDuration() != span) m_idle.setInterval(span);
}

bool Presence::eventFilter(QObject*, QEvent* event) {
    const auto type = event->type();
    if (m_session && (type == QEvent::KeyPress || type == QEvent::MouseButtonPress ||
                      type == QEvent::TouchBegin))
        m_idle.start();
    return false;
}

}  // namespace desktop
