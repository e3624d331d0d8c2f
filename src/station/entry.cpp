// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing records; see entry.h.
#include "station/entry.h"

#include "station/damage.h"
#include "station/own_records.h"
#include "station/tidied.h"
#include "station/written.h"

#include <algorithm>
#include <utility>

namespace station {

using logbook::Kind;

namespace {

// Whatever the log says of the units.
bool mustNotWait(const std::vector<Entry>& entries) {
    return std::ranges::none_of(entries, [](const Entry& entry) {
        const auto kind = logbook::kindOf(entry.kind);
        return !kind || waitsForPin({}, *kind, entry.device);
    });
}

// Of what was not kept: whether it has to go on paper.
bool goesOnPaper(const Problem& problem, const std::vector<Entry>& entries) {
    return cannotBeKept(problem) ? mustNotWait(entries)
                                 : problem.weight == Problem::Weight::Logbook &&
                                       std::ranges::all_of(entries, [](const Entry& entry) {
                                           const auto kind = logbook::kindOf(entry.kind);
                                           return kind && hasHappened(*kind);
                                       });
}

}  // namespace

bool waitsForPin(const rules::State& state, Kind kind, const std::string& device) {
    if (hasHappened(kind)) {
        return false;
    }
    switch (kind) {
        case Kind::Fit:
        case Kind::Remove:
        case Kind::Move: {
            const auto* unit = state.device(device);
            return unit == nullptr || !unit->use;
        }
        case Kind::Adopt: return state.rulebook != nullptr;
        default: return true;
    }
}

Result<Written> writeEntry(const Surroundings& surroundings, const LogbookFile& file,
                           const Entry& entry) {
    auto written = writeTogether(surroundings, file, {entry});
    if (!written) {
        return tl::unexpected(std::move(written.error()));
    }
    return std::move(written->front());
}

Result<std::vector<Written>> writeTogether(const Surroundings& surroundings,
                                           const LogbookFile& file,
                                           const std::vector<Entry>& stated) {
    if (stated.empty()) {
        return std::vector<Written>();
    }
    const auto tidy = tidied(surroundings.words, stated);
    const auto& entries = tidy.entries;
    const auto notKept = [&](const Problem& problem) {
        return tl::unexpected(goesOnPaper(problem, stated) ? onPaper(surroundings.words, problem)
                                                            : problem);
    };
    const auto open = OpenLog::open(
        surroundings, file,
        [&](const store::Logbook& logbook) { return neededFor(surroundings, logbook, entries); },
        OpenLog::IfDamaged::ReadRound);
    if (!open) {
        return notKept(open.error());
    }
    SignedAct act(**open, [&](const OpenLog&) {
        std::vector<Intended> intended;
        for (const auto& entry : entries) {
            intended.push_back({entry});
        }
        return intended;
    });
    act.inTurn();
    const auto kept = act.write(entries.front().by);
    if (!kept) {
        return notKept(kept.error());
    }
    auto written = writtenOf(**open, *kept);
    auto& told = written.front().warnings;
    told.insert(told.end(), tidy.remarks.begin(), tidy.remarks.end());
    return written;
}

Result<Adopted> adopt(const Surroundings& surroundings, const LogbookFile& file,
                      const Adoption& adoption) {
    std::vector<std::string> warnings;
    const auto entry = adoptionOf(surroundings, adoption, warnings);
    if (!entry) {
        return tl::unexpected(entry.error());
    }
    const auto written = writeEntry(surroundings, file, *entry);
    if (!written) {
        return tl::unexpected(written.error());
    }
    warnings.insert(warnings.end(), written->warnings.begin(), written->warnings.end());
    std::string edition;
    for (const auto& [field, value] : entry->body) {
        if (field == "edition" && value.string() != nullptr) {
            edition = *value.string();
        }
    }
    return Adopted{*written, edition, std::move(warnings)};
}

}  // namespace station
