// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units that are ready, with their places, while no unit is open: nobody has to sign in to see
// them, and a patient is never kept waiting for it. Writes nothing itself.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QElapsedTimer>
#include <QLayoutItem>
#include <QWidget>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

class QLabel;
class QPushButton;
class QGridLayout;
class QVBoxLayout;

namespace desktop {

class ReadyList : public QWidget {
    Q_OBJECT
public:
    explicit ReadyList(const words::Words& words, QWidget* parent = nullptr);
    using QWidget::show;
    void show(const SharedFleetView& fleet);
    // Fonts are others now.
    void restyle();
    // That the list is old, and how old; "" if it is not.
    void showAge(const QString& sentence);

    // A start of that unit is being kept: until it is told what came of it, it cannot be started
    // here again. With the record of the start it is no longer offered, also by a fleet that was
    // read before it.
    void beginStart(const std::string& device);
    void endStart(const std::string& device, const std::optional<logbook::RecordName>& start);

Q_SIGNALS:
    void unitWanted(const QString& serial);
    void emergencyWanted(const QString& serial);
    void enrolmentWanted();

protected:
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    // Those of one patient group, beside each other as far as there is room.
    struct Group {
        std::string label;
        QGridLayout* grid = nullptr;
        std::vector<QWidget*> units{};
    };
    struct Unit {
        report::BoardLine line;
        QWidget* widget = nullptr;
        QPushButton* open = nullptr;
        QPushButton* start = nullptr;
    };
    using Units = std::map<std::string, Unit>;  // by serial

    [[nodiscard]] QWidget* makeNoUnits();
    void showUnits();
    void takeItems();
    void takeOut();
    void showStarting(const std::string& device, QPushButton& start) const;
    void addGroup(const std::string& label);
    void addUnit(const FleetView& fleet, std::size_t row, Units& before);
    [[nodiscard]] Unit makeUnit(const report::BoardLine& line, const QString& serial);
    void orderTabs(const std::vector<std::size_t>& rows) const;
    [[nodiscard]] std::vector<std::size_t> offered(const FleetView& fleet);
    void arrange();

    // Whole, above and below the list; where that would leave no room for the list, they are at its
    // end, and of the caution the short form stays below.
    void placeTexts();
    [[nodiscard]] bool hasRoomFor(int textHeight) const;
    [[nodiscard]] int cautionHeight();
    // Whether the list has just closed up over a unit that was started: a press that goes on is
    // about that one, and not about what has come under the finger.
    [[nodiscard]] bool hasJustMoved() const;

    QElapsedTimer m_sinceStart;

    const words::Words& m_words;
    QLabel* m_head = nullptr;
    QWidget* m_noUnits = nullptr;  // that there are none, and the press to enrol the first
    QLabel* m_atEachStart = nullptr;  // what all of them wait for at the bedside, told once
    QLabel* m_age = nullptr;
    QLabel* m_caution = nullptr;
    QLabel* m_cautionAtEnd = nullptr;
    QLabel* m_stillAtEnd = nullptr;  // the same as at each start
    QString m_cautionText, m_cautionShort;
    int m_cautionHeight = 0;    // of all of it
    int m_cautionMeasured = 0;  // at that width; 0: not by the fonts of now
    QVBoxLayout* m_list = nullptr;
    std::vector<Group> m_groups;
    // Of units that have no place just now: what is known of their sizes is kept with them.
    std::map<const QWidget*, std::unique_ptr<QLayoutItem>> m_items;
    int m_columns = 0;
    std::optional<std::vector<report::BoardLine>> m_shown;
    SharedFleetView m_fleet;
    bool m_isOld = false;  // it could not be seen when the fleet was read
    Units m_units;
    std::set<std::string> m_starting;                      // units; it is not told what came of it
    std::map<std::string, logbook::RecordName> m_started;  // units, until the fleet knows
};

}  // namespace desktop
