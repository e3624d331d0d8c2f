// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The PIN once more; see pin_sheet.h.
#include "desktop/shell/pin_sheet.h"

#include "desktop/shell/pin_field.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QVBoxLayout>
#include <memory>
#include <utility>

namespace desktop {

PinSheet::PinSheet(Workplace& workplace, const QString& what,
                   std::function<void(station::Writer)> taken, QWidget* parent)
    : Sheet(tr("Your PIN once more"), parent),
      m_workplace(workplace),
      m_person(workplace.whoIsHere()),
      m_taken(std::move(taken)) {
    if (!what.isEmpty()) sayAtTop(what);
    content()->addWidget(
        textLabel(tr("%1, enter your PIN.").arg(workplace.presence().name()), TextRole::Large));
    m_pin = new PinField(tr("PIN"));
    content()->addWidget(m_pin);
    content()->addWidget(textLabel(tr("This is kept only by whoever shows who they are once more, "
                                      "since a desk may have been left as it was.")));
    content()->addStretch();
    addFoot();
    setFocusProxy(m_pin);
    connect(m_pin, &PinField::entered, this, &PinSheet::signIn);
}

void PinSheet::addFoot() {
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why it was not kept"));
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    auto* back = new WrappedButton(tr("Back, keep nothing"));
    auto* enter = new WrappedButton(tr("It is me: keep it"));
    enter->setMain(true);
    m_enter = enter;
    foot()->addWidget(back);
    foot()->addWidget(m_enter);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_enter, &QPushButton::clicked, this, &PinSheet::signIn);
}

// A try that fails counts as anywhere.
void PinSheet::signIn() {
    if (!m_enter->isEnabled()) return;
    if (m_pin->secret().text().empty()) {
        m_trouble->setText(tr("Type the PIN first."));
        m_trouble->show();
        m_pin->setFocus();
        return;
    }
    m_enter->setEnabled(false);
    auto pin = std::make_shared<station::Secret>(m_pin->take());
    m_workplace.read(
        [who = m_person, pin](const auto& surroundings, const auto& file) {
            return station::signIn(surroundings, file, who, *pin);
        },
        this, [this](const station::Result<station::Session>& session) { take(session); });
}

void PinSheet::take(const station::Result<station::Session>& session) {
    m_enter->setEnabled(true);
    if (!session) {
        m_trouble->setText(shownText(session.error().notice.text()));
        m_trouble->show();
        m_pin->setFocus();
        return;
    }
    if (m_workplace.whoIsHere() != m_person) return;  // it has been called off
    // Gone first: what follows may put a sheet of its own.
    const auto taken = std::exchange(m_taken, nullptr);
    close();
    if (taken) taken(station::Writer(*session));
}

}  // namespace desktop
