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
#include <QVBoxLayout>

namespace desktop {

NotSoSheet::NotSoSheet(const QString& title, const report::CheckToLog& check, QWidget* parent)
    : Sheet(title, parent) {
    auto* feet = foot();
    const auto add = [&](const QString& text) {
        auto* button = new WrappedButton(text);
        feet->addWidget(button);
        return button;
    };
    auto* back = add(tr("Back"));
    auto* unfinished = add(tr("It was not finished"));
    auto* failure = add(tr("It failed"));
    auto* keep = add(tr("Keep it; it does not count"));
    if (!check.conditions.empty()) {
        auto* label = new QLabel(tr("What was not so? Press what did not hold."));
        label->setWordWrap(true);
        content()->addWidget(label);
    }
    keep->setVisible(!check.conditions.empty());
    m_keep = keep;
    const auto showKeep = [this] { m_keep->setEnabled(!this->notSo().empty()); };
    for (const auto& condition : check.conditions) {
        auto* button = new WrappedButton(buttonText(condition.label));
        button->setCheckable(true);
        content()->addWidget(button);
        m_conditions.emplace_back(condition.key, button);
        connect(button, &QPushButton::toggled, this, showKeep);
    }
    m_said = new QLabel;
    m_said->setWordWrap(true);
    m_said->setFont(fontFor(TextRole::Strong));
    m_said->hide();
    content()->addWidget(m_said);
    content()->addStretch();
    showKeep();
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(unfinished, &QPushButton::clicked, this, &NotSoSheet::notFinished);
    connect(failure, &QPushButton::clicked, this, &NotSoSheet::failed);
    connect(keep, &QPushButton::clicked, this, [this] { Q_EMIT conditionsNotSo(this->notSo()); });
}

std::vector<std::string> NotSoSheet::notSo() const {
    std::vector<std::string> chosen;
    for (const auto& [key, button] : m_conditions)
        if (button->isChecked()) chosen.push_back(key);
    return chosen;
}

void NotSoSheet::setKeeping(bool isKeeping) {
    setHeld(isKeeping);
    for (auto* button : findChildren<QPushButton*>()) button->setEnabled(!isKeeping);
    if (!isKeeping) m_keep->setEnabled(!notSo().empty());
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
