// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A row of widgets that goes on in the next line where the width does not suffice, so that nothing
// is cut off at any size of window and text, with the gap that gloved fingers need. Takes hidden
// ones for not there.
#pragma once

#include <QLayout>
#include <QList>

namespace desktop {

class WrapLayout : public QLayout {
public:
    // Spread: the widgets of a line share its width. Packed: each is as wide as it needs, and the
    // first of a line that may grow takes the rest. Foot: the first, where it is not alone, keeps
    // its place below on the left and its width, whatever the others say; they share the rest.
    enum class Manner { Packed, Spread, Foot };
    explicit WrapLayout(Manner manner = Manner::Packed, QWidget* parent = nullptr);
    ~WrapLayout() override;

    void addItem(QLayoutItem* item) override;
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSize() const override;
    void setGeometry(const QRect& box) override;

private:
    using Line = QList<QLayoutItem*>;
    struct Heights {
        int all = 0, last = 0;  // of the lines, and of the last of them
    };
    [[nodiscard]] QList<Line> linesFor(const Line& items, int width) const;
    // The items are moved only where that is asked for.
    Heights arrange(const QRect& box, bool move) const;
    Heights arrangeLines(const Line& items, const QRect& box, int leastLast, bool move) const;
    void arrangeLine(const Line& line, const QRect& box) const;
    Heights arrangeFoot(const Line& items, const QRect& box, bool move) const;
    [[nodiscard]] QList<int> widthsOf(const Line& line, int width) const;

    Manner m_manner;
    QList<QLayoutItem*> m_items;
};

}  // namespace desktop
