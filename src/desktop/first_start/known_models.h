// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The models of which the logbook has units already, those of the most units first: pressed instead
// of typed, and each spelt as before. Hidden while there are none.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QStringList>
#include <QWidget>

namespace desktop {

class KnownModels : public QWidget {
    Q_OBJECT
public:
    explicit KnownModels(QWidget* parent = nullptr);

    void show(const FleetView& fleet);

Q_SIGNALS:
    void chosen(const QString& model);

private:
    QStringList m_models;  // as they are offered
};

}  // namespace desktop
