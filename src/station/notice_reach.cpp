// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Counting what a notice concerns; see notice_reach.h.
#include "station/notice_reach.h"

#include "logbook/notice_match.h"
#include "rules/findings.h"
#include "rules/rulebook.h"
#include "station/own_records.h"
#include "station/standing.h"
#include "words/shown.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace station {

namespace {

using logbook::body::Match;
using logbook::body::Notice;
using Names = std::set<std::string, std::less<>>;

// Of no record that is kept.
constexpr std::int64_t unusedSequence = 1'000'000'000;

struct Count {
    std::size_t units = 0, fits = 0, kept = 0;
};

std::size_t fitsIn(const rules::State& state, const rules::Device& device, const Match& match) {
    return static_cast<std::size_t>(std::ranges::count_if(device.fitted, [&](const auto& each) {
        const auto& [position, part] = each;
        return state.rulebook->position(position) != nullptr &&
               rules::noticeMatchesPart(match, position, part.attributes);
    }));
}

Count countIn(const rules::State& state, const Notice& notice) {
    Count count;
    const auto& match = notice.match;
    const bool isOfParts = rules::namesPart(match);
    for (const auto& [serial, device] : state.devices) {
        if (device->retired || !rules::noticeConcerns(*device, notice)) {
            continue;
        }
        const auto fits = isOfParts ? fitsIn(state, *device, match) : 0;
        count.fits += fits;
        count.units += !isOfParts || fits > 0 ? 1 : 0;
    }
    const bool isOfUnits = match.deviceModels || match.devices || match.software;
    for (const auto& [key, part] : state.parts) {
        if (isOfParts && !isOfUnits && part->device.empty() &&
            rules::noticeMatchesPart(match, key.first, part->attributes)) {
            ++count.kept;
        }
    }
    return count;
}

// The names that the log has.
struct Known {
    Names positions, unitModels, partModels;

    explicit Known(const rules::State& state) {
        for (const auto& rule : state.rulebook->positions) {
            positions.insert(rule.key);
        }
        for (const auto& [serial, device] : state.devices) {
            unitModels.insert(device->enrolment.model);
            for (const auto& [position, part] : device->fitted) {
                add(position, part.attributes);
            }
            for (const auto& [position, attributes] : device->lastHeld) {
                add(position, attributes);
            }
        }
        for (const auto& [key, part] : state.parts) {
            add(key.first, part->attributes);
        }
    }

    void add(std::string_view position, const rules::PartAttributes& attributes) {
        positions.emplace(position);
        partModels.emplace(attributes.text("model"));
    }
};

std::string strangeIn(const words::Words& words, const Names& known,
                      const std::optional<std::vector<std::string>>& stated) {
    std::vector<std::string> strange;
    for (const auto& name : stated.value_or(std::vector<std::string>())) {
        if (!known.contains(name)) {
            strange.push_back("\"" + words::shown(name) + "\"");
        }
    }
    return strange.empty() ? std::string() : words.all(strange);
}

std::vector<std::string> strangeNames(const words::Words& words, const rules::State& state,
                                      const Match& match) {
    const Known known(state);
    std::vector<std::string> told;
    if (match.position && !known.positions.contains(*match.position)) {
        std::vector<std::string> keys;
        for (const auto& rule : state.rulebook->positions) {
            keys.push_back(rule.key);
        }
        told.push_back(words.say(
            "notice_reach.strange_position",
            {{"position", *match.position},
             {"positions", keys.empty() ? words.say("plain.nothing") : words.all(keys)}}));
    }
    if (const auto models = strangeIn(words, known.unitModels, match.deviceModels);
        !models.empty()) {
        told.push_back(words.say("notice_reach.strange_unit_models", {{"models", models}}));
    }
    if (const auto models = strangeIn(words, known.partModels, match.partModels);
        !models.empty()) {
        told.push_back(words.say("notice_reach.strange_part_models", {{"models", models}}));
    }
    return told;
}

}  // namespace

NoticeReach reachOf(const words::Words& words, const rules::State& state, const Notice& notice) {
    NoticeReach reach;
    if (notice.cancelled || state.rulebook == nullptr) {
        return reach;
    }
    const auto count = countIn(state, notice);
    const words::Gaps gaps{{"units", std::to_string(count.units)},
                           {"fits", std::to_string(count.fits)},
                           {"kept", std::to_string(count.kept)}};
    if (count.units + count.kept == 0) {
        reach.warnings.push_back(words.say("notice_reach.nothing"));
    } else {
        reach.told.push_back(words.say(rules::namesPart(notice.match) ? "notice_reach.parts"
                                                                      : "notice_reach.units",
                                       gaps));
    }
    auto strange = strangeNames(words, state, notice.match);
    std::ranges::move(strange, std::back_inserter(reach.warnings));
    return reach;
}

std::optional<Problem> refuseMatch(const words::Words& words, const logbook::Record& record) {
    const auto unknown = logbook::unknownMatchFields(record.kind(), record.content);
    const auto empty = logbook::emptyMatchFields(record.kind(), record.content);
    if (unknown.empty() && empty.empty()) {
        return std::nullopt;
    }
    if (unknown.empty()) {
        return problemOf(words, "entry.empty_match", {{"fields", words.all(empty)}});
    }
    return problemOf(words, "entry.unknown_match",
                     {{"fields", words.all(unknown)},
                      {"known", words.anyOf({logbook::matchFields.begin(),
                                             logbook::matchFields.end()})}});
}

Result<NoticeReach> noticeOutlook(const Surroundings& surroundings, const LogbookFile& file,
                                  const Entry& entry) {
    const auto& words = surroundings.words;
    const auto now = standing(surroundings, file, {});
    if (!now) {
        return tl::unexpected(now.error());
    }
    const logbook::RecordName name{now->facts.ownStation.value_or("here"), unusedSequence};
    const auto record = recordOf(surroundings, {entry, {entry.by.who, entry.by.who}}, name,
                                 surroundings.clock.now());
    if (!record) {
        return tl::unexpected(record.error());
    }
    const auto* notice = std::get_if<logbook::body::Notice>(&record->body);
    if (notice == nullptr) {
        return tl::unexpected(problemOf(words, "entry.only_notice"));
    }
    if (auto refused = refuseMatch(words, *record)) {
        return tl::unexpected(*std::move(refused));
    }
    auto reach = reachOf(words, now->state, *notice);
    auto doubts = doubtsOf(surroundings, now->facts);
    if (!doubts.empty()) {
        doubts.push_back(words.say("verify.may_be_unread"));
    }
    std::ranges::move(doubts, std::back_inserter(reach.warnings));
    return reach;
}

}  // namespace station
