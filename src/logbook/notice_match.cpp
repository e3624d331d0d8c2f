// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fields of a notice without a meaning; see notice_match.h.
#include "logbook/notice_match.h"

#include "logbook/json.h"

#include <algorithm>

namespace logbook {

std::vector<std::string> unknownMatchFields(Kind kind, std::string_view content) {
    std::vector<std::string> unknown;
    if (kind != Kind::Notice) {
        return unknown;
    }
    const auto record = json::parse(content);
    const auto* body = record ? record->find("body") : nullptr;
    const auto* match = body != nullptr ? body->find("match") : nullptr;
    const auto* fields = match != nullptr ? match->object() : nullptr;
    if (fields == nullptr) {
        return unknown;
    }
    for (const auto& [name, value] : *fields) {
        if (std::ranges::find(matchFields, name) == matchFields.end()) {
            unknown.push_back(name);
        }
    }
    return unknown;
}

}  // namespace logbook
