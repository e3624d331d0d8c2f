// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which units the table shows and in which order: those that hold every typed word and have the
// verdict and the group that were chosen.
#pragma once

#include "desktop/fleet/fleet_model.h"

#include <QSortFilterProxyModel>
#include <QStringList>
#include <optional>

namespace desktop {

class FleetFilter : public QSortFilterProxyModel {
    Q_OBJECT
public:
    explicit FleetFilter(FleetModel* model, QObject* parent = nullptr);

    void findWords(const QString& typed);
    void showVerdict(std::optional<rules::Verdict> verdict);  // none: all
    void showGroup(const QString& key);                       // "": all

    [[nodiscard]] const FleetRow& rowAt(const QModelIndex& index) const;
    [[nodiscard]] QModelIndex indexOf(const QString& serial) const;  // invalid: not shown

protected:
    [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override;

private:
    FleetModel* m_model;
    QStringList m_words;
    std::optional<rules::Verdict> m_verdict;
    QString m_group;
};

}  // namespace desktop
