// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The recovery code, shown once.
#pragma once

#include "desktop/first_start/setup_page.h"
#include "station/people.h"

namespace desktop {

class CodePage : public SetupPage {
    Q_OBJECT
public:
    explicit CodePage(QWidget* parent = nullptr);

    void show(const station::Begun& begun, const QString& path);
    void forget();

private:
    QLabel* m_done = nullptr;
    QLabel* m_code = nullptr;
};

}  // namespace desktop
