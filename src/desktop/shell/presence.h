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
#include <set>
#include <string>

namespace desktop {

class Presence : public QObject {
    Q_OBJECT
public:
    // Counts every key and press that reaches the application as a sign of the person.
    explicit Presence(QObject* parent = nullptr);

    [[nodiscard]] const std::optional<station::Session>& session() const { return m_session; }
    [[nodiscard]] QString name() const;  // "" if nobody is signed in
    // Whether that person has signed in here since the window was opened.
    [[nodiscard]] bool wasHere(const std::string& person) const;
    void begin(station::Session session);
    void lock();
    void lockAfter(std::chrono::milliseconds span);

    bool eventFilter(QObject* watched, QEvent* event) override;

Q_SIGNALS:
    void changed();
    // Whose session has ended, or begun; before `changed`.
    void left(const std::string& person);
    void came(const std::string& person);

private:
    std::optional<station::Session> m_session;
    std::set<std::string> m_wereHere;
    QTimer m_idle;
};

}  // namespace desktop
