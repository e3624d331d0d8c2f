// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the unit that the panels show; see unit_panel.h.
#include "desktop/bedside/unit_panel.h"

#include "desktop/shell/large_value.h"
#include "desktop/shell/unrecorded.h"
#include "station/units_log.h"

#include <utility>

namespace desktop {

station::Result<SharedUnitView> readUnitView(const SharedFleetView& fleet,
                                             const station::Surroundings& surroundings,
                                             const station::LogbookFile& file,
                                             const std::string& device) {
    return station::withLogOf(surroundings, file, *fleet->standing, device)
        .and_then([&](const station::WholeStanding& standing) {
            return station::bedside(surroundings, standing, device)
                .map([&](report::Bedside&& bedside) {
                    tellUnrecorded(bedside, *fleet, surroundings.words);
                    const auto view = makeLarge<UnitView>();
                    *view = {fleet, std::move(bedside), standing.lookup};
                    return SharedUnitView(view);
                });
        });
}

}  // namespace desktop
