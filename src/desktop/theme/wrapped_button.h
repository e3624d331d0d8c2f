// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A button whose text takes as many lines as it needs: what it asserts is never cut off.
#pragma once

#include <QPushButton>

namespace desktop {

class WrappedButton : public QPushButton {
    Q_OBJECT
public:
    explicit WrappedButton(const QString& text = {}, QWidget* parent = nullptr);

    // The one that is most probably wanted.
    void setMain(bool isMain);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QSize textSize(int width) const;
};

}  // namespace desktop
