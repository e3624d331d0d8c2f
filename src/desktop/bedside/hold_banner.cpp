// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The banner; see hold_banner.h.
#include "desktop/bedside/hold_banner.h"

#include "desktop/bedside/hold_view.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"

#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

HoldBanner::HoldBanner(DeskTools tools, QWidget* parent) : QWidget(parent), m_tools(tools) {
    m_layout = new QVBoxLayout(this);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(targetGap);
    hide();
}

void HoldBanner::show(const SharedUnitView& unit) {
    m_unit = unit;
    const auto& sheets = unit->bedside.identity.sheets;
    std::vector<std::string> holds;
    for (const auto& sheet : sheets)
        holds.push_back(sheet.hold + ' ' + sheet.since);
    if (holds != m_shown) {
        m_shown = std::move(holds);
        makeButtons(sheets);
    }
    setVisible(!sheets.empty());
}

void HoldBanner::makeButtons(const std::vector<report::HoldSheet>& sheets) {
    while (auto* item = m_layout->takeAt(0)) {
        item->widget()->deleteLater();
        delete item;
    }
    for (std::size_t at = 0; at < sheets.size(); ++at) {
        auto* button = new WrappedButton(tr("%1 since %2. What to do, and what not: press here")
                                             .arg(shownText(sheets[at].label),
                                                  shownText(sheets[at].since)));
        button->setMain(true);
        connect(button, &QPushButton::clicked, this, [this, at] {
            if (at < m_unit->bedside.identity.sheets.size())
                m_tools.sheets.put(new HoldView(m_tools, m_unit, at));
        });
        m_layout->addWidget(button);
    }
}

}  // namespace desktop
