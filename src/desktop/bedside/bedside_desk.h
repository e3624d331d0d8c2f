// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desk of the therapist: one unit, and what leads it to ready.
#pragma once

#include "desktop/shell/desk.h"

class QLabel;

namespace desktop {

class BedsideDesk : public Desk {
    Q_OBJECT
public:
    explicit BedsideDesk(DeskTools tools, QWidget* parent = nullptr);

    void showUnit(const QString& serial);
    bool takeScan(const QString& text) override;

private:
    QLabel* m_unit = nullptr;
    QString m_serial;
};

}  // namespace desktop
