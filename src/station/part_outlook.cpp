// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A part tried on a copy of the unit; see part_outlook.h.
#include "station/part_outlook.h"

#include "rules/finding_positions.h"
#include "rules/fold.h"
#include "station/own_records.h"
#include "words/entry_words.h"
#include "words/finding_words.h"

#include <algorithm>

namespace station {

namespace {

// Of no record that is kept.
constexpr std::int64_t unusedSequence = 1'000'000'000;
constexpr const char* somebody = "somebody";

bool isTold(const rules::Finding& finding, PartFindings which) {
    if (finding.code == rules::FindingCode::Missing) {
        return false;
    }
    const bool isNotice = finding.code == rules::FindingCode::Notice;
    return finding.blocking() == rules::Blocks::Yes ||
           (isNotice && which == PartFindings::BlockingAndNotices);
}

std::string serialOf(const logbook::body::Fit& fit) {
    const auto stated = fit.part.attributes.find("serial");
    return stated == fit.part.attributes.end() ? "" : stated->second;
}

// The unit, and where the part stands now: it is taken out there.
rules::State around(const rules::State& state, const std::string& device,
                    const rules::PartKey& part) {
    std::set<std::string> units{device};
    const auto known = state.parts.find(part);
    if (known != state.parts.end() && !known->second->device.empty()) {
        units.insert(known->second->device);
    }
    return state.excerpt(units, {part});
}

}  // namespace

std::string findingsOn(const words::Context& context, const std::string& position,
                       PartFindings which) {
    auto told = context;
    const auto found = rules::assess(context.state, *context.device,
                                     {context.asked, {}, false, false, false});
    told.group = found.group;
    std::string findings;
    for (const auto& finding : found.findings) {
        const auto about =
            rules::positionsOf(finding, context.state, *context.device, context.asked);
        if (isTold(finding, which) && std::ranges::find(about, position) != about.end()) {
            findings += (findings.empty() ? "" : " ") + words::sentence(told, finding).text();
        }
    }
    return findings;
}

std::string takenFrom(const words::Words& words, const logbook::Record& record,
                      const rules::State& before, const rules::State& after) {
    std::string unit;
    if (record.kind() == logbook::Kind::Remove) {
        unit = record.device;
    } else if (const auto* fit = std::get_if<logbook::body::Fit>(&record.body)) {
        const auto known = before.parts.find(rules::PartKey(fit->position, serialOf(*fit)));
        if (known != before.parts.end() && known->second->device != record.device) {
            unit = known->second->device;
        }
    }
    const auto* had = before.device(unit);
    const auto* has = after.device(unit);
    if (had == nullptr || has == nullptr) {
        return "";
    }
    const auto found = rules::assess(after, *has, {record.at});
    const words::Context context{words, after, has, record.at, found.group, {}};
    return words::worseSentence(context, rules::assess(before, *had, {record.at}), found);
}

std::string partOutlook(const Surroundings& surroundings, const Standing& now,
                        const std::string& device, const StatedPart& part) {
    const auto at = std::max(now.at, surroundings.clock.now());
    const Doing doing{Writer(somebody), device};
    const Draft draft{entryOf(doing, fitOf(part)), {somebody, somebody}};
    const logbook::RecordName name{now.facts.ownStation.value_or("here"), unusedSequence};
    const auto record = recordOf(surroundings, draft, name, at);
    if (!record) {
        return "";
    }
    const auto serial = part.texts.find("serial");
    auto state = around(now.state, device,
                        {part.position, serial == part.texts.end() ? "" : serial->second});
    const auto before = state;
    if (state.device(device) == nullptr || !rules::fold(state, *record, {}).effective) {
        return "";
    }
    words::Context context{surroundings.words, state, state.device(device), at, {}, {}};
    context.lookup = [&](const logbook::RecordName& asked) {
        return asked == name ? &*record : now.lookup(asked);
    };
    auto told = findingsOn(context, part.position, PartFindings::BlockingAndNotices);
    if (const auto loss = takenFrom(surroundings.words, *record, before, state); !loss.empty()) {
        told += (told.empty() ? "" : " ") + loss;
    }
    return told;
}

}  // namespace station
