// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A field for a PIN that holds it in guarded memory only: shows a dot a digit, gives nothing to the
// clipboard, to input methods or to the accessibility bus.
#pragma once

#include "station/secret.h"

#include <QWidget>

namespace desktop {

class PinField : public QWidget {
    Q_OBJECT
public:
    explicit PinField(const QString& name, QWidget* parent = nullptr);

    [[nodiscard]] const station::Secret& secret() const { return m_secret; }
    // Leaves the field empty.
    [[nodiscard]] station::Secret take();
    [[nodiscard]] QSize sizeHint() const override;

Q_SIGNALS:
    void changed();
    void entered();  // by Enter

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    station::Secret m_secret;
    bool m_hasLetters = false;  // were typed besides, which no PIN has
};

}  // namespace desktop
