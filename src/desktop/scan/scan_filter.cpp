// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bursts of keys; see scan_filter.h.
#include "desktop/scan/scan_filter.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QWindow>
#include <utility>

namespace desktop {

namespace {

// Nobody types two keys so fast; scanners send one every 1 to 15 ms.
constexpr int burstGapMs = 20;
// The program may have been busy meanwhile: keys that came in time are seen within this.
constexpr int lateKeysMs = 5;
// Fewer keys are no code: two fingers hit two keys at once.
constexpr std::size_t fewestKeys = 4;
// A scanner's second end, or an end that comes late, belongs to what was read before it.
constexpr int endAfterMs = 250;

bool isEnd(int key) {
    return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Tab;
}

bool isText(const QKeyEvent& key) {
    const bool held = key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
    return !held && key.text().size() == 1 &&
           (key.text().front().isPrint() || key.text().front() == QChar(0x1D));
}

}  // namespace

ScanFilter::ScanFilter(QObject* parent) : QObject(parent) {
    m_pause.setSingleShot(true);
    m_pause.setTimerType(Qt::PreciseTimer);
    m_pause.setInterval(burstGapMs);
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
        default: return false;
    }
}

bool ScanFilter::takePress(QObject* watched, const QKeyEvent& key) {
    if (isEnd(key.key())) return takeEnd();
    if (!isText(key)) {
        if (key.text().isEmpty()) return false;  // Shift of a capital letter in a burst
        settle();
        return false;
    }
    hold(watched, key);
    return true;
}

// Waits with its key and comes after it, however short the tap.
bool ScanFilter::takeRelease(QObject* watched, const QKeyEvent& key) {
    if (m_held.empty() || !isText(key)) return false;
    m_held.push_back({watched, std::unique_ptr<QKeyEvent>(key.clone())});
    return true;
}

// Whether the end belongs to a burst.
bool ScanFilter::takeEnd() {
    if (m_presses >= fewestKeys) {
        settle();
        return true;
    }
    const bool isLate = m_sinceScan.isValid() && m_sinceScan.elapsed() < endAfterMs;
    settle();
    return isLate;
}

// By when the keys were pressed, where the system tells: a busy program sees them all at once.
bool ScanFilter::continues(const QKeyEvent& key) const {
    if (m_held.empty()) return true;
    const auto last = m_lastPress;
    return last == 0 || key.timestamp() < last || key.timestamp() - last <= burstGapMs;
}

void ScanFilter::hold(QObject* watched, const QKeyEvent& key) {
    if (!continues(key)) settle();
    m_isLast = false;
    m_pause.setInterval(burstGapMs);
    m_held.push_back({watched, std::unique_ptr<QKeyEvent>(key.clone())});
    m_lastPress = key.timestamp();
    ++m_presses;
    m_pause.start();
}

void ScanFilter::pause() {
    if (std::exchange(m_isLast, true)) {
        settle();
        return;
    }
    m_pause.setInterval(lateKeysMs);
    m_pause.start();
}

// The burst is over: a code, or keys that somebody typed.
void ScanFilter::settle() {
    m_pause.stop();
    if (std::exchange(m_presses, 0) < fewestKeys) {
        replay();
        return;
    }
    QString text;
    for (const auto& held : std::exchange(m_held, {}))
        if (held.key->type() == QEvent::KeyPress) text += held.key->text();
    if (text.startsWith(m_prefix)) text.remove(0, m_prefix.size());
    if (text.endsWith(m_suffix)) text.chop(m_suffix.size());
    m_sinceScan.start();
    Q_EMIT scanned(text);
}

void ScanFilter::replay() {
    auto held = std::exchange(m_held, {});
    m_isReplaying = true;
    for (auto& each : held)
        if (each.target) QCoreApplication::sendEvent(each.target, each.key.get());
    m_isReplaying = false;
}

}  // namespace desktop
