// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bedside desk; see bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"

#include "desktop/theme/appearance.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

BedsideDesk::BedsideDesk(DeskTools tools, QWidget* parent) : Desk(tools, parent) {
    m_unit = new QLabel(tr("Scan a unit to see what it lacks."));
    m_unit->setFont(fontFor(TextRole::Title));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(m_unit);
    layout->addStretch();
}

void BedsideDesk::showUnit(const QString& serial) {
    m_serial = serial;
    m_unit->setText(serial);
}

bool BedsideDesk::takeScan(const QString& text) {
    showUnit(text);
    return true;
}

}  // namespace desktop
