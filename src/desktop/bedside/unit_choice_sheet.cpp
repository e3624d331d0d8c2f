// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which unit; see unit_choice_sheet.h.
#include "desktop/bedside/unit_choice_sheet.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

UnitChoiceSheet::UnitChoiceSheet(const station::Found& found, const FleetView& fleet,
                                 QWidget* parent)
    : Sheet(tr("Which unit?"), parent) {
    auto* text = new QLabel(shownText(found.sentence));
    text->setWordWrap(true);
    content()->addWidget(text);
    for (const auto& serial : found.devices) {
        auto* button = new WrappedButton(
            buttonText(plainText(describedUnit(fleet.standing->state, serial))));
        content()->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, serial] {
            close();
            Q_EMIT chosen(shownText(serial));
        });
    }
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    foot()->addWidget(back);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
}

bool UnitChoiceSheet::takeScan(const QString& text) {
    callOff();
    Q_EMIT codeRead(text);
    return true;
}

}  // namespace desktop
