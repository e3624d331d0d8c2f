// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The example rulebooks, built in; see shipped_rulebooks.h.
#include "station/shipped_rulebooks.h"

#include "airmuster_station_embedded.h"

namespace station {

std::vector<ShippedRulebook> shippedRulebooks() {
    return {{"adult_intensive_care", embedded::rulebooks_adult_intensive_care},
            {"neonatal_unit", embedded::rulebooks_neonatal_unit},
            {"transport", embedded::rulebooks_transport}};
}

}  // namespace station
