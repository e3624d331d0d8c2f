// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see known_part_sheet.h.
#include "desktop/bedside/known_part_sheet.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

// More are for a trace, which lists the past too.
constexpr std::size_t mostPlaces = 12;

}  // namespace

KnownPartSheet::KnownPartSheet(const station::Found& found, const FleetView& fleet,
                               bool isUnitOpen, QWidget* parent)
    : Sheet(tr("What is known of this part"), parent) {
    content()->addWidget(textLabel(shownText(found.sentence), TextRole::Strong));
    for (const auto& notice : found.notices)
        content()->addWidget(textLabel(shownText(notice), TextRole::Strong));
    if (found.notices.empty()) content()->addWidget(textLabel(tr("No notice concerns it.")));
    addPlaces(found.places, fleet);
    content()->addWidget(textLabel(
        isUnitOpen
            ? tr("To fit it, press Fit or Swap at its position in Set-up, and scan it there.")
            : tr("To fit one, open the unit first, then scan the part.")));
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    foot()->addWidget(back);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
}

void KnownPartSheet::addPlaces(const std::vector<report::FittedPlace>& places,
                               const FleetView& fleet) {
    if (places.empty()) {
        content()->addWidget(textLabel(tr("By the log none is fitted in a unit now.")));
        return;
    }
    content()->addWidget(textLabel(tr("By the log fitted now in:")));
    for (std::size_t i = 0; i < std::min(places.size(), mostPlaces); ++i) {
        const auto& place = places[i];
        const auto unit = describedUnit(fleet.standing->state, place.device);
        auto* button = new WrappedButton(
            buttonText(plainText(unit + QLatin1Char('\n') + shownText(place.label))));
        connect(button, &QPushButton::clicked, this, [this, serial = shownText(place.device)] {
            close();
            Q_EMIT unitWanted(serial);
        });
        content()->addWidget(button);
    }
    if (places.size() > mostPlaces)
        content()->addWidget(textLabel(
            tr("and %n more", nullptr, static_cast<int>(places.size() - mostPlaces))));
}

bool KnownPartSheet::takeScan(const QString& text) {
    close();
    Q_EMIT codeRead(text);
    return true;
}

}  // namespace desktop
