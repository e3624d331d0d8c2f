// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units from a fleet list; see units_page.h.
#include "desktop/first_start/units_page.h"

#include "desktop/first_start/fleet_list_sheet.h"
#include "desktop/shell/file_sheet.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"

namespace desktop {

void UnitsPage::chooseList() {
    auto* sheet = new FileSheet(m_tools.workplace,
                                {tr("Which fleet list?"), {}, {QStringLiteral("*.csv")}});
    connect(sheet, &FileSheet::chosen, this,
            [this](const QString& path) { showList(path, false); });
    m_tools.sheets.put(sheet);
}

void UnitsPage::showList(const QString& path, bool namesNoPatient) {
    m_tools.workplace.read(
        [list = plainText(path), namesNoPatient](const auto& surroundings, const auto& file) {
            return station::previewFleet(surroundings, file, {list, namesNoPatient});
        },
        this, [this, path](const station::Result<station::FleetPreview>& preview) {
            if (!preview) {
                Q_EMIT troubled(problemText(preview.error()));
                return;
            }
            auto* sheet = new FleetListSheet(*preview);
            connect(sheet, &FleetListSheet::taken, this,
                    [this, preview = *preview] { takeList(preview); });
            connect(sheet, &FleetListSheet::namesNoPatient, this,
                    [this, path] { showList(path, true); });
            m_tools.sheets.put(sheet);
        });
}

void UnitsPage::takeList(const station::FleetPreview& preview) {
    m_tools.workplace.asWriter(true, this, [this, preview](const station::Writer& writer) {
        takeListBy(writer, preview);
    });
}

void UnitsPage::takeListBy(const station::Writer& writer, const station::FleetPreview& preview) {
    setKeeping(true);
    m_tools.workplace.write(
        [preview, writer](const auto& surroundings, const auto& file) {
            return station::takeFleet(surroundings, file, {writer, preview});
        },
        this, [this, preview](const station::Result<station::FleetTaken>& taken) {
            if (!taken) {
                refuse(shownText(taken.error().notice.text()));
                return;
            }
            setKeeping(false);
            QStringList serials;
            for (const auto& good : preview.good) serials << shownText(good.row.serial);
            tellAdded(serials);
        });
}

}  // namespace desktop
