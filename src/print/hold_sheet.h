// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet of a hold on paper, to hang on the unit: which unit, what to do and what not, who may
// lift it, and lines for who has it. Holds the name of nobody but staff.
#pragma once

#include "print/paper.h"
#include "report/bedside.h"

#include <string>

namespace print {

// All in words already; `printed` and `knownAt` as they are shown to people.
struct HoldSheetAsked {
    const report::BedsideIdentity& unit;
    const report::HoldSheet& sheet;
    std::string edition;
    std::string knownAt;
    std::string printed;
    PaperSize size = PaperSize::A4;
    std::string reason{};  // that was given for the hold
};

// `words` must outlive the paper.
[[nodiscard]] Paper holdSheetPaper(const words::Words& words, const HoldSheetAsked& asked);

}  // namespace print
