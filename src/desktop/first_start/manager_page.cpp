// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first manager; see manager_page.h.
#include "desktop/first_start/manager_page.h"

#include "desktop/shell/pin_field.h"
#include "desktop/shell/text.h"
#include "logbook/text.h"
#include "station/problem.h"

#include <QLineEdit>
#include <QVBoxLayout>

namespace desktop {

ManagerPage::ManagerPage(const words::Words& words, QWidget* parent)
    : SetupPage(tr("The first manager"), tr("Go on"), parent), m_words(words) {
    m_name = addField(tr("Name"), tr("as it is to stand in the log"));
    m_key = addField(tr("Short name, for signing in"));
    m_pin = new PinField(tr("PIN, six figures or more"));
    m_again = new PinField(tr("The same PIN again"));
    addNamed(m_pin->accessibleName(), m_pin);
    addNamed(m_again->accessibleName(), m_again);
    rows().addStretch();
    connect(m_name, &QLineEdit::textChanged, this, &ManagerPage::proposeKey);
    connect(m_pin, &PinField::entered, this, [this] { m_again->setFocus(); });
    connect(m_again, &PinField::entered, this, [this] { focusNextChild(); });
}

void ManagerPage::proposeKey() {
    if (m_key->text() != m_proposed) return;  // the person has typed another
    m_proposed = keyFor(m_name->text());
    m_key->setText(m_proposed);
}

void ManagerPage::state(Founding& founding) const {
    founding.name = plainText(m_name->text().trimmed());
    founding.manager = plainText(m_key->text().trimmed());
}

station::Secret ManagerPage::pin() const {
    station::Secret copy;
    for (const char letter : m_pin->secret().text()) copy.add(letter);
    return copy;
}

void ManagerPage::forgetPins() {
    (void)m_pin->take();
    (void)m_again->take();
}

QString ManagerPage::pinFault() const {
    const auto fault = station::faultOf(m_pin->secret());
    if (!fault) return {};
    const auto* key = "pin.sequence";
    switch (*fault) {
        case station::PinFault::NotDigits: key = "pin.not_digits"; break;
        case station::PinFault::TooShort: key = "pin.too_short"; break;
        case station::PinFault::AllEqual: key = "pin.all_equal"; break;
        case station::PinFault::Sequence: break;
    }
    return shownText(station::problemOf(m_words, key).notice.text());
}

QString ManagerPage::fault() {
    if (!logbook::isName(plainText(m_name->text().trimmed()))) {
        m_name->setFocus();
        return tr("The manager has no name yet, or one of more than 64 letters. Type it.");
    }
    if (!logbook::isName(plainText(m_key->text().trimmed()))) {
        m_key->setFocus();
        return tr("There is no short name yet, or one of more than 64 letters. Type it.");
    }
    if (const auto fault = pinFault(); !fault.isEmpty()) {
        forgetPins();
        m_pin->setFocus();
        return fault;
    }
    if (!m_pin->secret().isSame(m_again->secret())) {
        forgetPins();
        m_pin->setFocus();
        return tr("The two PINs are not the same. Type the PIN twice again.");
    }
    return {};
}

void ManagerPage::enter() {
    m_name->setFocus();
}

QString keyFor(const QString& name) {
    const auto parts = name.toLower().normalized(QString::NormalizationForm_D)
                           .split(QLatin1Char(' '), Qt::SkipEmptyParts);
    const auto plain = [](const QString& part) {
        QString kept;
        for (const auto letter : part)
            if (letter >= QLatin1Char('a') && letter <= QLatin1Char('z')) kept += letter;
        return kept;
    };
    if (parts.isEmpty()) return {};
    const auto first = plain(parts.first());
    const auto last = plain(parts.last());
    if (parts.size() == 1 || first.isEmpty() || last.isEmpty())
        return last.isEmpty() ? first : last;
    return first.left(1) + QLatin1Char('.') + last;
}

}  // namespace desktop
