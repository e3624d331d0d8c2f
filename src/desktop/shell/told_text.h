// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was told last, at the foot of the window: as high as the text, but never so high that it
// takes the room of the work above it; what is longer scrolls. Knows no logbook.
#pragma once

#include <QScrollArea>

class QLabel;

namespace desktop {

class ToldText : public QScrollArea {
    Q_OBJECT
public:
    explicit ToldText(QWidget* parent = nullptr);
    void setText(const QString& text);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {0, 0}; }

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fit();

    QLabel* m_label = nullptr;
};

}  // namespace desktop
