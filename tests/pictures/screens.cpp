// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Getting to a screen; see screens.h.
#include "pictures/screens.h"

#include <QAbstractButton>
#include <QApplication>
#include <QLabel>
#include <QPlainTextEdit>
#include <QtTest/QTest>
#include <cstdio>
#include <cstdlib>

namespace pictures {

namespace {

[[noreturn]] void stop(const std::string& what) {
    std::fprintf(stderr, "No picture: %s\n", what.c_str());
    std::exit(1);
}

template <class Kind>
Kind* find(const desktop::Window& window, const QString& says) {
    for (auto* each : window.findChildren<Kind*>()) {
        const auto text = each->property("text").toString();
        if (each->isVisible() && ((!text.isEmpty() && text.startsWith(says)) ||
                                  each->accessibleName().startsWith(says)))
            return each;
    }
    return nullptr;
}

// By its accessible name, whatever stands in it.
QWidget* fieldOf(const desktop::Window& window, const QString& name) {
    for (auto* each : window.findChildren<QWidget*>())
        if (each->isVisible() && each->accessibleName().startsWith(name) &&
            (each->focusPolicy() & Qt::TabFocus) != 0)
            return each;
    return nullptr;
}

}  // namespace

void waitUntil(const std::string& what, const std::function<bool()>& isSo) {
    if (!QTest::qWaitFor(isSo, 60'000)) stop("it never came that " + what);
}

bool isSaid(const desktop::Window& window, const QString& text) {
    for (const auto* label : window.findChildren<QLabel*>())
        if (label->isVisible() && label->text().contains(text)) return true;
    for (const auto* page : window.findChildren<QPlainTextEdit*>())
        if (page->isVisible() && page->toPlainText().contains(text)) return true;
    return false;
}

void press(desktop::Window& window, const QString& says) {
    waitUntil("there is a press that says " + says.toStdString(),
              [&] { return find<QAbstractButton>(window, says) != nullptr; });
    find<QAbstractButton>(window, says)->click();
}

void type(desktop::Window& window, const QString& field, const QString& text) {
    waitUntil("there is a field " + field.toStdString(),
              [&] { return fieldOf(window, field) != nullptr; });
    auto* widget = fieldOf(window, field);
    widget->setFocus();
    for (const auto letter : text)
        QTest::keyClick(widget, letter.toLatin1(), Qt::NoModifier, 30);
    QTest::qWait(50);
}

void key(desktop::Window& window, Qt::Key key, Qt::KeyboardModifiers modifiers) {
    auto* focused = QApplication::focusWidget();
    QTest::keyClick(focused != nullptr ? focused : &window, key, modifiers);
}

}  // namespace pictures
