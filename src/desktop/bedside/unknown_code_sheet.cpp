// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see unknown_code_sheet.h.
#include "desktop/bedside/unknown_code_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

UnknownCodeSheet::UnknownCodeSheet(const station::Found& found, bool isUnitOpen,
                                   QWidget* parent)
    : Sheet(tr("No such unit in this logbook"), parent) {
    const auto read = shownText(found.read);
    content()->addWidget(textLabel(shownText(found.sentence), TextRole::Strong));
    content()->addWidget(textLabel(tr("Scan again if it was read wrongly. If it is the serial of a "
                                      "new unit, enrol it.")));
    if (isUnitOpen)
        content()->addWidget(textLabel(tr("If it is on a part that is to be fitted, go back, press "
                                          "Fit or Swap at its position in Set-up, and scan it "
                                          "there.")));
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    auto* enrol = new WrappedButton(tr("Enrol %1 …").arg(buttonText(found.read)));
    foot()->addWidget(back);
    foot()->addWidget(enrol);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(enrol, &QPushButton::clicked, this, [this, read] {
        close();
        Q_EMIT enrolmentWanted(read);
    });
}

bool UnknownCodeSheet::takeScan(const QString& text) {
    close();
    Q_EMIT codeRead(text);
    return true;
}

}  // namespace desktop
