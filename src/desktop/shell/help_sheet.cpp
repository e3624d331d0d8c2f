// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help; see help_sheet.h.
#include "desktop/shell/help_sheet.h"

#include "desktop/shell/shortcuts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QCoreApplication>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <filesystem>

namespace desktop {

HelpSheet::HelpSheet(DeskTools tools, QWidget* parent)
    : Sheet(tr("Keys, settings, about"), parent), m_tools(tools) {
    addLook();
    addKeys();
    addAbout();
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
}

void HelpSheet::addLook() {
    content()->addWidget(textLabel(tr("Text size and theme, for now"), TextRole::Strong));
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
    content()->addWidget(textLabel(tr("Keys"), TextRole::Strong));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(24);
    grid->setColumnStretch(1, 1);
    int row = 0;
    const auto add = [&](const QString& keys, const QString& says) {
        grid->addWidget(textLabel(keys), row, 0);
        grid->addWidget(textLabel(says), row, 1);
        ++row;
    };
    const auto addHead = [&](const QString& says) {
        grid->addWidget(textLabel(says, TextRole::Quiet), row++, 0, 1, 2);
    };
    const std::pair<Where, QString> places[] = {{Where::Everywhere, tr("Everywhere")},
                                                {Where::Bedside, tr("At the Bedside desk")},
                                                {Where::Fleet, tr("At the Fleet desk")}};
    for (const auto& [where, says] : places) {
        addHead(says);
        for (const auto& each : shortcuts())
            if (each.where == where) add(each.keys.toString(QKeySequence::NativeText), each.says);
    }
    addHead(tr("In every list, form and question"));
    add(tr("Tab, Shift+Tab"), tr("To the next or the one before"));
    add(tr("Space"), tr("Press the button that is marked"));
    add(tr("Alt and a letter"), tr("The button or field in which that letter is underlined"));
    add(tr("Arrows, Enter"), tr("Along a list or a table, and open what is marked"));
    add(tr("Esc"), tr("Back, keep nothing"));
    content()->addLayout(grid);
}

void HelpSheet::addAbout() {
    content()->addWidget(textLabel(tr("About"), TextRole::Strong));
    content()->addWidget(
        textLabel(tr("Airmuster %1, free software under the GPL, version 3 or later.")
                     .arg(QCoreApplication::applicationVersion())));
    const auto path = std::filesystem::absolute(m_tools.workplace.file().path);
    content()->addWidget(textLabel(tr("Logbook: %1, in the folder %2")
                                       .arg(shownText(path.filename().string()),
                                            shownText(path.parent_path().string()))));
    content()->addWidget(emphasisLabel(shownText(m_tools.workplace.words().say("caution.full"))));
}

}  // namespace desktop
