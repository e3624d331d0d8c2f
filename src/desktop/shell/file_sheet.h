// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Choosing a file or a folder, as a sheet: rows that a gloved finger hits, in the window's look.
#pragma once

#include "desktop/shell/sheet.h"
#include "desktop/shell/workplace.h"

#include <QDateTime>
#include <QStringList>
#include <vector>

class QLabel;
class QPushButton;

namespace desktop {

class FileSheet : public Sheet {
    Q_OBJECT
public:
    struct Wanted {
        QString title;
        QString start;         // a folder, or a file in it; the home folder where it is not there
        QStringList patterns;  // "*.csv"; none: a folder is chosen
    };
    FileSheet(Workplace& workplace, const Wanted& wanted, QWidget* parent = nullptr);

Q_SIGNALS:
    void chosen(const QString& path);

private:
    struct Row {
        QString name, path;
        QDateTime changed;  // of a file; none: a folder
    };
    struct Folder {
        QString path, above;  // `above` is "" where there is none
        std::vector<Row> rows;
    };
    [[nodiscard]] static Folder folderOf(const QString& start, const QStringList& patterns);

    // Read beside the thread that paints: a folder may lie across a slow network.
    void choose(const QString& path);
    void open(const QString& start);
    void show(const Folder& folder);
    void addRow(const QString& what, const QString& more, const QString& path, bool isFolder);

    Workplace& m_workplace;
    QStringList m_patterns;
    QString m_folder;  // "" until the first is read
    int m_round = 0;   // of what was opened last
    QLabel* m_where = nullptr;
    QWidget* m_list = nullptr;
    QLabel* m_none = nullptr;       // that nothing here could be chosen
    QPushButton* m_here = nullptr;  // where a folder is chosen
};

}  // namespace desktop
