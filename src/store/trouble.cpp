// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of the codes of trouble and of breaks.
#include "store/trouble.h"

#include "store/verify_report.h"

namespace store {

std::string_view name(Trouble::Code code) {
    using enum Trouble::Code;
    switch (code) {
        case NotFound: return "not_found";
        case Exists: return "exists";
        case NotALogbook: return "not_a_logbook";
        case OtherSchema: return "newer_schema";
        case ReadOnly: return "read_only";
        case NotPermitted: return "not_permitted";
        case Busy: return "busy";
        case DiskFull: return "disk_full";
        case Damaged: return "damaged";
        case NeedsRecovery: return "needs_recovery";
        case NetworkFileSystem: return "network_file_system";
        case NoStation: return "no_station";
        case StationSet: return "station_set";
        case StationTaken: return "station_taken";
        case BadStation: return "bad_station";
        case Fork: return "fork";
        case Gap: return "gap";
        case ChainBroken: return "chain_broken";
        case FirstChanged: return "first_changed";
        case NotOwn: return "not_own";
        case Moved: return "moved";
        case LogMoved: return "log_moved";
        case NoRecord: return "no_record";
        case Cancelled: return "cancelled";
        case LeftAside: return "left_aside";
        case NotConfirmed: return "not_confirmed";
        case WriteNotConfirmed: return "write_not_confirmed";
        case Io: return "io";
    }
    return "io";
}

std::string_view name(Break::Reason reason) {
    using enum Break::Reason;
    switch (reason) {
        case WrongHash: return "wrong_hash";
        case Column: return "column";
        case NotARecord: return "not_a_record";
        case Gap: return "gap";
        case NotAsNoted: return "not_as_noted";
        case TailLost: return "tail_lost";
        case NotNoted: return "not_noted";
        case Order: return "order";
        case Unreadable: return "unreadable";
        case Hole: return "hole";
    }
    return "unreadable";
}

std::optional<Break::Reason> breakReasonOf(std::string_view text) {
    for (int i = 0; i <= static_cast<int>(Break::Reason::Hole); ++i) {
        const auto reason = static_cast<Break::Reason>(i);
        if (name(reason) == text) {
            return reason;
        }
    }
    return std::nullopt;
}

}  // namespace store
