// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a code goes that was scanned or typed, and what is asked where it is not certain that it
// was scanned; see window.h.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/first_start/first_start.h"
#include "desktop/shell/pin_field.h"
#include "desktop/shell/window.h"

#include <QApplication>
#include <QLineEdit>
#include <QPointer>
#include <QStackedWidget>

namespace desktop {

void Window::takeScan(const QString& text) {
    if (auto* sheet = m_sheets->top()) {
        if (!sheet->takeScan(text) && !m_scans.handBack()) tellUntaken(text);
        return;
    }
    if (isFirstStart()) {
        if (!m_firstStart->takeScan(text) && !m_scans.handBack()) tellUntaken(text);
        return;
    }
    if (mayBeTyped(text) && m_scans.handBack()) return;
    auto* desk = static_cast<Desk*>(m_stack->currentWidget());
    if (desk->takeScan(text)) return;
    showDesk(m_stack->indexOf(m_bedside));
    m_bedside->takeScan(text);
}

// A PIN that was typed as fast as a scanner sends is not shown to whoever passes by.
void Window::tellUntaken(const QString& text) {
    const bool isOverPin = qobject_cast<PinField*>(QApplication::focusWidget()) != nullptr;
    const auto told = isOverPin ? tr("What was read was not used, and is not shown: it may be a "
                                     "PIN. Type it once more, more slowly.")
                                : tr("Read %1. Nothing was done with it.").arg(text);
    const bool isOnPage = isFirstStart() && m_sheets->isEmpty();
    isOnPage ? m_firstStart->tellUntaken(told) : tell(told);
}

// A busy system stamps at once what was typed: a word that is looked for is no unit and no part.
bool Window::mayBeTyped(const QString& text) const {
    const auto& fleet = m_workplace.fleet();
    return !fleet || (!isUnitCode(*fleet, text) && codeAtEnd(*fleet, text).size() != text.size());
}

void Window::takeTyped(const QString& text) {
    auto* desk = static_cast<Desk*>(m_stack->currentWidget());
    if (desk->takeTyped(text)) return;
    showDesk(m_stack->indexOf(m_bedside));
    m_bedside->takeTyped(text);
}

// Scanners may be as slow as whoever types, and one that is read right after typing is taken for
// typing. What gives it away is that the text ends in a code of this logbook, and then in Enter.
bool Window::askIfScanned(QLineEdit& line) {
    const auto* sheet = m_sheets->top();
    const auto& fleet = m_workplace.fleet();
    if (sheet == nullptr || !fleet || !sheet->isAncestorOf(&line)) return false;
    const auto code = codeAtEnd(*fleet, line.text());
    const bool isAlone = code.size() == line.text().trimmed().size();
    if (code.isEmpty() || (isAlone && sheet->takesCodeAlone())) return false;
    m_workplace.ask({tr("This text ends in %1, a code of this logbook, and then in Enter: %2\n"
                        "Was %1 scanned?")
                         .arg(code, line.text()),
                     tr("It was scanned: take it out of the text"),
                     tr("It was typed: it stays in the text")},
                    [this, line = QPointer<QLineEdit>(&line), code](bool isYes) {
                        if (isYes && line) takeOutOf(*line, code);
                    });
    return true;
}

void Window::takeOutOf(QLineEdit& line, const QString& code) {
    auto* sheet = m_sheets->top();
    if (sheet == nullptr || !line.text().endsWith(code)) return;
    line.setText(line.text().chopped(code.size()));
    line.setModified(true);
    line.setFocus();
    if (!sheet->takeScan(code)) tellUntaken(code);
}

// The way back says what becomes of it; Escape does not.
void Window::askToLeave(Sheet* sheet) {
    m_workplace.ask({tr("What you typed here is not kept. Leave it?"),
                     tr("Leave it, lose what I typed"), tr("Go on writing")},
                    [sheet = QPointer<Sheet>(sheet)](bool isYes) {
                        if (isYes && sheet) sheet->callOff();
                    });
}

}  // namespace desktop
