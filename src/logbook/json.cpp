// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading JSON. The grammar is RapidJSON's; what I-JSON adds to it is checked here.
#include "logbook/json.h"

#include "logbook/json_number.h"
#include "logbook/text.h"

#include <rapidjson/error/en.h>
#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include <algorithm>
#include <optional>
#include <unordered_set>

namespace logbook::json {

namespace {

constexpr std::size_t deepest = 64;

// Up to here a search of the members is quicker than a set of their names.
constexpr std::size_t fewMembers = 16;

// An array or object that has not ended yet.
struct Open {
    Value value;
    std::string name;  // of the member that is being read
    std::unordered_set<std::string> names;
};

// Receives RapidJSON's events; a handler that returns false stops the reading. The names of the
// events are RapidJSON's.
class Builder {
public:
    explicit Builder(const rapidjson::MemoryStream& stream) : m_stream(stream) {}

    [[nodiscard]] const std::optional<ParseError>& error() const { return m_error; }
    [[nodiscard]] Value takeResult() { return std::move(m_result); }

    bool Null() { return add(Value()); }
    bool Bool(bool value) { return add(Value(value)); }
    bool RawNumber(const char* text, rapidjson::SizeType length, bool) {
        const auto number = parseNumber({text, length});
        return number ? add(Value(*number)) : fail(ParseError::Code::Number, {text, length});
    }
    bool String(const char* text, rapidjson::SizeType length, bool) {
        return checkText({text, length}) && add(Value(std::string(text, length)));
    }
    bool Key(const char* text, rapidjson::SizeType length, bool) {
        return checkText({text, length}) && openMember(std::string(text, length));
    }
    bool StartObject() { return open(Value(Object())); }
    bool StartArray() { return open(Value(Array())); }
    bool EndObject(rapidjson::SizeType) { return close(); }
    bool EndArray(rapidjson::SizeType) { return close(); }

    // Never called: every number arrives as its text.
    bool Int(int) { return false; }
    bool Uint(unsigned) { return false; }
    bool Int64(std::int64_t) { return false; }
    bool Uint64(std::uint64_t) { return false; }
    bool Double(double) { return false; }

private:
    bool fail(ParseError::Code code, std::string_view detail) {
        m_error = ParseError{code, m_stream.Tell(), std::string(detail)};
        return false;
    }

    bool checkText(std::string_view text) {
        if (text.find('\0') != std::string_view::npos) {
            return fail(ParseError::Code::NullCharacter, "U+0000 in a text");
        }
        // An escaped surrogate without its other half comes out as bytes that are no UTF-8.
        return isUtf8(text) || fail(ParseError::Code::Encoding, "a lone surrogate");
    }

    bool open(Value value) {
        if (m_open.size() == deepest) {
            return fail(ParseError::Code::Depth, "nested too deep");
        }
        m_open.push_back({std::move(value), {}, {}});
        return true;
    }

    bool close() {
        Value value = std::move(m_open.back().value);
        m_open.pop_back();
        return add(std::move(value));
    }

    bool openMember(std::string name) {
        Open& holder = m_open.back();
        if (isTwin(holder, name)) {
            return fail(ParseError::Code::DuplicateName, name);
        }
        holder.name = std::move(name);
        return true;
    }

    static bool isTwin(Open& holder, const std::string& name) {
        const Object& members = *holder.value.object();
        if (members.size() < fewMembers) {
            return holder.value.find(name) != nullptr;
        }
        if (holder.names.empty()) {
            for (const auto& member : members) {
                holder.names.insert(member.first);
            }
        }
        return !holder.names.insert(name).second;
    }

    bool add(Value value) {
        if (m_open.empty()) {
            m_result = std::move(value);
        } else if (Array* array = m_open.back().value.array()) {
            array->push_back(std::move(value));
        } else {
            m_open.back().value.object()->emplace_back(std::move(m_open.back().name),
                                                       std::move(value));
        }
        return true;
    }

    const rapidjson::MemoryStream& m_stream;
    std::vector<Open> m_open;
    Value m_result;
    std::optional<ParseError> m_error;
};

ParseError::Code codeOf(rapidjson::ParseErrorCode code) {
    switch (code) {
    case rapidjson::kParseErrorStringInvalidEncoding:
    case rapidjson::kParseErrorStringUnicodeSurrogateInvalid:
        return ParseError::Code::Encoding;
    case rapidjson::kParseErrorNumberTooBig:
        return ParseError::Code::Number;
    default:
        return ParseError::Code::Syntax;
    }
}

}  // namespace

const Value* Value::find(std::string_view name) const {
    const Object* members = object();
    if (members == nullptr) {
        return nullptr;
    }
    const auto found = std::find_if(members->begin(), members->end(),
                                    [name](const Member& member) { return member.first == name; });
    return found == members->end() ? nullptr : &found->second;
}

Value* Value::find(std::string_view name) {
    return const_cast<Value*>(std::as_const(*this).find(name));
}

tl::expected<Value, ParseError> parse(std::string_view text) {
    // RapidJSON takes a zero byte for the end of the text.
    if (const auto zero = text.find('\0'); zero != std::string_view::npos) {
        return tl::make_unexpected(ParseError{ParseError::Code::Syntax, zero, "a zero byte"});
    }
    rapidjson::MemoryStream stream(text.data(), text.size());
    Builder builder(stream);
    rapidjson::Reader reader;
    constexpr unsigned flags = rapidjson::kParseIterativeFlag |
                               rapidjson::kParseValidateEncodingFlag |
                               rapidjson::kParseNumbersAsStringsFlag;
    const rapidjson::ParseResult result = reader.Parse<flags>(stream, builder);
    if (builder.error()) {
        return tl::make_unexpected(*builder.error());
    }
    if (result.IsError()) {
        return tl::make_unexpected(ParseError{codeOf(result.Code()), result.Offset(),
                                              rapidjson::GetParseError_En(result.Code())});
    }
    return builder.takeResult();
}

}  // namespace logbook::json
