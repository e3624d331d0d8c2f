// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrolling; see enrol_sheet.h.
#include "desktop/fleet/enrol_sheet.h"

#include "desktop/first_start/units_page.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "rules/authority.h"
#include "words/context.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

EnrolSheet::EnrolSheet(DeskTools tools, const QString& serial, QWidget* parent)
    : Sheet(tr("Enrol units"), parent), m_tools(tools) {
    m_authority = textLabel({});
    m_page = new UnitsPage(tools);
    content()->addWidget(m_authority);
    content()->addWidget(m_page);
    addFoot();
    m_page->enter();
    if (!serial.isEmpty()) m_page->beginWith(serial);
    setFocusProxy(m_page->focusProxy());
    connect(m_page, &UnitsPage::troubled, this, &EnrolSheet::tellTrouble);
    connect(m_page, &UnitsPage::keepingChanged, this, [this](bool isKeeping) {
        setHeld(isKeeping);
        m_open->setEnabled(!isKeeping && !m_page->firstSerial().isEmpty());
    });
    connect(m_page, &UnitsPage::changed, this, [this] {
        m_open->setText(tr("Open %1 at the Bedside desk").arg(m_page->firstSerial()));
        m_open->setEnabled(true);
    });
    connect(&tools.workplace.presence(), &Presence::changed, this, &EnrolSheet::showAuthority);
    showAuthority();
}

void EnrolSheet::addFoot() {
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why it was not kept"));
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    m_page->putPresses(*overFoot());
    auto* back = new WrappedButton(tr("Back to the desk"));
    m_open = new WrappedButton(tr("Open it at the Bedside desk"));
    m_open->setEnabled(false);
    foot()->addWidget(back);
    foot()->addWidget(m_open);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_open, &QPushButton::clicked, this, [this] {
        const auto serial = m_page->firstSerial();
        close();
        Q_EMIT unitWanted(serial);
    });
}

// Nobody types for nothing: whoever is signed in and may not is told before.
void EnrolSheet::showAuthority() {
    const auto& fleet = m_tools.workplace.fleet();
    if (!fleet) return;
    const auto context = fleet->board.context(m_tools.workplace.words());
    const auto roles = words::rolesFor(context, logbook::Kind::Enrol);
    const auto& session = m_tools.workplace.presence().session();
    const bool may = roles.empty() || !session ||
                     rules::holdsRole(fleet->board.state, session->person(), roles,
                                      m_tools.workplace.clock().now());
    const auto who = shownText(words::rolesWithPeople(context, roles));
    m_authority->setText(roles.empty() ? QString()
                         : may ? tr("May be enrolled by: %1.").arg(who)
                               : tr("%1 may not enrol units. Nothing was kept. Whoever may: %2.")
                                     .arg(m_tools.workplace.presence().name(), who));
    m_authority->setFont(fontFor(may ? TextRole::Plain : TextRole::Strong));
    m_authority->setVisible(!roles.empty());
    m_page->setEnabled(may);
    // A field that is dead takes no keys, and Escape has to reach the sheet.
    setFocusProxy(may ? m_page->focusProxy() : nullptr);
    if (!may && isVisible()) setFocus();
}

void EnrolSheet::tellTrouble(const QString& text) {
    m_trouble->setText(text);
    m_trouble->setVisible(!text.isEmpty());
    // It takes its room from the page.
    auto* now = focusWidget();
    if (!text.isEmpty() && now != nullptr && m_page->isAncestorOf(now)) bringUp(*now);
}

bool EnrolSheet::takeScan(const QString& text) {
    return m_page->isEnabled() && m_page->takeScan(text);
}

bool EnrolSheet::isDraft() const {
    return m_page->isDraft();
}

}  // namespace desktop
