// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fields every record has, and what must hold between them.
#include "logbook/record_reader.h"

#include "logbook/body_reader.h"
#include "logbook/text.h"

#include <algorithm>

namespace logbook {

using Code = RecordFault::Code;

namespace {

constexpr std::size_t longestLine = 1024 * 1024;

void dropNulls(json::Value& value) {
    if (json::Array* array = value.array()) {
        std::for_each(array->begin(), array->end(), dropNulls);
    } else if (json::Object* object = value.object()) {
        std::erase_if(*object, [](const json::Member& member) { return member.second.isNull(); });
        for (auto& member : *object) {
            dropNulls(member.second);
        }
    }
}

// What is no instant stays as it is, to be refused or, where it means nothing, kept.
void shortenInstant(json::Value& holder, std::string_view name) {
    json::Value* value = holder.find(name);
    if (value == nullptr || value->string() == nullptr) {
        return;
    }
    if (const auto instant = parseInstant(*value->string())) {
        *value = json::Value(toText(*instant));
    }
}

Code codeOf(json::ParseError::Code code) {
    switch (code) {
    case json::ParseError::Code::Syntax: return Code::NotJson;
    case json::ParseError::Code::Encoding: return Code::BadText;
    case json::ParseError::Code::DuplicateName: return Code::DuplicateName;
    case json::ParseError::Code::NullCharacter: return Code::BadText;
    case json::ParseError::Code::Number: return Code::BadNumber;
    case json::ParseError::Code::Depth: return Code::TooDeep;
    }
    return Code::NotJson;
}

RecordFaults tooLong() {
    return {{Code::TooLong, "", "", longestLine}};
}

bool canBeKept(std::string_view text) {
    return text.find('\0') == std::string_view::npos && isUtf8(text);
}

void noteBadTexts(const json::Value& value, const Place& place) {
    if (const auto* text = value.string(); text != nullptr && !canBeKept(*text)) {
        place.fault(Code::BadText);
    } else if (const json::Array* array = value.array()) {
        for (std::size_t index = 0; index < array->size(); ++index) {
            noteBadTexts((*array)[index], place.element(index));
        }
    } else if (const json::Object* object = value.object()) {
        for (const auto& [name, member] : *object) {
            if (canBeKept(name)) {
                noteBadTexts(member, place.member(name));
            } else {
                place.fault(Code::BadText);
            }
        }
    }
}

// Reads one record's content; each fault goes to `m_faults` through the places.
class Reading {
public:
    Reading(const json::Value& content, RecordFaults& faults)
        : m_root(faults), m_fields(content, m_root) {}

    Record read() {
        Record record;
        record.name.station = m_fields.required("station", readStation);
        record.name.seq = m_fields.required("seq", readSeq);
        readTimes(record);
        record.by = m_fields.required("by", readName);
        readRest(record);
        const auto device = m_fields.wanted("device", readNameOrNothing);
        record.device = device.value_or("");
        const auto kind = readKind();
        if (kind) {
            judge(*kind, device);
        }
        readBodyOf(kind, device, record);
        return record;
    }

private:
    void readTimes(Record& record) {
        m_at = m_fields.wanted("at", readInstant);
        m_entered = m_fields.wanted("entered", readInstant);
        record.at = m_at.value_or(Instant{});
        record.entered = m_entered.value_or(Instant{});
        if (m_at && m_entered && *m_entered < *m_at) {
            m_root.member("entered").fault(Code::EnteredBeforeAt, toText(*m_at));
        }
    }

    void readRest(Record& record) const {
        record.doneBy = m_fields.optional("done_by", readName);
        record.witness = m_fields.optional("witness", readName);
        record.form = m_fields.optional("form", readText);
        record.batch = m_fields.optional("batch", readText);
        if (const auto from = m_fields.optional("moved_from", readRecordName)) {
            record.movedFrom = toText(*from);
        }
        record.confirmed = m_fields.optional("confirmed", readFlag).value_or(true);
    }

    [[nodiscard]] std::optional<Kind> readKind() const {
        const auto word = m_fields.wanted("kind", readText);
        const auto kind = word ? kindOf(*word) : std::nullopt;
        if (word && !kind) {
            m_root.member("kind").fault(Code::UnknownKind, *word);
        }
        return kind;
    }

    // What the kind asks of the other fields.
    void judge(Kind kind, const std::optional<std::string>& device) const {
        if (mustBeTimely(kind) && m_at && m_entered && *m_at < *m_entered) {
            m_root.member("at").fault(Code::NotTimely, kindName(kind));
        }
        if (!device) {
            return;
        }
        const bool either = kind == Kind::Reprocess || kind == Kind::Strike;
        if (isDepartmentWide(kind) && !device->empty()) {
            m_root.member("device").fault(Code::DeviceUnwanted, *device);
        } else if (!isDepartmentWide(kind) && !either && device->empty()) {
            m_root.member("device").fault(Code::DeviceWanted, kindName(kind));
        }
    }

    void readBodyOf(std::optional<Kind> kind, const std::optional<std::string>& device,
                    Record& record) const {
        const Place place = m_root.member("body");
        const json::Value* value = m_fields.find("body");
        if (value == nullptr) {
            place.fault(Code::Missing);
        } else if (wantObject(*value, place) != nullptr && kind) {
            const Reach reach = !device           ? Reach::Unknown
                                : device->empty() ? Reach::Department
                                                  : Reach::Device;
            record.body = readBody(*kind, Fields(*value, place), reach);
        }
    }

    Place m_root;
    Fields m_fields;
    std::optional<Instant> m_at, m_entered;
};

tl::expected<Record, RecordFaults> readContent(const json::Value& content) {
    if (content.object() == nullptr) {
        return tl::make_unexpected(RecordFaults{{Code::NotAnObject, "", "", 0}});
    }
    RecordFaults faults;
    Record record = Reading(content, faults).read();
    record.content = json::canonical(content);
    // The canonical text of a number can be longer than what was written; what is exported must
    // be a line that can be read again.
    if (record.content.size() > longestLine) {
        return tl::make_unexpected(tooLong());
    }
    if (!faults.empty()) {
        return tl::make_unexpected(std::move(faults));
    }
    return record;
}

}  // namespace

json::Value contentOf(json::Value record) {
    dropNulls(record);
    shortenInstant(record, "at");
    shortenInstant(record, "entered");
    if (json::Value* body = record.find("body")) {
        shortenInstant(*body, "until");
        shortenInstant(*body, "known_at");
    }
    return record;
}

tl::expected<Record, RecordFaults> readRecord(std::string_view line) {
    if (line.size() > longestLine) {
        return tl::make_unexpected(tooLong());
    }
    auto value = json::parse(line);
    if (!value) {
        const auto& error = value.error();
        return tl::make_unexpected(
            RecordFaults{{codeOf(error.code), "", error.detail, error.offset}});
    }
    return readContent(contentOf(std::move(*value)));
}

tl::expected<Record, RecordFaults> readRecord(const json::Value& value) {
    const auto content = contentOf(value);
    RecordFaults faults;
    noteBadTexts(content, Place(faults));
    if (!faults.empty()) {
        return tl::make_unexpected(std::move(faults));
    }
    return readRecord(std::string_view(json::canonical(content)));
}

}  // namespace logbook
