// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which unit; see unit_choice_sheet.h.
#include "desktop/bedside/unit_choice_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"
#include "words/shown.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

namespace {

// "KB-0142 · A-0142 · Larch 3 · ICU"
QString describe(const rules::State& state, const std::string& serial) {
    QStringList texts{shownText(words::shown(serial))};
    if (const auto* device = state.device(serial)) {
        if (device->enrolment.asset) texts << shownText(words::shown(*device->enrolment.asset));
        texts << shownText(words::shown(device->enrolment.model));
        if (!device->location.empty()) texts << shownText(words::shown(device->location));
    }
    return texts.join(QStringLiteral(" · ")).replace(QLatin1Char('&'), QLatin1String("&&"));
}

}  // namespace

UnitChoiceSheet::UnitChoiceSheet(const station::Found& found, const FleetView& fleet,
                                 QWidget* parent)
    : Sheet(tr("Which unit?"), parent) {
    auto* text = new QLabel(shownText(found.sentence));
    text->setWordWrap(true);
    content()->addWidget(text);
    for (const auto& serial : found.devices) {
        auto* button = new WrappedButton(describe(fleet.standing->state, serial));
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
