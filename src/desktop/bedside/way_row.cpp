// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows; see way_row.h.
#include "desktop/bedside/way_row.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/status_bar_edge.h"
#include "desktop/theme/wrapped_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

using report::BedsideRow;
using report::RowPart;
using Press = StepLogging::Press;

constexpr int besideEdge = statusEdge + 10;

QLabel* addLabel(QBoxLayout* layout, const QString& text, TextRole role) {
    auto* label = textLabel(text, role);
    if (text.isEmpty()) label->hide();
    layout->addWidget(label);
    return label;
}

void say(QLabel& label, const QString& text) {
    label.setText(text);
    label.setVisible(!text.isEmpty());
}

// "due · 13:35, in 12 min · 2 min · not before 13:35: …"
QString remarksOf(const BedsideRow& row, const StartText& start) {
    QStringList remarks;
    const auto status = shownText(row.statusWord);
    const bool isSaid = shownText(row.title).endsWith(status, Qt::CaseInsensitive);
    if (!status.isEmpty() && !isSaid) remarks << status;
    if (!row.mark.empty()) remarks << shownText(row.mark);
    if (const auto text = start(row); !text.isEmpty()) remarks << text;
    for (const auto& each : row.remarks) remarks << shownText(each);
    return remarks.join(QStringLiteral(" · "));
}

void paintEdge(QWidget& widget, const BedsideRow& row) {
    QPainter painter(&widget);
    if (row.status) paintStatusEdge(painter, widget.rect(), *row.status);
}

QString lifterText(const BedsideRow& row) {
    return shownText(row.lifters);
}

}  // namespace

WayRow::WayRow(const BedsideRow& row, const StartText& start, QWidget* parent)
    : QWidget(parent), m_row(row) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(besideEdge, 4, 0, 4);
    layout->setSpacing(targetGap);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(2);
    layout->addLayout(texts, 1);
    addTexts(texts, start);
    if (std::holds_alternative<std::monostate>(row.act)) return;
    auto* first = new WrappedButton(tr("Do this first"));
    first->setProperty("quiet", true);
    first->setAccessibleDescription(shownText(row.title));
    layout->addWidget(first, 0, Qt::AlignTop);
    connect(first, &QPushButton::clicked, this, &WayRow::firstWanted);
}

void WayRow::addTexts(QBoxLayout* texts, const StartText& start) {
    if (m_row.part == RowPart::Done) {
        m_remarks = addLabel(texts,
                             tr("%1 · %2 · %3, %4")
                                 .arg(shownText(m_row.title), shownText(m_row.statusWord),
                                      shownText(m_row.who), shownText(m_row.whenDone)),
                             TextRole::Quiet);
        return;
    }
    addLabel(texts, shownText(m_row.title), TextRole::Strong);
    m_remarks = addLabel(texts, remarksOf(m_row, start), TextRole::Plain);
    addLabel(texts, shownText(m_row.why), TextRole::Plain);
    addLabel(texts, shownText(m_row.order), TextRole::Plain);
    addLabel(texts, lifterText(m_row), TextRole::Plain);
}

void WayRow::showStart(const StartText& start) {
    if (m_row.part != RowPart::Done) say(*m_remarks, remarksOf(m_row, start));
}

void WayRow::paintEvent(QPaintEvent*) {
    paintEdge(*this, m_row);
}

StepCard::StepCard(const BedsideRow& row, const StartText& start, QWidget* parent)
    : QWidget(parent), m_row(row) {
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    setAccessibleName(tr("The next step"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(besideEdge, 8, 12, 12);
    layout->setSpacing(6);
    addLabel(layout, shownText(row.title), TextRole::Large);
    // On a small window with large text the buttons are in sight first.
    if (!isTextLarge()) addDetails(start);
    m_buttons = new WrapLayout;
    layout->addLayout(m_buttons);
    addButtons();
    if (isTextLarge()) addDetails(start);
}

void StepCard::addDetails(const StartText& start) {
    auto* details = static_cast<QBoxLayout*>(layout());
    m_remarks = addLabel(details, remarksOf(m_row, start), TextRole::Strong);
    addLabel(details, shownText(m_row.why), TextRole::Plain);
    addLabel(details, shownText(m_row.order), TextRole::Strong);
    addLabel(details, lifterText(m_row), TextRole::Plain);
}

void StepCard::showStart(const StartText& start) {
    say(*m_remarks, remarksOf(m_row, start));
}

QPushButton* StepCard::button(Press press) const {
    const auto found =
        std::ranges::find_if(m_presses, [&](const auto& each) { return each.first == press; });
    return found == m_presses.end() ? nullptr : found->second;
}

void StepCard::addButton(const QString& text, Press press) {
    auto* button = new WrappedButton(text);
    button->setMain(m_presses.empty());
    m_buttons->addWidget(button);
    m_presses.emplace_back(press, button);
    connect(button, &QPushButton::clicked, this, [this, press] { Q_EMIT pressed(press); });
}

void StepCard::addButtons() {
    const auto& act = m_row.act;
    if (const auto* check = std::get_if<report::CheckToLog>(&act)) {
        addCheckButtons(*check);
    } else if (const auto* fit = std::get_if<report::FitToLog>(&act)) {
        addFitButtons(*fit);
    } else if (const auto* remove = std::get_if<report::RemoveToLog>(&act)) {
        addButton(tr("It is taken out: %1").arg(buttonText(remove->label)), Press::Done);
    } else if (const auto* reprocess = std::get_if<report::ReprocessToLog>(&act)) {
        addButton(tr("Done: %1, %2")
                      .arg(buttonText(reprocess->label), buttonText(reprocess->levelText)),
                  Press::Done);
    } else if (const auto* group = std::get_if<report::GroupToLog>(&act)) {
        addButton(tr("%1 is selected on the unit").arg(buttonText(group->label)), Press::Done);
    } else if (const auto* power = std::get_if<report::PowerToLog>(&act)) {
        addButton(power->on ? tr("It is switched on") : tr("It is switched off"), Press::Done);
    } else if (std::holds_alternative<report::PauseToLog>(act)) {
        addButton(tr("The patient is disconnected for a while: pause the use"), Press::Done);
    } else if (std::holds_alternative<report::ResumeToLog>(act)) {
        addButton(tr("Connected again, same patient: resume the use"), Press::Done);
    } else if (const auto* service = std::get_if<report::ServiceToLog>(&act)) {
        addButton(tr("Record: %1 …").arg(buttonText(service->label)), Press::Done);
    }
}

void StepCard::addCheckButtons(const report::CheckToLog& check) {
    if (check.groupFirst) {
        addLabel(static_cast<QBoxLayout*>(layout()), tr("Select the patient group first."),
                 TextRole::Strong);
        return;
    }
    addButton(buttonText(check.asserts), Press::Done);
    const bool wantsNone = std::ranges::none_of(check.measures,
                                                [](const auto& each) { return each.required; });
    if (wantsNone && !check.measures.empty()) addButton(tr("Passed, with values"), Press::Values);
    addButton(tr("Not so"), Press::NotSo);
    addButton(buttonText(check.failed), Press::Failed);
}

void StepCard::addFitButtons(const report::FitToLog& fit) {
    if (fit.putBack)
        addButton(tr("Put back: %1").arg(buttonText(fit.putBack->summary)), Press::PutBack);
    addButton(fit.putBack ? tr("Fit another") : tr("Fit: %1").arg(buttonText(fit.label)),
              Press::Done);
}

void StepCard::paintEvent(QPaintEvent*) {
    paintEdge(*this, m_row);
}

}  // namespace desktop
