// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Palette, fonts and style; see appearance.h.
#include "desktop/theme/appearance.h"

#include <QApplication>
#include <QPalette>
#include <QStyleFactory>
#include <QString>
#include <QWidget>

namespace desktop {

namespace {

Appearance& applied() {
    static Appearance appearance;
    return appearance;
}

QPalette paletteOf(const Colours& colours) {
    QPalette palette;
    palette.setColor(QPalette::Window, colours.window);
    palette.setColor(QPalette::WindowText, colours.text);
    palette.setColor(QPalette::Base, colours.surface);
    palette.setColor(QPalette::AlternateBase, colours.window);
    palette.setColor(QPalette::Text, colours.text);
    palette.setColor(QPalette::PlaceholderText, colours.quietText);
    palette.setColor(QPalette::Button, colours.button);
    palette.setColor(QPalette::ButtonText, colours.buttonText);
    palette.setColor(QPalette::Highlight, colours.mainButton);
    palette.setColor(QPalette::HighlightedText, colours.mainButtonText);
    palette.setColor(QPalette::ToolTipBase, colours.surface);
    palette.setColor(QPalette::ToolTipText, colours.text);
    palette.setColor(QPalette::Link, colours.focus);
    palette.setColor(QPalette::Mid, colours.line);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, colours.quietText);
    return palette;
}

QString styleOf(const Colours& colours) {
    return QStringLiteral(
               "QPushButton { min-height: %1px; min-width: %1px; padding: 0 14px;"
               " background: %2; color: %3; border: 2px solid %4; border-radius: 6px; }"
               "QPushButton:checked { background: %5; color: %6; border-color: %5; }"
               "QPushButton[main=\"true\"] { background: %5; color: %6; border-color: %5;"
               " font-weight: 600; }"
               "QPushButton:disabled { color: %7; border-style: dashed; background: %8; }"
               "QPushButton[off=\"true\"] { color: %7; border-style: dashed; background: %8; }"
               "QPushButton:focus { border: 3px solid %9; }"
               "QPushButton:checked:focus, QPushButton[main=\"true\"]:focus {"
               " border: 3px solid %3; }"
               "QLineEdit, QComboBox, QDateEdit, QTimeEdit { min-height: %1px; padding: 0 10px;"
               " background: %8; border: 2px solid %4; border-radius: 6px; }"
               "QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus { border: 3px solid %9; }"
               "QPlainTextEdit { background: %8; border: 2px solid %4; border-radius: 6px; }"
               "QHeaderView::section { background: %2; color: %3; border: none;"
               " border-bottom: 1px solid %4; padding: 6px 8px; }"
               "QTableView { gridline-color: %4; background: %8; border: 1px solid %4; }")
        .arg(targetSize)
        .arg(colours.button.name(), colours.buttonText.name(), colours.line.name(),
             colours.mainButton.name(), colours.mainButtonText.name(), colours.quietText.name(),
             colours.surface.name(), colours.focus.name());
}

// Points at 100 %.
double pointsOf(TextRole role) {
    switch (role) {
        case TextRole::Plain: return 11;
        case TextRole::Quiet: return 10;
        case TextRole::Strong: return 12;
        case TextRole::Large: return 15;
        case TextRole::Title: return 18;
    }
    return 11;
}

// Fonts that widgets set themselves do not follow the application's.
void resizeFonts(int before, int after) {
    if (before == after) return;
    for (auto* widget : QApplication::allWidgets()) {
        if (!widget->testAttribute(Qt::WA_SetFont)) continue;
        auto font = widget->font();
        font.setPointSizeF(font.pointSizeF() * after / before);
        widget->setFont(font);
    }
}

}  // namespace

void apply(QApplication& application, const Appearance& appearance) {
    const int before = applied().textPercent;
    applied() = appearance;
    resizeFonts(before, appearance.textPercent);
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setPalette(paletteOf(colours()));
    QApplication::setFont(fontFor(TextRole::Plain));
    application.setStyleSheet(styleOf(colours()));
}

const Appearance& appearance() {
    return applied();
}

const Colours& colours() {
    return coloursOf(applied().theme);
}

QFont fontFor(TextRole role) {
    // Its figures are of one width, and it is on every system that the program is packaged for.
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPointSizeF(pointsOf(role) * applied().textPercent / 100.0);
    if (role == TextRole::Strong || role == TextRole::Title) font.setWeight(QFont::DemiBold);
    return font;
}

}  // namespace desktop
