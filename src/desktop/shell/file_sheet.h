// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Choosing a file or a folder, as a sheet: rows that a gloved finger hits, in the window's look.
#pragma once

#include "desktop/shell/sheet.h"

#include <QDir>
#include <QStringList>

class QLabel;
class QVBoxLayout;

namespace desktop {

class FileSheet : public Sheet {
    Q_OBJECT
public:
    struct Wanted {
        QString title;
        QString start;         // a folder, or a file in it; the home folder where it is not there
        QStringList patterns;  // "*.csv"; none: a folder is chosen
    };
    explicit FileSheet(const Wanted& wanted, QWidget* parent = nullptr);

Q_SIGNALS:
    void chosen(const QString& path);

private:
    void show(const QDir& folder);
    void addRow(const QString& what, const QString& more, const QString& path, bool isFolder);

    QStringList m_patterns;
    QDir m_folder;
    QLabel* m_where = nullptr;
    QWidget* m_list = nullptr;
};

}  // namespace desktop
