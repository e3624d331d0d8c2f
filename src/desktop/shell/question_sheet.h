// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A question as a sheet over the window.
#pragma once

#include "desktop/shell/questions.h"
#include "desktop/shell/sheet.h"

namespace desktop {

class SheetQuestions : public Questions {
public:
    explicit SheetQuestions(SheetStack& sheets) : m_sheets(sheets) {}
    void ask(const Question& question, std::function<void(bool)> answered) override;

private:
    SheetStack& m_sheets;
};

}  // namespace desktop
