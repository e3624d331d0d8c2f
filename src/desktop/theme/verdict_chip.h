// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A verdict as it is shown everywhere: its word, with an edge in its hue. Knows no unit.
#pragma once

#include "rules/assess.h"

#include <QWidget>

class QPainter;

namespace desktop {

inline constexpr int chipEdge = 6;  // px

struct Chip {
    rules::Verdict verdict{};
    QString word;
    bool isOnRow = false;  // what is below it stays in sight
};

// For cells of tables too. Out of service is hatched, retired is struck through.
void paintChip(QPainter& painter, const QRect& box, const Chip& chip);

class VerdictChip : public QWidget {
    Q_OBJECT
public:
    explicit VerdictChip(QWidget* parent = nullptr);
    void show(const Chip& chip);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Chip m_chip;
};

}  // namespace desktop
