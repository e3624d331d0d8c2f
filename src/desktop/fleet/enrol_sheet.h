// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Enrols units in a logbook that is in use: as at the first start, one by one or from a fleet list,
// by whoever may. Knows no rule about units; what is refused says so itself.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"

class QLabel;

namespace desktop {

class UnitsPage;
class WrappedButton;

class EnrolSheet : public Sheet {
    Q_OBJECT
public:
    // `serial` was scanned or typed and is no unit yet; "" none.
    explicit EnrolSheet(DeskTools tools, const QString& serial = {}, QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;
    [[nodiscard]] bool isDraft() const override;

Q_SIGNALS:
    // One that was enrolled here is to be opened; the sheet is gone by then.
    void unitWanted(const QString& serial);

private:
    void addFoot();
    void showAuthority();
    void tellTrouble(const QString& text);

    DeskTools m_tools;
    QLabel* m_authority = nullptr;
    UnitsPage* m_page = nullptr;
    QLabel* m_trouble = nullptr;
    WrappedButton* m_open = nullptr;
};

}  // namespace desktop
