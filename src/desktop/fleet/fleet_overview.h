// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the charge therapist sees first: ready against par, the next lapses, the units soonest
// ready, how old the view is and what in it is in doubt. Works nothing out.
#pragma once

#include "desktop/fleet/fleet_rows.h"
#include "desktop/fleet/soonest_ready.h"

#include <QWidget>
#include <array>
#include <vector>

class QLabel;
class QVBoxLayout;
class QGridLayout;

namespace desktop {

class PressRow;

class FleetOverview : public QWidget {
    Q_OBJECT
public:
    explicit FleetOverview(const words::Words& words, QWidget* parent = nullptr);

    // What is told as time goes by is told anew with each call.
    struct Shown {
        const FleetView& view;
        const FleetTable& table;
        const SoonestReady& soonest;
        logbook::Instant now{};
        QString readOnly{};  // that nothing can be entered; "" it can
    };
    void show(const Shown& shown);
    void showNothing(const QString& why);
    void chooseGroup(const QString& key);  // marks it; "": none

Q_SIGNALS:
    void groupPressed(const QString& key);
    void unitPressed(const QString& serial);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    // A title, and rows that are pressed below it.
    struct Panel {
        QWidget* box = nullptr;
        QLabel* head = nullptr;
        QLayout* rows = nullptr;
        QLabel* remark = nullptr;
        std::vector<PressRow*> presses{};
    };
    Panel addPanel(const QString& title, QLayout* rows);
    // Side by side; where large text leaves no room for that, the groups above the other two.
    void arrange();
    PressRow* rowOf(Panel& panel, std::size_t index);
    void hideFrom(Panel& panel, std::size_t index);
    void showAge(const Shown& shown);
    void showDoubts(const Shown& shown);
    void showGroups(const FleetFacts& facts);
    void showLapses(const Shown& shown);
    void showSoonest(const Shown& shown);
    [[nodiscard]] QString gap() const;
    [[nodiscard]] QString ahead(const Shown& shown, logbook::Instant at, bool whole) const;

    const words::Words& m_words;
    QLabel* m_caution = nullptr;  // below what is due, where room is scarce
    QLabel* m_age = nullptr;
    QLabel* m_doubts = nullptr;
    QWidget* m_panels = nullptr;
    QGridLayout* m_grid = nullptr;
    bool m_isNarrow = false;
    Panel m_groups, m_lapses, m_soonest;
    std::vector<QString> m_groupKeys, m_lapsing, m_readying;  // of the rows, by their place
    QString m_chosen;
};

}  // namespace desktop
