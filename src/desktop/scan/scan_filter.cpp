// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bursts of keys; see scan_filter.h.
#include "desktop/scan/scan_filter.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScopedValueRollback>
#include <QWindow>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

// Between two keys, by when they were pressed. A scanner sends one every 1 to 15 ms; whoever types
// fast has 60 ms between two, and hardly ever less than 30.
constexpr int burstGapMs = 20;
// Keys that came in time may still wait to be delivered where the program, or the machine, was
// busy. So a wait is followed by another of at least this, or of half the time that it was late
// itself: the keys were on their way meanwhile. Until one was in time.
constexpr int promptMs = 5;
constexpr int longestLagMs = 100;
constexpr int mostWaits = 5;
// Fewer keys are no code: two fingers hit two keys at once.
constexpr std::size_t fewestKeys = 4;
// Within this the end of a code is waited for, and a second end belongs to it.
constexpr int endAfterMs = 250;
// A system that is busy itself stamps keys late and all at once: a pause within a code, or keys of
// somebody who types that are as close as a scanner's. A code goes on after one such pause, if its
// end follows at once; and what comes so soon after typing is typing.
constexpr int longestCutMs = 100;
constexpr int typingMs = 250;

bool isEnd(int key) {
    return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Tab;
}

// A key that somebody keeps pressed repeats itself as fast as a scanner sends.
bool isText(const QKeyEvent& key) {
    const bool held = key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
    return !held && !key.isAutoRepeat() && key.text().size() == 1 &&
           (key.text().front().isPrint() || key.text().front() == QChar(0x1D));
}

// What a letter that is pressed there is meant for.
bool isTypedInto(const QObject* target) {
    if (const auto* line = qobject_cast<const QLineEdit*>(target)) return !line->isReadOnly();
    return target != nullptr && target->property("typedInto").toBool();
}

}  // namespace

ScanFilter::ScanFilter(QObject* parent) : QObject(parent) {
    m_sinceLast.start();
    m_pause.setSingleShot(true);
    m_pause.setTimerType(Qt::PreciseTimer);
    connect(&m_pause, &QTimer::timeout, this, &ScanFilter::pause);
    QCoreApplication::instance()->installEventFilter(this);
}

ScanFilter::~ScanFilter() = default;

void ScanFilter::setFrame(const QString& prefix, const QString& suffix) {
    m_prefix = prefix;
    m_suffix = suffix;
}

bool ScanFilter::eventFilter(QObject* watched, QEvent* event) {
    // A key comes to the window first and is then handed on to the widget in it.
    if (m_isReplaying || qobject_cast<QWindow*>(watched) != nullptr) return false;
    switch (event->type()) {
        case QEvent::ShortcutOverride: {
            const auto& key = static_cast<const QKeyEvent&>(*event);
            return !m_held.empty() && isText(key);
        }
        case QEvent::KeyPress:
            return takePress(watched, static_cast<const QKeyEvent&>(*event));
        case QEvent::KeyRelease:
            return takeRelease(watched, static_cast<const QKeyEvent&>(*event));
        case QEvent::MouseButtonPress:
        case QEvent::TouchBegin:
            // Nobody presses so soon after a scan: it was typed, and is there as the press counts.
            giveBack();
            return false;
        default: return false;
    }
}

bool ScanFilter::takePress(QObject* watched, const QKeyEvent& key) {
    if (isEnd(key.key())) return takeEnd(watched, key);
    if (!isText(key)) {
        if (key.text().isEmpty()) return false;  // Shift of a capital letter in a burst
        settle();
        return false;
    }
    const auto gap = sinceLast(key);
    endBurst(gap);
    if (goesOnTyping(watched, gap)) {
        letPass(key, gap);
        return false;
    }
    hold(watched, key, gap);
    return true;
}

// Waits with its key and comes after it, however short the tap.
bool ScanFilter::takeRelease(QObject* watched, const QKeyEvent& key) {
    if (m_held.empty() || !isText(key)) return false;
    m_held.push_back({watched, std::unique_ptr<QKeyEvent>(key.clone())});
    return true;
}

// What was not told from typing by its speed may be told by what it says.
bool ScanFilter::takeEnd(QObject* watched, const QKeyEvent& key) {
    m_hasComeOut = false;
    const bool isTaken = isEndOfBurst(key);
    return (!m_hasComeOut && isAskedAbout(watched, key.key())) || isTaken;
}

bool ScanFilter::isAskedAbout(QObject* watched, int key) const {
    auto* line = qobject_cast<QLineEdit*>(watched);
    const bool isEnter = key == Qt::Key_Return || key == Qt::Key_Enter;
    return isEnter && line != nullptr && !line->isReadOnly() && m_atEnd && m_atEnd(*line);
}

// Whether the end belongs to a burst, or to one that has come out already.
bool ScanFilter::isEndOfBurst(const QKeyEvent& key) {
    const auto gap = sinceLast(key);
    if (m_held.empty()) return gap < m_endWithin;
    const bool isAtOnce = gap <= burstGapMs;
    if (isCode() && (isAtOnce || (m_cuts == 0 && gap < endAfterMs))) {
        m_hasComeOut = true;
        comeOut(true);
        return true;
    }
    settle();
    return gap < m_endWithin;
}

// By when the keys were pressed, where the system tells: a busy program sees them all at once.
qint64 ScanFilter::sinceLast(const QKeyEvent& key) const {
    const auto now = key.timestamp();
    if (now == 0 || m_lastPress == 0) return m_sinceLast.elapsed();
    return now < m_lastPress ? 0 : static_cast<qint64>(now - m_lastPress);
}

// What is held, by how long after it the next key came.
void ScanFilter::endBurst(qint64 gap) {
    if (m_held.empty() || gap <= burstGapMs) return;
    if (isCode() && m_cuts == 0 && gap <= longestCutMs) {
        ++m_cuts;
    } else {
        // Somebody types on.
        gap <= endAfterMs ? giveBack() : settle();
    }
}

// Nothing that begins so soon after typing is a code: it need not be held to see whether it is one.
bool ScanFilter::goesOnTyping(const QObject* watched, qint64 gap) const {
    return m_held.empty() && m_wasTyped && gap <= typingMs && isTypedInto(watched);
}

void ScanFilter::letPass(const QKeyEvent& key, qint64 gap) {
    m_passed = gap > burstGapMs ? 1 : m_passed + 1;
    m_endWithin = m_passed >= fewestKeys ? burstGapMs + 1 : 0;
    m_lastPress = key.timestamp();
    m_sinceLast.start();
}

void ScanFilter::hold(QObject* watched, const QKeyEvent& key, qint64 gap) {
    if (m_held.empty()) begin(watched, key, gap);
    m_held.push_back({watched, std::unique_ptr<QKeyEvent>(key.clone())});
    m_lastPress = key.timestamp();
    m_sinceLast.start();
    ++m_presses;
    m_waits = 0;
    // Of what is a code already nothing is shown before its end.
    wait(isCode() ? endAfterMs : burstGapMs);
}

// That long after the last key.
void ScanFilter::begin(QObject* watched, const QKeyEvent& key, qint64 gap) {
    m_isAmidTyping = std::exchange(m_wasTyped, false) && gap <= typingMs;
    if (gap > longestCutMs) m_before.clear();
    m_endWithin = 0;
    auto* line = qobject_cast<QLineEdit*>(watched);
    if (line == nullptr || line->isReadOnly()) return;
    const QScopedValueRollback replaying(m_isReplaying, true);
    m_tried.put(*line, key);
}

// As far as can be told before its end.
bool ScanFilter::isCode() const {
    return m_presses >= fewestKeys && !m_isAmidTyping;
}

void ScanFilter::wait(int ms) {
    m_due = m_sinceLast.elapsed() + ms;
    m_pause.start(ms);
}

// A timer may come before keys that were there first.
void ScanFilter::pause() {
    const auto lag = m_sinceLast.elapsed() - m_due;
    if (m_waits > 0 && (lag <= promptMs || m_waits == mostWaits)) {
        settle();
        return;
    }
    ++m_waits;
    wait(std::max(promptMs, static_cast<int>(std::min<qint64>(lag, longestLagMs) / 2)));
}

// The burst is over without an end: a code, or keys that somebody typed.
void ScanFilter::settle() {
    if (isCode() && m_cuts == 0) {
        comeOut(false);
    } else {
        giveBack();
    }
}

QString ScanFilter::heldText() const {
    QString text;
    for (const auto& held : m_held)
        if (held.key->type() == QEvent::KeyPress) text += held.key->text();
    return text;
}

void ScanFilter::comeOut(bool hasEnd) {
    m_pause.stop();
    m_tried.takeBack();
    auto text = std::exchange(m_before, {}) + heldText();
    auto held = std::exchange(m_held, {});
    m_presses = m_cuts = 0;
    if (text.startsWith(m_prefix)) text.remove(0, m_prefix.size());
    if (text.endsWith(m_suffix)) text.chop(m_suffix.size());
    m_endWithin = endAfterMs;
    m_mayBeTyped = !hasEnd && isTypedInto(held.front().target);
    m_isHandedBack = false;
    Q_EMIT scanned(text);
    m_mayBeTyped = false;
    if (!m_isHandedBack) return;
    m_held = std::move(held);
    giveBack();
}

bool ScanFilter::handBack() {
    m_isHandedBack = m_mayBeTyped;
    return m_isHandedBack;
}

// To what they were pressed at, in their order. Of what nobody can type into the letters are
// remembered: a code that was cut in two may have begun with them.
void ScanFilter::giveBack() {
    m_pause.stop();
    if (m_held.empty()) return;
    m_wasTyped = isTypedInto(m_held.front().target);
    m_before = m_wasTyped ? QString() : m_before + heldText();
    // Amid what is typed a whole burst may be the rest of a code; its end presses nothing.
    m_endWithin = m_presses >= fewestKeys ? burstGapMs + 1 : 0;
    m_presses = m_passed = 0;
    m_cuts = 0;
    replay();
}

void ScanFilter::replay() {
    auto held = std::exchange(m_held, {});
    const QScopedValueRollback replaying(m_isReplaying, true);
    auto next = held.begin();
    if (m_tried.stands()) {
        m_tried.keep();
        ++next;
    }
    for (; next != held.end(); ++next)
        if (next->target) QCoreApplication::sendEvent(next->target, next->key.get());
}

}  // namespace desktop
