// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was not so; see not_so_sheet.h.
#include "desktop/bedside/not_so_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace desktop {

NotSoSheet::NotSoSheet(const QString& title, const report::CheckToLog& check, QWidget* parent)
    : Sheet(title, parent) {
    if (!check.conditions.empty()) addConditions(check);
    addSeen();
    auto* means = new QLabel(tr("A failure stands until the check passes. A check that was not "
                                "finished does not count, and what stood before stands."));
    means->setWordWrap(true);
    content()->addWidget(means);
    m_said = new QLabel;
    m_said->setWordWrap(true);
    m_said->setFont(fontFor(TextRole::Strong));
    m_said->hide();
    overFoot()->addWidget(m_said);
    content()->addStretch();
    addFeet(check);
    setFocusProxy(m_seen);
    showKeep();
}

void NotSoSheet::addConditions(const report::CheckToLog& check) {
    auto* label = new QLabel(tr("What was not so? Press what did not hold. The rest is "
                                "kept as so."));
    label->setWordWrap(true);
    content()->addWidget(label);
    for (const auto& condition : check.conditions) {
        auto* button = new WrappedButton(buttonText(condition.label));
        button->setCheckable(true);
        content()->addWidget(button);
        m_conditions.emplace_back(condition.key, button);
        connect(button, &QPushButton::toggled, this, &NotSoSheet::showKeep);
    }
}

void NotSoSheet::addSeen() {
    auto* label = new QLabel(tr("&What was seen? It may stay empty. It is kept as a note beside "
                                "the check."));
    label->setWordWrap(true);
    m_seen = new QLineEdit;
    m_seen->setAccessibleName(tr("What was seen"));
    label->setBuddy(m_seen);
    content()->addWidget(label);
    content()->addWidget(m_seen);
}

void NotSoSheet::addFeet(const report::CheckToLog& check) {
    const auto add = [this](const QString& text) {
        auto* button = new WrappedButton(text);
        foot()->addWidget(button);
        return button;
    };
    auto* back = add(tr("Back"));
    auto* unfinished = add(tr("It was not finished"));
    auto* failure = add(tr("It failed"));
    m_keep = add(tr("Keep it; it does not count"));
    m_keep->setVisible(!check.conditions.empty());
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(unfinished, &QPushButton::clicked, this, &NotSoSheet::notFinished);
    connect(failure, &QPushButton::clicked, this, &NotSoSheet::failed);
    connect(m_keep, &QPushButton::clicked, this, [this] { Q_EMIT conditionsNotSo(notSo()); });
}

void NotSoSheet::showKeep() {
    m_keep->setEnabled(!notSo().empty());
}

QString NotSoSheet::seen() const {
    return m_seen->text().simplified();
}

std::vector<std::string> NotSoSheet::notSo() const {
    std::vector<std::string> chosen;
    for (const auto& [key, button] : m_conditions)
        if (button->isChecked()) chosen.push_back(key);
    return chosen;
}

bool NotSoSheet::isDraft() const {
    return m_isKeeping || !notSo().empty() || !m_seen->text().isEmpty();
}

void NotSoSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    setHeld(isKeeping);
    for (auto* button : findChildren<QPushButton*>()) button->setEnabled(!isKeeping);
    m_seen->setReadOnly(isKeeping);
    if (!isKeeping) showKeep();
}

void NotSoSheet::say(const QString& text) {
    m_said->setText(text);
    m_said->show();
}

bool NotSoSheet::takeScan(const QString& text) {
    Q_EMIT codeRead(text);
    return true;
}

}  // namespace desktop
