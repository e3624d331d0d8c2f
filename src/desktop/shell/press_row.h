// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A row that is pressed as a whole: what it is in strong letters, below it what is said of it, with
// an edge in a hue if it has one. Texts wrap; none is cut off.
#pragma once

#include <QPushButton>
#include <optional>

class QLabel;

namespace desktop {

class PressRow : public QPushButton {
    Q_OBJECT
public:
    explicit PressRow(QWidget* parent = nullptr);

    void say(const QString& what, const QString& more);
    void setEdge(std::optional<QColor> hue);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void takeColours();

    QLabel* m_what = nullptr;
    QLabel* m_more = nullptr;
    std::optional<QColor> m_edge;
};

}  // namespace desktop
