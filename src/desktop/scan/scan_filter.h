// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tells a barcode scanner from a person at the keyboard: it types many characters within
// milliseconds and ends with Enter. What it types stays in no field and presses no button; it comes
// out here as one text. What turns out to be typed comes to the field that it was meant for, every
// letter and in order. The first letter in a line stands there at once, on trial; one that is meant
// for anything else, and what follows as fast as from a scanner, is held until it can be told.
// Knows nothing of what is scanned.
#pragma once

#include "desktop/scan/tried_letter.h"

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QString>
#include <QTimer>
#include <functional>
#include <memory>
#include <utility>
#include <vector>

class QKeyEvent;
class QLineEdit;

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

    // While `scanned` is told: nothing is done with it. What had no end may have been typed, and
    // goes to the field with the focus then; whether it does.
    bool handBack();
    // What is held was typed, and comes to its field now.
    void giveBack();

    // Asked at each Enter into a line whose text was typed, by a person or by a scanner that is as
    // slow as one; the line holds it by then. Where it says yes the Enter presses nothing.
    using EndOfLine = std::function<bool(QLineEdit& line)>;
    void askAtEnd(EndOfLine asked) { m_atEnd = std::move(asked); }

Q_SIGNALS:
    void scanned(const QString& text);

private:
    bool takePress(QObject* watched, const QKeyEvent& key);
    bool takeRelease(QObject* watched, const QKeyEvent& key);
    bool takeEnd(QObject* watched, const QKeyEvent& key);
    [[nodiscard]] bool isEndOfBurst(const QKeyEvent& key);
    [[nodiscard]] bool isAskedAbout(QObject* watched, int key) const;
    void endBurst(qint64 gap);
    [[nodiscard]] bool goesOnTyping(const QObject* watched, qint64 gap) const;
    void letPass(const QKeyEvent& key, qint64 gap);
    void hold(QObject* watched, const QKeyEvent& key, qint64 gap);
    void begin(QObject* watched, const QKeyEvent& key, qint64 gap);
    [[nodiscard]] bool isCode() const;
    [[nodiscard]] qint64 sinceLast(const QKeyEvent& key) const;  // in ms
    void wait(int ms);
    void pause();
    void settle();
    void comeOut(bool hasEnd);
    void replay();
    [[nodiscard]] QString heldText() const;

    struct Held {
        QPointer<QObject> target;
        std::unique_ptr<QKeyEvent> key;
    };
    std::vector<Held> m_held;     // the keys of a burst, or the one key that may begin it, each
                                  // pressed and let go
    TriedLetter m_tried;          // the first of them, where it stands in its line already
    std::size_t m_presses = 0;    // among them
    int m_cuts = 0;               // pauses among them, longer than a scanner's
    std::size_t m_passed = 0;     // presses as fast as a scanner's that were not held
    bool m_isAmidTyping = false;  // they came right after others that were typed into a field
    bool m_wasTyped = false;      // those before them were
    QString m_before;             // that were pressed right before, where nobody can type
    quint64 m_lastPress = 0;      // when the last was, in ms of the system; 0: it does not tell
    QString m_prefix, m_suffix;
    QElapsedTimer m_sinceLast;    // since the last came here
    QTimer m_pause;               // after it a burst is over, if it was in time
    qint64 m_due = 0;             // in ms of m_sinceLast
    int m_waits = 0;              // that were added since
    qint64 m_endWithin = 0;       // of the last press an end belongs to what came out; in ms
    bool m_mayBeTyped = false;    // what comes out just now
    bool m_isHandedBack = false;
    bool m_isReplaying = false;
    bool m_hasComeOut = false;    // at the last end
    EndOfLine m_atEnd;
};

}  // namespace desktop
