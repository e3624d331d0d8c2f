// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help; see help_sheet.h.
#include "desktop/shell/help_sheet.h"

#include "desktop/shell/shortcuts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"

#include <QCoreApplication>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace desktop {

namespace {

QLabel* makeText(const QString& text, TextRole role = TextRole::Plain) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setFont(fontFor(role));
    return label;
}

}  // namespace

HelpSheet::HelpSheet(DeskTools tools, QWidget* parent)
    : Sheet(tr("Keys, settings, about"), parent), m_tools(tools) {
    addLook();
    addKeys();
    addAbout();
    content()->addStretch();
    auto* back = new QPushButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
}

void HelpSheet::addLook() {
    content()->addWidget(makeText(tr("Text size and theme, for now"), TextRole::Strong));
    auto* row = new QHBoxLayout;
    row->setSpacing(targetGap);
    const bool isDark = appearance().theme == Theme::Dark;
    for (const int percent : {100, 125, 150, 200}) {
        auto* button = new QPushButton(tr("%1 %").arg(percent));
        button->setAccessibleName(tr("Text size %1 %").arg(percent));
        connect(button, &QPushButton::clicked, this,
                [this, percent, isDark] { Q_EMIT appearanceWanted(percent, isDark); });
        row->addWidget(button);
    }
    content()->addLayout(row);
    auto* themes = new QHBoxLayout;
    themes->setSpacing(targetGap);
    for (const bool dark : {false, true}) {
        auto* button = new QPushButton(dark ? tr("Dark") : tr("Light"));
        connect(button, &QPushButton::clicked, this, [this, dark] {
            Q_EMIT appearanceWanted(appearance().textPercent, dark);
        });
        themes->addWidget(button);
    }
    content()->addLayout(themes);
}

void HelpSheet::addKeys() {
    content()->addWidget(makeText(tr("Keys"), TextRole::Strong));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(24);
    grid->setColumnStretch(1, 1);
    int row = 0;
    const auto add = [&](const QString& keys, const QString& says) {
        grid->addWidget(makeText(keys), row, 0);
        grid->addWidget(makeText(says), row, 1);
        ++row;
    };
    for (const auto& each : shortcuts())
        add(each.keys.toString(QKeySequence::NativeText), each.says);
    add(tr("Tab, Shift+Tab"), tr("To the next or the one before"));
    add(tr("Space"), tr("Press the button that is marked"));
    add(tr("Esc"), tr("Back, keep nothing"));
    content()->addLayout(grid);
}

void HelpSheet::addAbout() {
    content()->addWidget(makeText(tr("About"), TextRole::Strong));
    content()->addWidget(
        makeText(tr("Airmuster %1, free software under the GPL, version 3 or later.")
                     .arg(QCoreApplication::applicationVersion())));
    content()->addWidget(
        makeText(tr("Logbook: %1").arg(shownText(m_tools.workplace.file().path.string()))));
    content()->addWidget(makeText(shownText(m_tools.workplace.words().say("caution.full"))));
}

}  // namespace desktop
