// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the parts of the bedside desk share: the unit as it was last read, and how each of them is
// given it. Knows no widget of theirs.
#pragma once

#include "desktop/shell/desk.h"
#include "report/bedside.h"
#include "station/bedside.h"

#include <memory>
#include <optional>
#include <string>

namespace desktop {

// Made beside the thread that paints, never changed after that.
struct UnitView {
    SharedFleetView fleet;
    report::Bedside bedside;
    words::RecordLookup lookup;  // in what was read for it, without a wait as a rule
};
using SharedUnitView = std::shared_ptr<const UnitView>;

// Beside the thread that paints: the unit by that fleet; a problem if it is not one of it.
[[nodiscard]] station::Result<SharedUnitView> readUnitView(
    const SharedFleetView& fleet, const station::Surroundings& surroundings,
    const station::LogbookFile& file, const std::string& device);

// When it was done and by whom, as the strip below the panels says; what all entries share.
class EntryStrip;

struct PanelTools {
    DeskTools desk;
    EntryStrip& strip;
};

class UnitPanel : public QWidget {
    Q_OBJECT
public:
    explicit UnitPanel(PanelTools tools, QWidget* parent = nullptr)
        : QWidget(parent), m_tools(tools) {}

    // The unit, read again: another one, or the same some seconds later. What is being typed stays.
    virtual void show(const SharedUnitView& unit) = 0;

    // An entry was kept, and the unit will be read again: what is shown of how it stands is old.
    virtual void await() {}

    // Whether what is done here asks when and by whom.
    [[nodiscard]] virtual bool asksWhen() const { return true; }

    // Something is being entered that is not kept yet: another unit is not opened without a
    // question.
    [[nodiscard]] virtual bool isOpen() const { return false; }
    // Puts the focus on what is done next; whether there is such a thing.
    virtual bool focusWork() { return false; }
    // What of it cannot be put aside is given up.
    virtual void giveUp() {}

Q_SIGNALS:
    // A code was scanned over a sheet of this panel, and the sheet cannot take it.
    void codeRead(const QString& text);
    // Another unit is to be opened: what was kept here goes on there.
    void unitWanted(const QString& serial);

protected:
    [[nodiscard]] Workplace& workplace() const { return m_tools.desk.workplace; }
    [[nodiscard]] SheetStack& sheets() const { return m_tools.desk.sheets; }
    [[nodiscard]] EntryStrip& strip() const { return m_tools.strip; }
    [[nodiscard]] const PanelTools& tools() const { return m_tools; }

private:
    PanelTools m_tools;
};

}  // namespace desktop
