// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Forecasts; see forecast_sheet.h.
#include "desktop/fleet/forecast_sheet.h"

#include "desktop/shell/outline_html.h"
#include "desktop/shell/unrecorded.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <QButtonGroup>
#include <QLabel>
#include <QPushButton>
#include <QTextBrowser>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

ForecastSheet::ForecastSheet(const QString& title, ForecastTools tools)
    : Sheet(title), m_tools(std::move(tools)) {
    m_asked = new QVBoxLayout;
    m_asked->setSpacing(targetGap);
    m_numbers = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, m_numbers);
    m_asked->addWidget(m_numbers);
    m_page = new QTextBrowser;
    m_page->setTabChangesFocus(true);
    m_page->setOpenLinks(false);
    m_page->setAccessibleName(tr("Answer"));
    m_page->setMinimumHeight(m_page->fontMetrics().height() * 10);
    content()->addLayout(m_asked);
    if (const auto out = leftOutSentence(*m_tools.fleet, m_tools.words); !out.isEmpty()) {
        auto* label = textLabel(out);
        label->setProperty("banner", true);
        content()->addWidget(label);
    }
    content()->addWidget(m_page, 1);
    auto* close = new WrappedButton(tr("Close"));
    foot()->addWidget(close);
    connect(close, &QPushButton::clicked, this, &Sheet::callOff);
    m_soon.setSingleShot(true);
    m_soon.setInterval(std::chrono::milliseconds(250));
    connect(&m_soon, &QTimer::timeout, this, &ForecastSheet::workOut);
}

ForecastSheet::~ForecastSheet() {
    ++*m_round;
}

void ForecastSheet::addNumber(const QString& name, int* number, int most) {
    auto* box = new QWidget;
    auto* row = new QHBoxLayout(box);
    row->setContentsMargins(0, 0, 0, 0);
    auto* less = new QPushButton(QStringLiteral("–"));
    auto* shown = new QLabel;
    auto* more = new QPushButton(QStringLiteral("+"));
    less->setAccessibleName(tr("%1: fewer").arg(name));
    more->setAccessibleName(tr("%1: more").arg(name));
    shown->setFont(fontFor(TextRole::Large));
    const auto show = [=, this](int change) {
        *number = std::clamp(*number + change, 1, most);
        shown->setText(tr("%1: %2").arg(name).arg(*number));
        less->setEnabled(*number > 1);
        more->setEnabled(*number < most);
        askAnew();
    };
    connect(less, &QPushButton::clicked, this, [show] { show(-1); });
    connect(more, &QPushButton::clicked, this, [show] { show(1); });
    for (auto* each : std::initializer_list<QWidget*>{less, shown, more}) row->addWidget(each);
    m_numbers->layout()->addWidget(box);
    show(0);
}

void ForecastSheet::addChoices(const QString& name, const QStringList& labels, int* chosen) {
    auto* group = new QButtonGroup(this);
    auto* row = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, row);
    m_asked->insertWidget(m_asked->count() - 1, row);
    for (const auto& label : labels) {
        auto* button = new QPushButton(label);
        button->setAccessibleName(tr("%1: %2").arg(name, label));
        button->setCheckable(true);
        const auto index = static_cast<int>(group->buttons().size());
        button->setChecked(index == *chosen);
        group->addButton(button, index);
        row->layout()->addWidget(button);
    }
    connect(group, &QButtonGroup::idClicked, this, [this, chosen](int index) {
        *chosen = index;
        askAnew();
    });
    askAnew();
}

report::Provenance ForecastSheet::briefly(const report::Board& board) {
    auto provenance = board.provenance;
    std::erase_if(provenance.stations, [&](const report::StationHeard& station) {
        return station.heard && board.asked - *station.heard <= provenance.staleAfter;
    });
    return provenance;
}

void ForecastSheet::askAnew() {
    ++*m_round;
    m_page->setPlainText(tr("Working it out."));
    m_soon.start();
}

// What was asked before and has not been begun is not worked out any more.
void ForecastSheet::workOut() {
    const int round = *m_round;
    m_tools.background.run(
        [answer = question(), rounds = m_round, round] {
            return *rounds == round ? answer() : report::Outline();
        },
        this, [this, round](const report::Outline& outline) {
            if (round == *m_round) m_page->setHtml(htmlOf(outline));
        });
}

}  // namespace desktop
