// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of the anomalies, as a month lists them.
#include "rules/fold.h"

namespace rules {

std::string_view name(AnomalyCode code) {
    switch (code) {
        case AnomalyCode::ClockBack: return "clock_back";
        case AnomalyCode::PartMoved: return "part_moved";
        case AnomalyCode::ResumedUnready: return "resumed_unready";
        case AnomalyCode::Unauthorised: return "unauthorised";
        case AnomalyCode::Unenrolled: return "unenrolled";
        case AnomalyCode::UnknownKey: return "unknown_key";
        case AnomalyCode::UseEndMissing: return "use_end_missing";
        case AnomalyCode::WaiverRefused: return "waiver_refused";
    }
    return "";
}

}  // namespace rules
