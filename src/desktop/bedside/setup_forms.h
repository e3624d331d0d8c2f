// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What taking a part out and reprocessing it ask for.
#pragma once

#include "desktop/bedside/acts/act_form.h"

#include <QCoreApplication>

namespace desktop {

class SetupForms {
    Q_DECLARE_TR_FUNCTIONS(desktop::SetupForms)
public:
    [[nodiscard]] static ActForm remove(const report::SetupPosition& position);
    // Sent away, which is taking it out, or reprocessed in place.
    [[nodiscard]] static ActForm reprocess(const report::SetupPosition& position,
                                           const words::Words& words);
};

}  // namespace desktop
