// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see act_sheet.h.
#include "desktop/bedside/acts/act_sheet.h"

#include "desktop/bedside/acts/choice_field.h"
#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/keeping.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

ActSheet::ActSheet(const PanelTools& tools, SharedUnitView unit, ActForm form, QWidget* parent)
    : Sheet(form.title, parent),
      m_tools(tools),
      m_unit(std::move(unit)),
      m_form(std::move(form)) {
    addHead();
    addFields();
    m_strip = new EntryStrip(m_tools.desk);
    m_strip->continueFrom(m_tools.strip);
    content()->addWidget(m_strip);
    content()->addStretch();
    addFoot();
    // What a kind of sheet objects to is asked once that is there.
    QMetaObject::invokeMethod(this, &ActSheet::showAnswers, Qt::QueuedConnection);
    m_keep->setEnabled(false);
}

void ActSheet::addHead() {
    content()->addWidget(textLabel(unitLine(m_unit->bedside.identity), TextRole::Strong));
    for (const auto& line : m_form.told) {
        if (line.isEmpty()) continue;
        content()->addWidget(textLabel(line));
    }
}

void ActSheet::addFields() {
    for (const auto& field : m_form.fields) {
        auto* widget = new ActFieldWidget(field);
        content()->addWidget(widget);
        connect(widget, &ActFieldWidget::changed, this, &ActSheet::showAnswers);
        m_fields.push_back(widget);
        if (widget->line() != nullptr && focusProxy() == nullptr) setFocusProxy(widget->line());
    }
}

void ActSheet::addFoot() {
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why it was not kept"));
    m_trouble->hide();
    auto* back = new WrappedButton(tr("Back, keep nothing"));
    m_keep = new WrappedButton;
    m_keep->setMain(true);
    overFoot()->addWidget(m_trouble);
    foot()->addWidget(back);
    foot()->addWidget(m_keep);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_keep, &QPushButton::clicked, this, &ActSheet::keep);
}

Answers ActSheet::answers() const {
    Answers answers;
    for (const auto* widget : m_fields)
        if (auto value = widget->value(); !value.empty())
            answers.emplace(widget->field().key, std::move(value));
    return answers;
}

void ActSheet::showAnswers() {
    if (m_isKeeping) return;
    const auto given = answers();
    for (const auto* widget : m_fields) {
        const auto& field = widget->field();
        if (!field.isWanted || given.contains(field.key)) continue;
        auto label = field.label;
        m_keep->setText(tr("First: %1").arg(label.remove(QLatin1Char('&'))));
        m_keep->setEnabled(false);
        return;
    }
    const auto wrong = objection(given);
    m_keep->setText(wrong.isEmpty() ? m_form.says(given) : wrong);
    m_keep->setEnabled(wrong.isEmpty());
}

QString ActSheet::objection(const Answers&) const {
    return {};
}

void ActSheet::keepAll(const Answers& given, Workplace::TakeKept taken) {
    keepActs({m_tools.desk, *m_strip}, m_unit->bedside.identity.device, m_form.acts(given), this,
             std::move(taken));
}

void ActSheet::setField(const std::string& key, const QString& text) {
    for (auto* widget : m_fields)
        if (widget->field().key == key) widget->setText(text);
}

// What is on the button is what is kept: until it is told what came of it nothing can be changed.
void ActSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    setHeld(isKeeping);
    for (auto* widget : m_fields) widget->setEnabled(!isKeeping);
    m_strip->setEnabled(!isKeeping);
    m_keep->setEnabled(false);
    if (!isKeeping) showAnswers();
}

void ActSheet::keep() {
    if (!objection(answers()).isEmpty()) {
        showAnswers();
        return;
    }
    setKeeping(true);
    keepAll(answers(), [this](const Workplace::Kept& kept) { take(kept); });
}

void ActSheet::take(const Workplace::Kept& kept) {
    if (kept.isAll()) {
        m_tools.strip.goBackToNow();
        Q_EMIT this->kept();
        close();
        return;
    }
    setKeeping(false);
    if (!kept.refused) return;
    m_trouble->setText(problemText(*kept.refused));
    m_trouble->show();
}

bool ActSheet::takeScan(const QString& text) {
    if (isUnitCode(*m_unit->fleet, text)) {
        Q_EMIT codeRead(text);
        return true;
    }
    for (auto* widget : m_fields) {
        const auto* line = widget->line();
        if (line == nullptr || !line->hasFocus()) continue;
        // What somebody typed stays.
        if (line->isModified() && !line->text().isEmpty()) return false;
        widget->setText(text.trimmed());
        return true;
    }
    return false;
}

}  // namespace desktop
