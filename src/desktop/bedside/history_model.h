// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit as rows, all or those of one sort. Knows no widget.
#pragma once

#include "report/history.h"

#include <QAbstractListModel>
#include <memory>
#include <optional>
#include <vector>

namespace desktop {

class HistoryModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role {
        SaysRole = Qt::UserRole,  // what the entry says
        WhenRole,                 // day and clock
        WhoRole,                  // who did it, and that it was entered later
        StrikeRole,               // "" where it stands
        UncountedRole,            // that a check does not count; "" where it does
    };

    using QAbstractListModel::QAbstractListModel;

    // The same entries change nothing.
    void show(std::shared_ptr<const report::History> history);
    void showSort(std::optional<report::EntrySort> sort);  // none: all

    [[nodiscard]] const report::HistoryLine& lineAt(int row) const;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    // The display role is all of a row as one text, for who cannot see the columns.
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    void choose();

    std::shared_ptr<const report::History> m_history;
    std::optional<report::EntrySort> m_sort;
    std::vector<std::size_t> m_rows;  // indexes into the lines
};

}  // namespace desktop
