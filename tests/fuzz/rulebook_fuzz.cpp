// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any bytes as a rulebook: it is refused with a fault, or read without one.
#include "rules/rulebook_reader.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace {

void demand(bool holds, const char* what) {
    if (!holds) {
        std::fprintf(stderr, "broken: %s\n", what);
        std::abort();
    }
}

// Two zones are enough here: one that is there and none.
std::shared_ptr<const rules::Zone> zone(std::string_view name) {
    static const std::vector<rules::ZoneTransition> always{
        {logbook::Instant{}, logbook::Duration{}, "UTC"}};
    static const auto utc = std::make_shared<const rules::Zone>("UTC", always);
    return name == "UTC" ? utc : nullptr;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const rules::RulebookReading reading = rules::readRulebook(text, zone);
    demand((reading.rulebook == nullptr) == !reading.faults.empty(),
           "a rulebook has faults or is taken, never both");
    if (reading.rulebook != nullptr) {
        demand(!reading.rulebook->groups.empty(), "a rulebook that is taken has a group");
        demand(reading.rulebook->zone != nullptr, "a rulebook that is taken has a zone");
    }
    return 0;
}
