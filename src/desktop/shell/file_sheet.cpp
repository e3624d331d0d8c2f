// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Choosing a file; see file_sheet.h.
#include "desktop/shell/file_sheet.h"

#include "desktop/shell/press_row.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QDir>
#include <QFileInfo>
#include <QLabel>
#include <QLocale>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

// Of the workplace: the folder in which something was chosen last, while the window is open.
constexpr auto lastFolder = "lastFolder";

}  // namespace

FileSheet::FileSheet(Workplace& workplace, const Wanted& wanted, QWidget* parent)
    : Sheet(wanted.title, parent), m_workplace(workplace), m_patterns(wanted.patterns) {
    m_where = textLabel({});
    content()->addWidget(m_where);
    m_list = new QWidget;
    auto* rows = new QVBoxLayout(m_list);
    rows->setContentsMargins(0, 0, 0, 0);
    content()->addWidget(m_list);
    m_none = textLabel({});
    m_none->hide();
    content()->addWidget(m_none);
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
    if (m_patterns.isEmpty()) {
        m_here = new WrappedButton(tr("This folder"));
        m_here->setProperty("main", true);
        connect(m_here, &QPushButton::clicked, this, [this] {
            choose(m_folder);
        });
        foot()->addWidget(m_here);
    }
    open(wanted.start.isEmpty() ? workplace.property(lastFolder).toString() : wanted.start);
}

void FileSheet::choose(const QString& path) {
    m_workplace.setProperty(lastFolder, m_folder);
    Q_EMIT chosen(path);
    close();
}

FileSheet::Folder FileSheet::folderOf(const QString& start, const QStringList& patterns) {
    const QFileInfo named(start);
    QDir folder(named.isDir() ? named.absoluteFilePath() : named.absolutePath());
    if (start.isEmpty() || !folder.exists()) folder = QDir::home();
    Folder found{folder.absolutePath(), {}, {}};
    auto above = folder;
    if (above.cdUp()) found.above = above.absolutePath();
    constexpr auto order = QDir::Name | QDir::IgnoreCase;
    for (const auto& each :
         folder.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::Readable, order))
        found.rows.push_back({each.fileName(), each.absoluteFilePath(), {}});
    if (patterns.isEmpty()) return found;
    for (const auto& each : folder.entryInfoList(patterns, QDir::Files, order))
        found.rows.push_back({each.fileName(), each.absoluteFilePath(), each.lastModified()});
    return found;
}

void FileSheet::open(const QString& start) {
    const int round = ++m_round;
    m_where->setText(tr("Reading the folder."));
    m_list->setEnabled(false);
    if (m_here != nullptr) m_here->setEnabled(false);
    m_workplace.runErrand(
        [start, patterns = m_patterns] { return folderOf(start, patterns); },
        this, [this, round](const Folder& folder) {
            if (round == m_round) show(folder);
        });
}

void FileSheet::show(const Folder& folder) {
    m_folder = folder.path;
    m_where->setText(tr("In %1").arg(folder.path));
    m_list->setEnabled(true);
    if (m_here != nullptr) m_here->setEnabled(true);
    for (auto* row : m_list->findChildren<PressRow*>()) {
        row->hide();
        row->deleteLater();
    }
    if (!folder.above.isEmpty()) addRow(tr("Up"), folder.above, folder.above, true);
    for (const auto& row : folder.rows) {
        const bool isFolder = row.changed.isNull();
        addRow(row.name,
               isFolder ? tr("Folder") : QLocale().toString(row.changed, QLocale::ShortFormat),
               row.path, isFolder);
    }
    const bool isBare = std::ranges::all_of(
        folder.rows, [](const auto& row) { return row.changed.isNull(); });
    m_none->setVisible(isBare && !m_patterns.isEmpty());
    m_none->setText(tr("In this folder there is no file that ends in %1.")
                        .arg(m_patterns.join(QStringLiteral(", ")).remove(QLatin1Char('*'))));
    showTop();
}

void FileSheet::addRow(const QString& what, const QString& more, const QString& path,
                       bool isFolder) {
    auto* row = new PressRow;
    row->say(what, more);
    connect(row, &QPushButton::clicked, this, [this, path, isFolder] {
        if (isFolder) {
            open(path);
        } else {
            choose(path);
        }
    });
    m_list->layout()->addWidget(row);
}

}  // namespace desktop
