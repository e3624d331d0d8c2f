// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who else; see person_sheet.h.
#include "desktop/bedside/person_sheet.h"

#include "desktop/shell/pin_field.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <memory>

namespace desktop {

AnotherSheet::AnotherSheet(Workplace& workplace, const std::set<std::string>& notOffered,
                           QWidget* parent)
    : Sheet(tr("Who did it?"), parent) {
    m_people = new PersonList(workplace, notOffered);
    content()->addWidget(m_people);
    content()->addStretch();
    auto* feet = foot();
    auto* back = new WrappedButton(tr("Back"));
    auto* me = new WrappedButton(tr("I did it myself"));
    auto* second = new WrappedButton(tr("A second person verifies it"));
    for (auto* each : {back, me, second}) feet->addWidget(each);
    setFocusProxy(m_people->field());
    connect(m_people, &PersonList::chosen, this, [this](const Somebody& somebody) {
        Q_EMIT chosen(somebody);
        close();
    });
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(me, &QPushButton::clicked, this, [this] {
        Q_EMIT meChosen();
        close();
    });
    connect(second, &QPushButton::clicked, this, [this] {
        close();
        Q_EMIT secondWanted();
    });
}

bool AnotherSheet::takeScan(const QString& text) {
    m_people->readBadge(text);
    return true;
}

SecondSheet::SecondSheet(Workplace& workplace, const std::set<std::string>& notOffered,
                         QWidget* parent)
    : Sheet(tr("A second person verifies it"), parent), m_workplace(workplace) {
    m_people = new PersonList(workplace, notOffered);
    m_pinPart = new QWidget;
    auto* pin = new QVBoxLayout(m_pinPart);
    pin->setContentsMargins(0, 0, 0, 0);
    pin->setSpacing(targetGap);
    m_name = new QLabel;
    m_name->setFont(fontFor(TextRole::Large));
    m_name->setWordWrap(true);
    m_pin = new PinField(tr("PIN of the second person"));
    m_trouble = new QLabel;
    m_trouble->setWordWrap(true);
    m_trouble->setFont(fontFor(TextRole::Strong));
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    for (auto* each : std::initializer_list<QWidget*>{m_name, m_pin}) pin->addWidget(each);
    m_pinPart->hide();
    content()->addWidget(m_people);
    content()->addWidget(m_pinPart);
    content()->addStretch();
    auto* feet = foot();
    auto* back = new WrappedButton(tr("Back"));
    m_without = new WrappedButton;
    m_without->hide();
    auto* enter = new WrappedButton(tr("I have verified it"));
    enter->setMain(true);
    enter->setEnabled(false);
    m_enter = enter;
    for (auto* each : std::initializer_list<QWidget*>{back, m_without, m_enter})
        feet->addWidget(each);
    setFocusProxy(m_people->field());
    connect(m_people, &PersonList::chosen, this, &SecondSheet::take);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_enter, &QPushButton::clicked, this, &SecondSheet::signIn);
    connect(m_pin, &PinField::entered, this, &SecondSheet::signIn);
    connect(m_without, &QPushButton::clicked, this, [this] {
        close();
        Q_EMIT withoutChosen();
    });
}

bool SecondSheet::takeScan(const QString& text) {
    if (m_people->isHidden()) return false;  // somebody is at their PIN
    m_people->readBadge(text);
    return true;
}

void SecondSheet::offerWithout(const QString& text) {
    m_without->setText(text);
    m_without->show();
}

void SecondSheet::take(const Somebody& somebody) {
    m_trouble->hide();
    m_person = somebody.person;
    m_name->setText(tr("%1, enter your PIN.").arg(somebody.name));
    m_people->hide();
    m_pinPart->show();
    m_enter->setEnabled(true);
    m_pin->setFocus();
}

void SecondSheet::signIn() {
    if (!m_enter->isEnabled()) return;
    m_enter->setEnabled(false);
    auto pin = std::make_shared<station::Secret>(m_pin->take());
    m_workplace.read(
        [who = m_person, pin](const auto& surroundings, const auto& file) {
            return station::signIn(surroundings, file, who, *pin);
        },
        this, [this](const station::Result<station::Session>& session) {
            if (!session) {
                m_enter->setEnabled(true);
                m_trouble->setText(shownText(session.error().notice.text()));
                m_trouble->show();
                bringUp(*m_pin);
                return;
            }
            close();
            Q_EMIT verified(*session);
        });
}

}  // namespace desktop
