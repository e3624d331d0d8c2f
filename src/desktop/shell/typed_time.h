// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times as they are typed at a window, where a colon takes long to find. What they mean is asked of
// the station.
#pragma once

#include <QString>

namespace desktop {

// "1420" as "14:20", and "2026-03-02 930" as "2026-03-02 09:30"; anything else without the blanks
// around it.
[[nodiscard]] QString completedTime(const QString& typed);

}  // namespace desktop
