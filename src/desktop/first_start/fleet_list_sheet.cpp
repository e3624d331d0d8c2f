// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A fleet list looked at; see fleet_list_sheet.h.
#include "desktop/first_start/fleet_list_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "words/shown.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

// Refused for a text that the person can say is none.
bool seemsToName(const station::RefusedUnit& unit) {
    return std::ranges::find(unit.reasons, "patient_text", &station::FleetReason::code) !=
           unit.reasons.end();
}

}  // namespace

FleetListSheet::FleetListSheet(const station::FleetPreview& preview, QWidget* parent)
    : Sheet(tr("What the list would bring"), parent) {
    const auto good = preview.good.size();
    addLine(tr("Units that can be enrolled: %1. Lines refused: %2. Nothing is written yet.")
                .arg(good)
                .arg(preview.refused.size()),
            true);
    for (const auto& refused : preview.refused) {
        auto text = refused.serial.empty()
                        ? tr("Line %1 is refused.").arg(refused.line)
                        : tr("Line %1, unit %2, is refused.")
                              .arg(refused.line)
                              .arg(shownText(words::shown(refused.serial)));
        for (const auto& reason : refused.reasons)
            text += '\n' + (reason.column.empty()
                                ? shownText(reason.sentence.text())
                                : tr("Column %1: %2").arg(shownText(reason.column),
                                                          shownText(reason.sentence.text())));
        addLine(text, false);
    }
    for (const auto& column : preview.ignoredColumns)
        addLine(tr("The column %1 is not known and is passed over.").arg(shownText(column)), false);
    for (const auto& unit : preview.good)
        for (const auto& remark : unit.remarks)
            addLine(tr("Line %1: %2").arg(unit.row.line).arg(shownText(remark)), false);
    content()->addStretch();
    auto* take = new WrappedButton(tr("Enrol what is not refused"));
    take->setProperty("main", true);
    take->setVisible(good > 0);
    auto* back = new WrappedButton(tr("Back, enrol none"));
    auto* noPatient = new WrappedButton(tr("None of them names a patient: look again"));
    noPatient->setVisible(std::ranges::any_of(preview.refused, seemsToName));
    foot()->addWidget(back);
    foot()->addWidget(noPatient);
    foot()->addWidget(take);
    connect(noPatient, &QPushButton::clicked, this, [this] {
        Q_EMIT namesNoPatient();
        close();
    });
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(take, &QPushButton::clicked, this, [this] {
        Q_EMIT taken();
        close();
    });
}

void FleetListSheet::addLine(const QString& text, bool isStrong) {
    content()->addWidget(textLabel(text, isStrong ? TextRole::Strong : TextRole::Plain));
}

}  // namespace desktop
