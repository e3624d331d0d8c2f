// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Forecasts; see forecast_sheet.h.
#include "desktop/fleet/forecast_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/shell/wrap_layout.h"
#include "desktop/theme/appearance.h"

#include <QButtonGroup>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QStyle>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

constexpr std::size_t fewestColumns = 60;  // those that a page needs at least

QFont pageFont(double points) {
    QFont font(QStringLiteral("DejaVu Sans Mono"));
    font.setPointSizeF(points);
    return font;
}

}  // namespace

ForecastSheet::ForecastSheet(const QString& title, ForecastTools tools)
    : Sheet(title), m_tools(std::move(tools)) {
    m_asked = new QWidget;
    auto* asked = new WrapLayout(WrapLayout::Manner::Packed, m_asked);
    asked->setSpacing(targetGap);
    m_page = new QPlainTextEdit;
    m_page->setReadOnly(true);
    m_page->setTabChangesFocus(true);
    m_page->setLineWrapMode(QPlainTextEdit::NoWrap);
    m_page->setAccessibleName(tr("Answer"));
    m_page->setMinimumHeight(m_page->fontMetrics().height() * 10);
    content()->addWidget(m_asked);
    content()->addWidget(m_page, 1);
    auto* close = new QPushButton(tr("Close"));
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
        shown->setText(tr("%1 %2").arg(*number).arg(name));
        less->setEnabled(*number > 1);
        more->setEnabled(*number < most);
        askAnew();
    };
    connect(less, &QPushButton::clicked, this, [show] { show(-1); });
    connect(more, &QPushButton::clicked, this, [show] { show(1); });
    for (auto* each : std::initializer_list<QWidget*>{less, shown, more}) row->addWidget(each);
    m_asked->layout()->addWidget(box);
    show(0);
}

void ForecastSheet::addChoices(const QString& name, const QStringList& labels, int* chosen) {
    auto* group = new QButtonGroup(this);
    for (const auto& label : labels) {
        auto* button = new QPushButton(label);
        button->setAccessibleName(tr("%1: %2").arg(name, label));
        button->setCheckable(true);
        const auto index = static_cast<int>(group->buttons().size());
        button->setChecked(index == *chosen);
        group->addButton(button, index);
        m_asked->layout()->addWidget(button);
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
        [answer = question(), columns = columns(), rounds = m_round, round] {
            return *rounds == round ? answer(columns) : std::string();
        },
        this, [this, round](const std::string& text) {
            if (round == *m_round) m_page->setPlainText(shownText(text));
        });
}

std::size_t ForecastSheet::columns() const {
    const int bar = style()->pixelMetric(QStyle::PM_ScrollBarExtent);
    const auto margin = static_cast<int>(m_page->document()->documentMargin());
    const int inside = m_page->width() - bar - 2 * margin - 12;
    const auto wide = m_page->fontMetrics().horizontalAdvance(QLatin1Char('0'));
    return std::max(fewestColumns, static_cast<std::size_t>(std::max(0, inside / wide)));
}

// Small enough that the fewest columns fit.
void ForecastSheet::fitFont() {
    auto points = fontFor(TextRole::Plain).pointSizeF();
    const int inside = m_page->width() - 40;
    while (points > 8 && QFontMetrics(pageFont(points)).horizontalAdvance(QLatin1Char('0')) *
                                 static_cast<int>(fewestColumns) >
                             inside)
        points -= 0.5;
    m_page->setFont(pageFont(points));
}

void ForecastSheet::resizeEvent(QResizeEvent* event) {
    Sheet::resizeEvent(event);
    layout()->activate();
    fitFont();
    askAnew();
}

}  // namespace desktop
