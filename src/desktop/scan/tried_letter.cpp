// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A letter on trial; see tried_letter.h.
#include "desktop/scan/tried_letter.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QSignalBlocker>
#include <memory>
#include <utility>

namespace desktop {

void TriedLetter::put(QLineEdit& line, const QKeyEvent& key) {
    m_line = &line;
    m_before = line.text();
    m_cursor = line.cursorPosition();
    m_selectedFrom = line.selectionStart();
    m_selected = line.selectionLength();
    m_wasModified = line.isModified();
    m_stands = true;
    const QSignalBlocker unheard(line);
    const std::unique_ptr<QKeyEvent> press(key.clone());
    QCoreApplication::sendEvent(&line, press.get());
    m_with = line.text();
}

void TriedLetter::keep() {
    if (!std::exchange(m_stands, false) || !m_line || m_with == m_before) return;
    const auto line = m_line;  // who is told may close what it is in
    Q_EMIT line->textChanged(line->text());
    if (line) Q_EMIT line->textEdited(line->text());
}

// As if by hand, so that what was typed before can still be undone.
void TriedLetter::takeBack() {
    if (!std::exchange(m_stands, false) || !m_line || m_line->text() != m_with) return;
    const QSignalBlocker unheard(m_line);
    if (m_with != m_before) {
        m_line->selectAll();
        m_before.isEmpty() ? m_line->del() : m_line->insert(m_before);
    }
    m_line->setCursorPosition(m_cursor);
    if (m_selectedFrom >= 0) {
        const bool isBackwards = m_cursor == m_selectedFrom;
        m_line->setSelection(isBackwards ? m_selectedFrom + m_selected : m_selectedFrom,
                             isBackwards ? -m_selected : m_selected);
    }
    m_line->setModified(m_wasModified);
}

}  // namespace desktop
