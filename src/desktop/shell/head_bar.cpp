// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The head; see head_bar.h.
#include "desktop/shell/head_bar.h"

#include "desktop/shell/code_field.h"
#include "desktop/theme/appearance.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>

namespace desktop {

HeadBar::HeadBar(QWidget* parent) : QWidget(parent) {
    m_codes = new CodeField({tr("Scan, or type a serial or asset number"),
                             tr("Serial or asset number"), tr("Serial"), {}});
    connect(m_codes, &QLineEdit::returnPressed, this, [this] {
        const auto text = m_codes->text().trimmed();
        m_codes->clear();
        if (!text.isEmpty()) Q_EMIT typed(text);
    });
    m_person = new QPushButton;
    connect(m_person, &QPushButton::clicked, this, &HeadBar::personPressed);
    auto* help = new QPushButton(tr("Help"));
    connect(help, &QPushButton::clicked, this, &HeadBar::helpPressed);
    m_row = new QHBoxLayout(this);
    m_row->setContentsMargins(0, 0, 0, 0);
    m_row->setSpacing(targetGap);
    m_row->addWidget(m_codes, 1);
    m_row->addWidget(m_person);
    m_row->addWidget(help);
    setMinimumWidth(1);  // it fits itself into the window, and never makes that wider
    showPerson({});
}

void HeadBar::addDesk(QPushButton* button) {
    m_row->insertWidget(m_desks++, button);
    fit();
}

void HeadBar::showPerson(const QString& name) {
    m_name = name;
    fit();
}

void HeadBar::focusCodes(Qt::FocusReason reason) {
    m_codes->setFocus(reason);
}

void HeadBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

void HeadBar::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() != QEvent::FontChange && event->type() != QEvent::StyleChange) return;
    fit();
    // Once the buttons have their new letters.
    QMetaObject::invokeMethod(this, &HeadBar::fit, Qt::QueuedConnection);
}

// "Mara Toller" as "MT": enough to see whose session it is.
QString HeadBar::initials() const {
    QString letters;
    for (const auto& word : m_name.split(QLatin1Char(' '), Qt::SkipEmptyParts))
        letters += word.front().toUpper();
    return letters;
}

bool HeadBar::leavesRoom() const {
    int others = 0;
    for (int i = 0; i < m_row->count(); ++i)
        if (auto* widget = m_row->itemAt(i)->widget(); widget != m_codes)
            others += widget->sizeHint().width();
    const int rest = width() - others - (m_row->count() - 1) * m_row->spacing();
    return rest >= codeFieldWidth();
}

// Whose session is locked is said, as far as the field for codes leaves room.
void HeadBar::fit() {
    const auto whole = m_name.isEmpty() ? tr("Sign in") : tr("%1 – lock").arg(m_name);
    m_person->setText(whole);
    m_person->setAccessibleName(whole);
    if (m_name.isEmpty()) {
        auto broken = whole;
        broken.replace(QLatin1Char(' '), QLatin1Char('\n'));
        if (!leavesRoom()) m_person->setText(broken);
        return;
    }
    const auto below = QLatin1Char('\n') + tr("Lock");
    for (const auto& text : {m_name + below, initials() + below}) {
        if (leavesRoom()) return;
        m_person->setText(text);
    }
}

}  // namespace desktop
