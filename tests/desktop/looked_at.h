// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an eye would see of a window: texts that are cut off, presses that are too small for a
// glove, widgets that a screen reader could not name.
#pragma once

#include "desktop/theme/appearance.h"

#include <QAbstractButton>
#include <QCoreApplication>
#include <QEvent>
#include <QLabel>
#include <QLineEdit>
#include <QTableView>
#include <string>
#include <vector>

namespace support {

inline std::string toldOf(const QWidget& widget) {
    const auto text = widget.property("text").toString();
    return std::string(widget.metaObject()->className()) + " \"" +
           (text.isEmpty() ? widget.accessibleName() : text).toStdString() + '"';
}

// The visible one of that accessible name, whatever stands in it.
template <class Kind>
Kind* named(const QWidget& window, const QString& name) {
    for (auto* each : window.findChildren<Kind*>())
        if (each->isVisible() && each->accessibleName().startsWith(name)) return each;
    return nullptr;
}

// What Qt itself puts into a field, to empty it.
inline bool isInField(const QWidget& widget) {
    return qobject_cast<const QLineEdit*>(widget.parentWidget()) != nullptr;
}

inline bool isCutOff(const QWidget& widget) {
    if (widget.sizeHint().isEmpty()) return false;
    const auto* label = qobject_cast<const QLabel*>(&widget);
    if (label == nullptr || !label->wordWrap())
        return widget.width() < widget.minimumSizeHint().width() ||
               (label != nullptr && widget.width() < widget.sizeHint().width());
    return !label->text().isEmpty() && label->height() < label->heightForWidth(label->width());
}

// Lays out what changed since the window was last at rest: no eye sees it before that.
inline void layOut() {
    constexpr int mostRounds = 8;  // a layout asks those around it, up to the window
    for (int round = 0; round < mostRounds; ++round)
        QCoreApplication::sendPostedEvents(nullptr, QEvent::LayoutRequest);
}

inline std::vector<std::string> cutOff(const QWidget& window) {
    layOut();
    std::vector<std::string> found;
    for (const auto* label : window.findChildren<QLabel*>())
        if (label->isVisible() && isCutOff(*label)) found.push_back(toldOf(*label));
    for (const auto* button : window.findChildren<QAbstractButton*>())
        if (button->isVisible() && !isInField(*button) && isCutOff(*button))
            found.push_back(toldOf(*button));
    return found;
}

// Buttons and fields that a person can reach.
inline std::vector<std::string> tooSmall(const QWidget& window) {
    std::vector<std::string> found;
    const auto look = [&](const QWidget* each) {
        const bool isInTable = qobject_cast<const QTableView*>(each->parentWidget()) != nullptr;
        if (each->isVisible() && !isInField(*each) && !isInTable &&
            (each->height() < desktop::targetSize || each->width() < desktop::targetSize))
            found.push_back(toldOf(*each));
    };
    for (const auto* button : window.findChildren<QAbstractButton*>()) look(button);
    for (const auto* field : window.findChildren<QLineEdit*>()) look(field);
    return found;
}

inline std::vector<std::string> unnamed(const QWidget& window) {
    std::vector<std::string> found;
    const auto look = [&](const QWidget* each) {
        if (each->isVisible() && !isInField(*each) && each->accessibleName().isEmpty() &&
            each->property("text").toString().isEmpty())
            found.push_back(toldOf(*each));
    };
    for (const auto* button : window.findChildren<QAbstractButton*>())
        if (qobject_cast<const QTableView*>(button->parentWidget()) == nullptr) look(button);
    for (const auto* field : window.findChildren<QLineEdit*>()) look(field);
    for (const auto* table : window.findChildren<QTableView*>()) look(table);
    return found;
}

}  // namespace support
