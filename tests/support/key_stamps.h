// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys stamped as a window system stamps them, with when they were pressed, since that tells a
// scanner from a person. QTest leaves its keys without, and a busy machine would make a scanner of
// whoever types in a test.
#pragma once

#include <QApplication>
#include <QElapsedTimer>
#include <QKeyEvent>
#include <algorithm>

namespace support {

class KeyStamps : public QObject {
public:
    KeyStamps() { m_clock.start(); }

    // Sees keys before whatever was installed until now.
    void install() { qApp->installEventFilter(this); }

    // While it lives the keys come from a scanner: 1 ms after one another, however long the machine
    // takes to hand them over. Whoever takes it up has not typed for a while, unless it is said.
    class Scanner {
    public:
        explicit Scanner(KeyStamps& stamps, quint64 afterMs = 300) : m_stamps(stamps) {
            m_stamps.m_ahead += afterMs;
            m_stamps.m_last = m_stamps.now();
            m_stamps.m_isScanner = true;
        }
        Scanner(const Scanner&) = delete;
        Scanner& operator=(const Scanner&) = delete;
        ~Scanner() { m_stamps.m_isScanner = false; }

    private:
        KeyStamps& m_stamps;
    };

    bool eventFilter(QObject*, QEvent* event) override {
        if (event->type() != QEvent::KeyPress && event->type() != QEvent::KeyRelease) return false;
        auto& key = static_cast<QKeyEvent&>(*event);
        if (key.timestamp() == 0) key.setTimestamp(stamp(event->type() == QEvent::KeyPress));
        return false;
    }

private:
    // Later than all before it; 0 would say that it is not told.
    [[nodiscard]] quint64 now() const {
        return std::max(m_last + 1, static_cast<quint64>(m_clock.elapsed()) + m_ahead + 1);
    }
    quint64 stamp(bool isPress) {
        if (isPress) m_last = m_isScanner ? m_last + 1 : now();
        return m_last;
    }

    QElapsedTimer m_clock;
    quint64 m_last = 0;
    quint64 m_ahead = 0;  // of the clock
    bool m_isScanner = false;
};

}  // namespace support
