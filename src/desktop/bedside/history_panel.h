// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit: each opens its record, from where it is struck through or moved; and a
// look back to any instant.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "report/history.h"
#include "station/history_log.h"

class QLabel;
class QListView;

namespace desktop {

class HistoryModel;

class HistoryPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit HistoryPanel(PanelTools tools, QWidget* parent = nullptr);
    using QWidget::show;
    void show(const SharedUnitView& unit) override;
    [[nodiscard]] bool asksWhen() const override { return false; }

protected:
    void showEvent(QShowEvent* event) override;

private:
    QWidget* makeFilters();
    void read();
    void take(const station::Result<std::shared_ptr<const report::History>>& history);
    void sayUnread(const station::Problem& problem);
    void openRecord(const QModelIndex& index);
    void lookBack();

    SharedUnitView m_unit;
    bool m_isUnread = false;  // it has not been read for that view
    bool m_isOther = false;   // since another unit was shown
    // Only the thread that reads looks into it.
    std::shared_ptr<station::HistoryLog> m_log = std::make_shared<station::HistoryLog>();
    HistoryModel* m_model = nullptr;
    QListView* m_list = nullptr;
    QLabel* m_older = nullptr;
};

}  // namespace desktop
