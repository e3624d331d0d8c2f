// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Renames rulebooks: reads the text as TOML, changes the tree where names stand, writes it anew.
// Text that is no TOML stays as it is.
#include "conformance_runner/renaming.h"

#include <toml++/toml.h>
#include <array>
#include <sstream>

namespace conformance {

namespace {

void renameText(toml::node& node, NameKind kind, Names& names) {
    if (auto* text = node.as_string()) {
        *text = names(kind, text->get());
    } else if (auto* list = node.as_array()) {
        for (toml::node& element : *list) {
            renameText(element, kind, names);
        }
    }
}

void renameMember(toml::table& table, const char* name, NameKind kind, Names& names) {
    if (toml::node* node = table.get(name)) {
        renameText(*node, kind, names);
    }
}

void renameKeys(toml::node* node, NameKind kind, Names& names) {
    toml::table* table = node == nullptr ? nullptr : node->as_table();
    if (table == nullptr) {
        return;
    }
    toml::table result;
    for (auto&& [key, value] : *table) {
        result.insert_or_assign(names(kind, std::string(key.str())), std::move(value));
    }
    result.is_inline(table->is_inline());
    *table = std::move(result);
}

void renameEvents(toml::node* node, Names& names) {
    if (node == nullptr) {
        return;
    }
    if (auto* text = node->as_string()) {
        *text = renamedPhrase(text->get(), names);
    } else if (auto* list = node->as_array()) {
        for (toml::node& element : *list) {
            renameEvents(&element, names);
        }
    }
}

// The kind of name that the values of a path are, nothing for those that are no names.
std::optional<NameKind> kindOfValues(const std::string& head, const std::string& attribute) {
    if (head == "group" || attribute == "groups") {
        return NameKind::Group;
    }
    if (head == "model" || attribute == "model") {
        return NameKind::Model;
    }
    if (attribute == "lot") {
        return NameKind::Lot;
    }
    if (attribute == "serial") {
        return NameKind::Serial;
    }
    if (head == "feature" || isReservedAttribute(attribute)) {
        return std::nullopt;
    }
    return NameKind::AttributeValue;
}

std::string renamedPath(const std::string& head, const std::string& attribute, Names& names) {
    if (attribute.empty() || head == "last_use") {
        return attribute.empty() ? head : head + "." + attribute;
    }
    if (head == "feature") {
        return head + "." + names(NameKind::Feature, attribute);
    }
    return names(NameKind::Place, head) + "." + names(NameKind::Attribute, attribute);
}

void renameCondition(toml::node* node, Names& names) {
    toml::table* table = node == nullptr ? nullptr : node->as_table();
    if (table == nullptr) {
        return;
    }
    toml::table result;
    for (auto&& [key, value] : *table) {
        const std::string path(key.str());
        const auto dot = path.find('.');
        const std::string head = path.substr(0, dot);
        const std::string attribute = dot == std::string::npos ? "" : path.substr(dot + 1);
        if (const auto kind = kindOfValues(head, attribute)) {
            renameText(value, *kind, names);
        }
        result.insert_or_assign(renamedPath(head, attribute, names), std::move(value));
    }
    result.is_inline(table->is_inline());
    *table = std::move(result);
}

void renameOnly(toml::table& entry, Names& names) {
    static constexpr std::string_view different = "different ";
    auto* only = entry.get_as<std::string>("only");
    if (only != nullptr && only->get().rfind(different, 0) == 0) {
        const std::string attribute = only->get().substr(different.size());
        *only = std::string(different) + names(NameKind::Attribute, attribute);
    }
}

template <typename Change>
void forEachTable(toml::node* node, const Change& change) {
    if (node == nullptr) {
        return;
    }
    if (auto* table = node->as_table()) {
        for (auto&& [key, value] : *table) {
            if (auto* inner = value.as_table()) {
                change(*inner);
            }
        }
    } else if (auto* list = node->as_array()) {
        for (toml::node& element : *list) {
            if (auto* inner = element.as_table()) {
                change(*inner);
            }
        }
    }
}

void renameMeasures(toml::table& check, Names& names) {
    forEachTable(check.get("measures"), [&](toml::table& measure) {
        renameKeys(measure.get("min"), NameKind::Group, names);
        renameKeys(measure.get("max"), NameKind::Group, names);
    });
    renameKeys(check.get("measures"), NameKind::Measure, names);
}

void renameCheck(toml::table& check, Names& names) {
    renameCondition(check.get("applies_when"), names);
    renameMember(check, "needs", NameKind::Condition, names);
    renameMember(check, "needs_match", NameKind::Place, names);
    renameMember(check, "after", NameKind::Check, names);
    forEachTable(check.get("not_with"), [&](toml::table& entry) {
        renameMember(entry, "position", NameKind::Place, names);
        renameCondition(entry.get("when"), names);
    });
    forEachTable(check.get("voided_by"), [&](toml::table& entry) {
        renameEvents(entry.get("event"), names);
        renameOnly(entry, names);
        renameCondition(entry.get("when"), names);
        renameCondition(entry.get("unless"), names);
    });
    forEachTable(check.get("not_before"),
                 [&](toml::table& entry) { renameEvents(entry.get("event"), names); });
    renameMeasures(check, names);
}

void renameSections(toml::table& root, Names& names) {
    forEachTable(root.get("positions"), [&](toml::table& position) {
        renameCondition(position.get("required_when"), names);
    });
    forEachTable(root.get("choices"), [&](toml::table& choice) {
        renameMember(choice, "positions", NameKind::Place, names);
    });
    forEachTable(root.get("conflicts"),
                 [&](toml::table& conflict) { renameCondition(conflict.get("when"), names); });
    forEachTable(root.get("checks"), [&](toml::table& check) { renameCheck(check, names); });
    forEachTable(root.get("services"), [&](toml::table& service) {
        renameCondition(service.get("applies_when"), names);
        renameEvents(service.get("due_after"), names);
    });
    forEachTable(root.get("holds"), [&](toml::table& hold) {
        renameMember(hold, "release_by", NameKind::Role, names);
    });
    if (auto* authority = root.get_as<toml::table>("authority")) {
        for (auto&& [kind, roles] : *authority) {
            renameText(roles, NameKind::Role, names);
        }
    }
}

struct Section {
    const char* name;
    NameKind kind;
};

}  // namespace

std::string renamedRulebook(const std::string& toml, Names& names) {
    static constexpr std::array<Section, 7> sections{{{"groups", NameKind::Group},
                                                      {"positions", NameKind::Place},
                                                      {"choices", NameKind::Place},
                                                      {"conflicts", NameKind::Place},
                                                      {"checks", NameKind::Check},
                                                      {"services", NameKind::Service},
                                                      {"holds", NameKind::Hold}}};
    static constexpr std::array<Section, 4> labels{{{"roles", NameKind::Role},
                                                    {"conditions", NameKind::Condition},
                                                    {"features", NameKind::Feature},
                                                    {"alarms", NameKind::Alarm}}};
    toml::table root;
    try {
        root = toml::parse(std::string_view(toml));
    } catch (const toml::parse_error&) {
        return toml;
    }
    renameSections(root, names);
    for (const Section& section : sections) {
        renameKeys(root.get(section.name), section.kind, names);
    }
    renameKeys(root.get("faults"), NameKind::Fault, names);
    if (auto* table = root.get_as<toml::table>("labels")) {
        for (const Section& section : labels) {
            renameKeys(table->get(section.name), section.kind, names);
        }
    }
    std::ostringstream text;
    text << toml::toml_formatter(root) << '\n';
    return text.str();
}

}  // namespace conformance
