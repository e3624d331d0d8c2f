// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit at an instant of the past: as could be known then beside as is known now, clearly marked
// as past. Nothing can be entered from here.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"

#include <string>

class QLabel;
class QLineEdit;
class QTextBrowser;

namespace desktop {

class LookBackSheet : public Sheet {
    Q_OBJECT
public:
    LookBackSheet(DeskTools tools, std::string device, QWidget* parent = nullptr);

    [[nodiscard]] bool isWide() const override { return true; }

private:
    void addChoices();
    void lookAt(const std::string& given);
    void show(const QString& banner, const QString& html);

    DeskTools m_tools;
    std::string m_device;
    QLineEdit* m_when = nullptr;
    QLabel* m_banner = nullptr;
    QTextBrowser* m_text = nullptr;
};

}  // namespace desktop
