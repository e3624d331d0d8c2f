// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which units that are not ready can be so soonest: their ways to ready, worked out one after the
// other in a thread of its own, so that neither the screen nor a scan waits for them. Knows no
// widget.
#pragma once

#include "desktop/shell/background.h"
#include "desktop/shell/fleet_view.h"
#include "rules/plan.h"

#include <QObject>
#include <map>
#include <string>
#include <vector>

namespace desktop {

class SoonestReady : public QObject {
    Q_OBJECT
public:
    explicit SoonestReady(QObject* parent = nullptr);

    // What was begun on an older fleet is called off, unless no entry was made since and that fleet
    // is younger than a minute.
    void show(SharedFleetView fleet);
    void clear();

    struct Way {
        QString serial, where;
        logbook::Instant readyAt{};
        bool exact = true;
    };
    // Of the units worked out so far, the soonest first.
    [[nodiscard]] std::vector<Way> soonest(std::size_t most) const;
    [[nodiscard]] int waiting() const { return static_cast<int>(m_waiting.size()); }

Q_SIGNALS:
    void changed();

private:
    struct Known {
        rules::Assessment found;  // what it was worked out for
        std::optional<Way> way;   // none: there is no way
    };

    [[nodiscard]] bool goesOn(const FleetView& fleet) const;
    void keepWhatHolds();
    void queueUnits();
    void workOutNext();
    void take(int round, std::size_t row, const rules::Plan& plan);

    SharedFleetView m_fleet;
    std::map<std::string, Known> m_known;  // by serial
    std::vector<std::size_t> m_waiting;    // rows of the board, the next one last
    int m_round = 0;                       // of what comes from an earlier one nothing is taken
    bool m_isWorking = false;
    Background m_work{Background::Pace::GivesWay};  // last: it ends before what it uses
};

}  // namespace desktop
