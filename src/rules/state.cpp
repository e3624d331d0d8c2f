// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Look-ups in a state; what changes one is in fold.cpp and the files beside it.
#include "rules/state.h"

namespace rules {

RecordRef refOf(const logbook::Record& record) {
    return {record.at, record.entered, record.name};
}

std::string_view PartAttributes::text(std::string_view key) const {
    const auto found = texts.find(key);
    return found == texts.end() ? std::string_view{} : std::string_view{found->second};
}

std::optional<std::string> Device::group() const {
    if (selectedGroup) return selectedGroup;
    if (enrolment.groups.size() == 1) return enrolment.groups.front();
    return std::nullopt;
}

const Device* State::device(std::string_view serial) const {
    const auto found = devices.find(serial);
    return found == devices.end() ? nullptr : found->second.get();
}

const PartLife& State::life(const FittedPart& part, const std::string& position) const {
    const auto serial = part.attributes.serial();
    if (serial.empty()) return part.life;
    const auto found = parts.find(PartKeyView{position, serial});
    return found == parts.end() ? part.life : found->second->life;
}

State State::excerpt(const std::set<std::string>& serials, const std::set<PartKey>& also) const {
    State some;
    some.rulebook = rulebook;
    some.adopted = adopted;
    some.persons = persons;
    some.notices = notices;
    std::set<PartKey> keys = also;
    for (const std::string& serial : serials) {
        const auto found = devices.find(serial);
        if (found == devices.end()) continue;
        some.devices.insert(*found);
        for (const auto& [position, part] : found->second->fitted) {
            keys.insert({position, std::string(part.attributes.serial())});
        }
    }
    for (const PartKey& key : keys) {
        const auto found = parts.find(key);
        if (found != parts.end()) some.parts.insert(*found);
    }
    return some;
}

}  // namespace rules
