// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tells a barcode scanner from a person at the keyboard: it types many characters within
// milliseconds and ends with Enter. What it types reaches no field and presses no button; it comes
// out here as one text. Knows nothing of what is scanned.
#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QString>
#include <QTimer>
#include <memory>
#include <vector>

class QKeyEvent;

namespace desktop {

class ScanFilter : public QObject {
    Q_OBJECT
public:
    // Sees every key of the application before any widget does.
    explicit ScanFilter(QObject* parent = nullptr);
    ~ScanFilter() override;

    // What the scanner is set to send around a code; taken off.
    void setFrame(const QString& prefix, const QString& suffix);

    bool eventFilter(QObject* watched, QEvent* event) override;

Q_SIGNALS:
    void scanned(const QString& text);

private:
    bool takePress(QObject* watched, const QKeyEvent& key);
    bool takeRelease(QObject* watched, const QKeyEvent& key);
    bool takeEnd(const QKeyEvent& key);
    void hold(QObject* watched, const QKeyEvent& key);
    [[nodiscard]] qint64 sinceLast(const QKeyEvent& key) const;  // in ms
    void wait(int ms);
    void pause();
    void settle();
    void giveBack();
    void replay();

    struct Held {
        QPointer<QObject> target;
        std::unique_ptr<QKeyEvent> key;
    };
    std::vector<Held> m_held;     // the keys of a burst, or the one key that may begin it, each
                                  // pressed and let go
    std::size_t m_presses = 0;    // among them
    quint64 m_lastPress = 0;      // when the last was, in ms of the system; 0: it does not tell
    QString m_prefix, m_suffix;
    QElapsedTimer m_sinceLast;    // since the last came here
    QTimer m_pause;               // after it a burst is over, if it was in time
    qint64 m_due = 0;             // in ms of m_sinceLast
    int m_waits = 0;              // that were added since
    bool m_isAfterCode = false;   // the last that was pressed was the end of a code
    bool m_isReplaying = false;
};

}  // namespace desktop
