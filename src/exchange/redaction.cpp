// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is kept is listed, not what is left out: a field that nobody thought of stays inside.
#include "exchange/redaction.h"

#include "logbook/json.h"
#include "logbook/text.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>
#include <utility>

namespace exchange {

namespace {

namespace json = logbook::json;

constexpr std::array<std::string_view, 9> keptFields{
    "at", "body", "confirmed", "device", "entered", "kind", "moved_from", "seq", "station"};

constexpr std::array<std::string_view, 3> personFields{"by", "done_by", "witness"};

// Of bodies: keys, numbers, dates and texts that are no free texts.
constexpr std::array<std::string_view, 42> keptInBody{
    "action",      "asset",        "blocking", "cancelled", "check",    "code",
    "commissioned", "conditions",  "digest",   "disposition", "edition", "emergency",
    "features",    "finding",      "group",    "groups",    "heads",    "hold",
    "key",         "known_at",     "level",    "load",      "location", "maker",
    "match",       "measures",     "model",    "month",     "on",       "outcome",
    "part",        "parts",        "position", "positions", "precautions", "return_by",
    "roles",       "same_patient", "service",  "subject",   "target",   "until"};

// Of objects within bodies, likewise. Those of a measure stand under its key.
constexpr std::array<std::string_view, 8> keptInPart{
    "expires", "groups", "layout", "lot", "model", "reuse", "serial", "technology"};
constexpr std::array<std::string_view, 2> keptInReprocessed{"position", "serial"};
constexpr std::array<std::string_view, 7> keptInMatch{
    "device_models", "devices", "lots", "part_models", "position", "serials", "software"};
constexpr std::array<std::string_view, 2> keptInMeasure{"unit", "value"};

template <std::size_t Count>
bool contains(const std::array<std::string_view, Count>& names, std::string_view name) {
    return std::ranges::find(names, name) != names.end();
}

// Kept besides as long as persons may be named.
constexpr std::array<std::string_view, 2> namingInBody{"name", "person"};

// Where a place ceases to be coarse: at its first figure, a full-width one (U+FF10 to U+FF19) too.
std::size_t endOfCoarse(std::string_view place) {
    constexpr std::string_view fullWidth = "\xEF\xBC";
    auto end = std::min(place.find_first_of("0123456789,;/("), place.size());
    for (auto at = place.find(fullWidth); at < end; at = place.find(fullWidth, at + 1)) {
        const auto last = at + 2 < place.size() ? static_cast<unsigned char>(place[at + 2]) : 0;
        if (last >= 0x90 && last <= 0x99) {
            end = at;
        }
    }
    return end;
}

// Numbers, words, and lists of them: what is nested deeper nobody has thought of.
bool isPlain(const json::Value& value) {
    const auto* list = value.array();
    return value.object() == nullptr &&
           (list == nullptr || std::ranges::all_of(*list, [](const json::Value& each) {
                return each.object() == nullptr && each.array() == nullptr;
            }));
}

template <std::size_t Count>
json::Value keptOf(const json::Value& value, const std::array<std::string_view, Count>& names) {
    json::Object kept;
    if (const auto* object = value.object()) {
        for (const auto& [name, field] : *object) {
            if (contains(names, name) && isPlain(field)) {
                kept.emplace_back(name, field);
            }
        }
    }
    return kept;
}

// {"icu-1":[412,"hex"]}
json::Value keptHeads(const json::Value& value) {
    json::Object kept;
    if (const auto* object = value.object()) {
        for (const auto& [station, head] : *object) {
            if (logbook::isStationName(station) && isPlain(head)) {
                kept.emplace_back(station, head);
            }
        }
    }
    return kept;
}

json::Value keptMeasures(const json::Value& value) {
    json::Object kept;
    if (const auto* object = value.object()) {
        for (const auto& [key, measure] : *object) {
            kept.emplace_back(key, keptOf(measure, keptInMeasure));
        }
    }
    return kept;
}

json::Value keptParts(const json::Value& value) {
    json::Array kept;
    if (const auto* parts = value.array()) {
        for (const auto& part : *parts) {
            kept.push_back(keptOf(part, keptInReprocessed));
        }
    }
    return kept;
}

// A field of a body that may be kept, without what is not listed in it.
json::Value keptIn(std::string_view name, const json::Value& value) {
    if (name == "part") {
        return keptOf(value, keptInPart);
    }
    if (name == "parts") {
        return keptParts(value);
    }
    if (name == "match") {
        return keptOf(value, keptInMatch);
    }
    if (name == "measures") {
        return keptMeasures(value);
    }
    if (name == "heads") {
        return keptHeads(value);
    }
    return isPlain(value) ? value : json::Value();
}

// "ICU room 9, window" as "ICU room".
std::string coarse(const std::string& place) {
    std::string text = place.substr(0, endOfCoarse(place));
    text.erase(text.find_last_not_of(" -#.") + 1);
    return text;
}

class Redacting {
public:
    explicit Redacting(const Redaction& redaction) : m_redaction(redaction) {}

    json::Value redacted(const json::Object& record) {
        json::Object kept;
        for (const auto& [name, value] : record) {
            if (contains(keptFields, name)) {
                kept.emplace_back(name, name == "body" ? body(value) : value);
            } else if (contains(personFields, name)) {
                kept.emplace_back(name, m_redaction.withoutNames ? pseudonym(value) : value);
            }
        }
        return json::Object{{"redacted", std::move(kept)}};
    }

private:
    json::Value body(const json::Value& value) {
        json::Object kept;
        for (const auto& [name, field] : *value.object()) {
            if (name == "location" && m_redaction.coarsePlaces && field.string() != nullptr) {
                kept.emplace_back(name, coarse(*field.string()));
            } else if (m_redaction.withoutNames && name == "person") {
                kept.emplace_back(name, pseudonym(field));
            } else if (!m_redaction.withoutNames && contains(namingInBody, name)) {
                kept.emplace_back(name, field);
            } else if (contains(keptInBody, name)) {
                if (auto inner = keptIn(name, field); !inner.isNull()) {
                    kept.emplace_back(name, std::move(inner));
                }
            }
        }
        return kept;
    }

    json::Value pseudonym(const json::Value& person) {
        const auto number = m_persons.size() + 1;
        const auto place = m_persons.emplace(*person.string(), number).first;
        return "person-" + std::to_string(place->second);
    }

    Redaction m_redaction;
    std::map<std::string, std::size_t> m_persons;
};

}  // namespace

std::string writeRedacted(std::span<const logbook::Record> records, const Redaction& redaction) {
    Redacting redacting(redaction);
    std::string bytes;
    for (const auto& record : records) {
        const auto content = json::parse(record.content);
        bytes += json::canonical(redacting.redacted(*content->object())) + "\n";
    }
    return bytes;
}

}  // namespace exchange
