// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A scanner and a person at the keyboard of a small form.
#pragma once

#include "desktop/scan/scan_filter.h"

#include "window_world.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QSignalSpy>
#include <QVBoxLayout>
#include <initializer_list>

namespace support {

// A field and a button under the filter.
struct ScanForm {
    QWidget window;
    QLineEdit* field = new QLineEdit;
    QPushButton* button = new QPushButton(QStringLiteral("Keep"));
    int presses = 0;
    int entered = 0;
    desktop::ScanFilter filter;
    KeyStamps stamps;
    QSignalSpy scans{&filter, &desktop::ScanFilter::scanned};

    ScanForm() {
        auto* layout = new QVBoxLayout(&window);
        layout->addWidget(field);
        layout->addWidget(button);
        button->setAutoDefault(true);  // the worst case
        QObject::connect(button, &QPushButton::clicked, [this] { ++presses; });
        QObject::connect(field, &QLineEdit::returnPressed, [this] { ++entered; });
        window.show();
        REQUIRE(QTest::qWaitForWindowExposed(&window));
        QApplication::setActiveWindow(&window);
        stamps.install();
    }

    static void keys(QWidget* target, const QString& text, int delayMs) {
        for (const auto letter : text)
            QTest::keyClick(target, letter.toLatin1(), Qt::NoModifier, delayMs);
    }
    void scan(QWidget* target, const QString& text) {
        target->setFocus();
        const KeyStamps::Scanner scanner(stamps);
        keys(target, text, 1);
        QTest::keyClick(target, Qt::Key_Return, Qt::NoModifier, 1);
        QTest::qWait(60);
    }
};

// Keys as the system stamped them, that many ms apart, seen when a busy program gets round to it.
class Stamped {
public:
    explicit Stamped(QWidget* target, int gapMs = 1) : m_target(target), m_gapMs(gapMs) {}
    void press(const QString& text, bool isRepeated = false) {
        for (const auto letter : text) {
            QKeyEvent key(QEvent::KeyPress, 0, Qt::NoModifier, QString(letter), isRepeated);
            send(key);
        }
    }
    // The first so long after the one before, the others as usual.
    void pressAfter(int ms, const QString& text) {
        m_stamp += ms - m_gapMs;
        press(text);
    }
    // What is pressed from now on.
    void goTo(QWidget* target) { m_target = target; }
    void endAfter(int ms) {
        m_stamp += ms - m_gapMs;
        end();
    }
    void end() {
        QKeyEvent key(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, QStringLiteral("\r"));
        send(key);
    }

private:
    void send(QKeyEvent& key) {
        key.setTimestamp(m_stamp += m_gapMs);
        QApplication::sendEvent(m_target, &key);
    }

    QWidget* m_target;
    int m_gapMs;
    quint64 m_stamp = 1'000;
};

}  // namespace support
