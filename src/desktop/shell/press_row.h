// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A row that is pressed: what it is in strong letters, and more of it, both wrapping; at the left,
// where that is wanted, an edge in a hue that repeats what the words say.
#pragma once

#include <QColor>
#include <QPushButton>
#include <optional>

namespace desktop {

class PressRow : public QPushButton {
    Q_OBJECT
public:
    explicit PressRow(QWidget* parent = nullptr);

    // Its accessible name is both.
    void say(const QString& what, const QString& more);
    void setEdge(std::optional<QColor> hue);
    // Where room is scarce only what it is can be seen.
    void setBrief(bool isBrief);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Places {
        QRect what, more;  // of the texts; `more` empty where it is not shown
        int height = 0;    // of the row
    };
    [[nodiscard]] Places placesIn(int width) const;
    [[nodiscard]] bool showsMore() const { return !m_isBrief && !m_more.isEmpty(); }

    QString m_what, m_more;
    bool m_isBrief = false;
    std::optional<QColor> m_edge;
};

}  // namespace desktop
