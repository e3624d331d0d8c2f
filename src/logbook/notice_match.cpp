// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fields of a notice without a meaning; see notice_match.h.
#include "logbook/notice_match.h"

#include "logbook/json.h"

#include <algorithm>
#include <functional>

namespace logbook {

namespace {

bool isKnown(const json::Member& field) {
    return std::ranges::find(matchFields, field.first) != matchFields.end();
}

bool listsNothing(const json::Member& field) {
    const auto* items = field.second.array();
    return isKnown(field) && items != nullptr && items->empty();
}

template <class Condition>
std::vector<std::string> matchFieldsThat(Kind kind, std::string_view content,
                                         Condition condition) {
    std::vector<std::string> names;
    if (kind != Kind::Notice) {
        return names;
    }
    const auto record = json::parse(content);
    const auto* body = record ? record->find("body") : nullptr;
    const auto* match = body != nullptr ? body->find("match") : nullptr;
    const auto* fields = match != nullptr ? match->object() : nullptr;
    if (fields == nullptr) {
        return names;
    }
    for (const auto& field : *fields) {
        if (condition(field)) {
            names.push_back(field.first);
        }
    }
    return names;
}

}  // namespace

std::vector<std::string> unknownMatchFields(Kind kind, std::string_view content) {
    return matchFieldsThat(kind, content, std::not_fn(isKnown));
}

std::vector<std::string> emptyMatchFields(Kind kind, std::string_view content) {
    return matchFieldsThat(kind, content, listsNothing);
}

}  // namespace logbook
