// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking up parts; see known_parts.h.
#include "report/known_parts.h"

#include "rules/findings.h"

#include <algorithm>

namespace report {

namespace {

using logbook::NoticeAction;
using rules::PartAttributes;

std::string_view markOf(const PartAttributes& part, PartMark mark) {
    switch (mark) {
        case PartMark::Serial: return part.serial();
        case PartMark::Lot: return part.text("lot");
        default: return part.text("model");
    }
}

// Whether the notice names such parts by what is on them.
bool names(const logbook::body::Match& match, PartMark mark, std::string_view text) {
    const auto& list = mark == PartMark::Serial ? match.serials
                       : mark == PartMark::Lot  ? match.lots
                                                : match.partModels;
    return list && std::ranges::find(*list, text) != list->end();
}

struct Part {
    std::string_view position;
    const PartAttributes* attributes = nullptr;
};

// Every part with that on it of which anything is known now.
std::vector<Part> partsWith(const rules::State& state, PartMark mark, std::string_view text) {
    std::vector<Part> parts;
    for (const auto& [serial, device] : state.devices)
        for (const auto& [position, part] : device->fitted)
            if (markOf(part.attributes, mark) == text)
                parts.push_back({position, &part.attributes});
    for (const auto& [key, known] : state.parts)
        if (markOf(known->attributes, mark) == text)
            parts.push_back({key.first, &known->attributes});
    return parts;
}

std::string_view sentenceOf(NoticeAction action) {
    switch (action) {
        case NoticeAction::StopUse: return "bedside.notice_stops";
        case NoticeAction::Inspect: return "bedside.notice_inspects";
        default: return "bedside.notice_informs";
    }
}

}  // namespace

std::vector<FittedPlace> placesOf(const words::Context& context, PartMark mark,
                                  std::string_view text) {
    std::vector<FittedPlace> places;
    for (const auto& [serial, device] : context.state.devices)
        for (const auto& [position, part] : device->fitted)
            if (markOf(part.attributes, mark) == text)
                places.push_back({serial, words::positionLabel(context, position)});
    return places;
}

std::vector<std::string> noticesOn(const words::Context& context, PartMark mark,
                                   std::string_view text) {
    const auto parts = partsWith(context.state, mark, text);
    std::vector<const rules::KnownNotice*> found;
    for (const auto& [key, known] : context.state.notices) {
        const auto& match = known.notice.match;
        if (known.notice.cancelled || !rules::namesPart(match)) continue;
        const auto concerns = [&](const Part& part) {
            return rules::noticeMatchesPart(match, std::string(part.position), *part.attributes);
        };
        if (names(match, mark, text) || std::ranges::any_of(parts, concerns))
            found.push_back(&known);
    }
    std::ranges::stable_sort(found, {}, [](const auto* known) { return known->notice.action; });
    std::vector<std::string> told;
    for (const auto* known : found)
        told.push_back(context.words.say(sentenceOf(known->notice.action),
                                         {{"notice", words::readable(known->notice.key)},
                                          {"title", known->notice.title}}));
    return told;
}

}  // namespace report
