// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who is signed in at this window, and the lock that ends it after a time without a press. Knows
// neither how somebody signs in nor what they may write.
#pragma once

#include "station/sign_in.h"

#include <QObject>
#include <QTimer>
#include <chrono>
#include <optional>
#include <string>

namespace desktop {

class Presence : public QObject {
    Q_OBJECT
public:
    // Counts every key and press that reaches the application as a sign of the person.
    explicit Presence(QObject* parent = nullptr);

    [[nodiscard]] const std::optional<station::Session>& session() const { return m_session; }
    [[nodiscard]] QString name() const;  // "" if nobody is signed in
    void begin(station::Session session);
    void lock();
    void lockAfter(std::chrono::milliseconds span);

    bool eventFilter(QObject* watched, QEvent* event) override;

Q_SIGNALS:
    void changed();

private:
    std::optional<station::Session> m_session;
    QTimer m_idle;
};

}  // namespace desktop
