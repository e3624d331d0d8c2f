// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Before the window is closed, or the session of this computer ended: what was entered and is not
// kept is told, and whoever closes it is asked. Drafts lie in memory alone, and end with it; what
// waits for the logbook does not, and is told all the same.
#pragma once

#include "desktop/shell/desk.h"

#include <QString>
#include <functional>

namespace desktop {

class Closing : public QObject {
    Q_OBJECT
public:
    struct Looks {
        std::function<QString()> unit;  // that is open and in front; "" none
        std::function<QString()> lost;   // what else would be lost, as sentences; "" nothing
        std::function<QString()> waits;  // what goes on once it is opened again; "" nothing
    };
    Closing(DeskTools tools, Looks looks, QObject* parent = nullptr);

    enum class Cause { Window, Session };
    // Whether nothing would be lost, or it was said to close all the same. Otherwise that is asked,
    // once; `wanted` follows if the answer is yes.
    bool mayClose(Cause cause);

Q_SIGNALS:
    void wanted();

private:
    [[nodiscard]] QStringList lost() const;
    [[nodiscard]] Question question(const QStringList& lost, const QString& waits) const;
    [[nodiscard]] QString nameOf(const std::string& person) const;
    void ask(Cause cause);

    DeskTools m_tools;
    Looks m_looks;
    bool m_isAsked = false;
    bool m_isSure = false;
};

}  // namespace desktop
