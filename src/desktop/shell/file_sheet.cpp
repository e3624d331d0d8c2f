// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Choosing a file; see file_sheet.h.
#include "desktop/shell/file_sheet.h"

#include "desktop/shell/press_row.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"

#include <QLabel>
#include <QLocale>
#include <QVBoxLayout>

namespace desktop {

FileSheet::FileSheet(const Wanted& wanted, QWidget* parent)
    : Sheet(wanted.title, parent), m_patterns(wanted.patterns) {
    m_where = textLabel({});
    content()->addWidget(m_where);
    m_list = new QWidget;
    auto* rows = new QVBoxLayout(m_list);
    rows->setContentsMargins(0, 0, 0, 0);
    content()->addWidget(m_list);
    content()->addStretch();
    auto* back = new QPushButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
    if (m_patterns.isEmpty()) {
        auto* here = new QPushButton(tr("This folder"));
        here->setProperty("main", true);
        connect(here, &QPushButton::clicked, this, [this] {
            Q_EMIT chosen(m_folder.absolutePath());
            close();
        });
        foot()->addWidget(here);
    }
    const QFileInfo start(wanted.start);
    const QDir folder(start.isDir() ? start.absoluteFilePath() : start.absolutePath());
    show(wanted.start.isEmpty() || !folder.exists() ? QDir::home() : folder);
}

void FileSheet::show(const QDir& folder) {
    m_folder = folder;
    m_where->setText(tr("In %1").arg(folder.absolutePath()));
    for (auto* row : m_list->findChildren<PressRow*>()) {
        row->hide();
        row->deleteLater();
    }
    auto above = folder;
    if (above.cdUp()) addRow(tr("Up"), above.absolutePath(), above.absolutePath(), true);
    constexpr auto order = QDir::Name | QDir::IgnoreCase;
    for (const auto& each :
         folder.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::Readable, order))
        addRow(each.fileName(), tr("Folder"), each.absoluteFilePath(), true);
    if (m_patterns.isEmpty()) return;
    for (const auto& each : folder.entryInfoList(m_patterns, QDir::Files, order))
        addRow(each.fileName(), QLocale().toString(each.lastModified(), QLocale::ShortFormat),
               each.absoluteFilePath(), false);
}

void FileSheet::addRow(const QString& what, const QString& more, const QString& path,
                       bool isFolder) {
    auto* row = new PressRow;
    row->say(what, more);
    connect(row, &QPushButton::clicked, this, [this, path, isFolder] {
        if (isFolder) {
            show(QDir(path));
        } else {
            Q_EMIT chosen(path);
            close();
        }
    });
    m_list->layout()->addWidget(row);
}

}  // namespace desktop
