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
#include <utility>

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

// Sizes in px, colours by their name after an "@".
constexpr const char* styleSheet = R"(
QPushButton, QAbstractItemView { outline: none; }
QPushButton { min-height: 57px; min-width: 57px; padding: 0 14px; background: @button;
    color: @buttonText; border: 2px solid @line; border-radius: 6px; }
QPushButton[quiet="true"] { background: @window; }
QPushButton:checked { background: @mainButton; color: @mainText; border-color: @mainButton; }
QPushButton[main="true"] { background: @mainButton; color: @mainText; border-color: @mainButton;
    font-weight: 600; }
QPushButton:disabled { color: @quietText; }
QPushButton[main="true"]:disabled { color: @quietText; border-style: dashed;
    background: @surface; }
desktop--Sheet QPushButton:disabled, desktop--SetupPage QPushButton:disabled,
QPushButton[off="true"] { color: @quietText; border-style: dashed; background: @surface; }
QPushButton:focus { border: 3px solid @focus; }
QPushButton:checked:focus, QPushButton[main="true"]:focus { border: 3px solid @buttonText; }
QLineEdit { min-height: 57px; padding: 0 10px; background: @surface; border: 2px solid @line;
    border-radius: 6px; }
QPlainTextEdit, QTextBrowser { background: @surface; border: 2px solid @line; border-radius: 6px; }
QLineEdit:focus, QPlainTextEdit:focus, QTextBrowser:focus { border: 3px solid @focus; }
QLabel[banner="true"] { background: @past; color: @pastText; padding: 6px 10px;
    border-left: 6px solid @notReady; }
QLabel[framed="true"] { background: @surface; border: 2px solid @line; border-radius: 6px;
    padding: 18px; }
QHeaderView::section { background: @button; color: @buttonText; border: none;
    border-bottom: 1px solid @line; padding: 6px 8px; }
QTableView { gridline-color: @line; background: @surface; border: 1px solid @line; }
QTableView:focus { border: 3px solid @focus; }
QScrollBar:vertical { width: 22px; background: @window; }
QScrollBar:horizontal { height: 22px; background: @window; }
QScrollBar::handle { background: @line; border-radius: 5px; margin: 3px; }
QScrollBar::handle:vertical { min-height: 57px; }
QScrollBar::handle:horizontal { min-width: 57px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
)";
static_assert(targetSize == 57, "the style sheet has it in figures");

QString styleOf(const Colours& colours) {
    QString style = QString::fromLatin1(styleSheet);
    const std::pair<const char*, QColor> names[] = {
        {"@window", colours.window},         {"@surface", colours.surface},
        {"@quietText", colours.quietText},   {"@line", colours.line},
        {"@buttonText", colours.buttonText}, {"@button", colours.button},
        {"@mainButton", colours.mainButton}, {"@mainText", colours.mainButtonText},
        {"@focus", colours.focus},           {"@pastText", colours.pastText},
        {"@past", colours.past},             {"@notReady", colours.notReady}};
    for (const auto& [name, colour] : names) style.replace(QLatin1String(name), colour.name());
    return style;
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
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setPalette(paletteOf(colours()));
    QApplication::setFont(fontFor(TextRole::Plain));
    application.setStyleSheet(styleOf(colours()));
    resizeFonts(before, appearance.textPercent);
}

const Appearance& appearance() {
    return applied();
}

bool isTextLarge() {
    constexpr int largePercent = 150;
    return applied().textPercent >= largePercent;
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
