// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is fitted in each position, and how that is changed. A scanned part, a lot or a model of
// parts is offered the positions that it fits.
#pragma once

#include "desktop/bedside/sheet_panel.h"

#include <string>
#include <vector>

class QVBoxLayout;

namespace desktop {

class SetupRow;

class SetupPanel : public SheetPanel {
    Q_OBJECT
public:
    explicit SetupPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;

    // What was scanned, if it is of parts, wherever on the desk; whether it is taken.
    bool takeFound(const station::Found& found);
    // Opens the sheet that fits a part there, on the unit that is shown.
    void fit(const std::string& position);

private:
    void makeRows();
    void fitProposed(const report::PartProposal& proposal, const std::string& code);
    void putBack(const std::string& position);
    void showPuttingBack();
    void remove(const std::string& position);
    void reprocess(const std::string& position);
    [[nodiscard]] const report::SetupPosition* positionOf(const std::string& key) const;

    SharedUnitView m_unit;
    QVBoxLayout* m_layout = nullptr;
    std::vector<std::string> m_keys;  // of the rows
    std::vector<SetupRow*> m_rows;
    // From the press until the unit is read with the part in its place.
    struct PuttingBack {
        std::string device, position;
        std::optional<logbook::RecordName> kept;
    };
    std::vector<PuttingBack> m_puttingBack;
};

}  // namespace desktop
