// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in; see sign_in_sheet.h.
#include "desktop/shell/sign_in_sheet.h"

#include "desktop/shell/pin_field.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/appearance.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <memory>

namespace desktop {

SignInSheet::SignInSheet(Workplace& workplace, QWidget* parent)
    : Sheet(tr("Sign in"), parent), m_workplace(workplace) {
    auto* whoLabel = new QLabel(tr("&Who: scan your badge, or type your key"));
    m_who = new QLineEdit;
    m_who->setAccessibleName(tr("Person key or badge"));
    whoLabel->setBuddy(m_who);
    auto* pinLabel = new QLabel(tr("&PIN"));
    m_pin = new PinField(tr("PIN"));
    pinLabel->setBuddy(m_pin);
    m_trouble = new QLabel;
    m_trouble->setWordWrap(true);
    m_trouble->setFont(fontFor(TextRole::Strong));
    for (auto* each : std::initializer_list<QWidget*>{whoLabel, m_who, pinLabel, m_pin, m_trouble})
        content()->addWidget(each);
    content()->addStretch();
    auto* back = new QPushButton(tr("Back"));
    m_enter = new QPushButton(tr("Sign in"));
    m_enter->setProperty("main", true);
    foot()->addWidget(back);
    foot()->addWidget(m_enter);
    setFocusProxy(m_who);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_enter, &QPushButton::clicked, this, &SignInSheet::signIn);
    connect(m_pin, &PinField::entered, this, &SignInSheet::signIn);
    connect(m_who, &QLineEdit::returnPressed, m_pin, [this] { m_pin->setFocus(); });
}

bool SignInSheet::takeScan(const QString& text) {
    m_who->setText(text);
    m_pin->setFocus();
    return true;
}

void SignInSheet::signIn() {
    m_enter->setEnabled(false);
    auto pin = std::make_shared<station::Secret>(m_pin->take());
    m_workplace.read(
        [who = plainText(m_who->text().trimmed()), pin](const auto& surroundings,
                                                        const auto& file) {
            return station::signIn(surroundings, file, who, *pin);
        },
        this, [this](station::Result<station::Session> session) {
            m_enter->setEnabled(true);
            if (!session) {
                m_trouble->setText(shownText(session.error().notice.text()));
                m_pin->setFocus();
                return;
            }
            m_workplace.presence().begin(std::move(*session));
            Q_EMIT signedIn();
            close();
        });
}

}  // namespace desktop
