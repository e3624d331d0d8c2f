// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// JSON values as I-JSON (RFC 7493) allows them, and their canonical text (RFC 8785).
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace logbook::json {

class Value;
using Array = std::vector<Value>;
using Member = std::pair<std::string, Value>;
using Object = std::vector<Member>;

class Value {
public:
    Value() = default;
    Value(std::nullptr_t) {}
    Value(bool value) : m_data(value) {}
    Value(double value) : m_data(value) {}
    Value(int value) : m_data(static_cast<double>(value)) {}
    Value(long value) : m_data(static_cast<double>(value)) {}
    Value(std::string value) : m_data(std::move(value)) {}
    Value(std::string_view value) : m_data(std::string(value)) {}
    Value(const char* value) : m_data(std::string(value)) {}
    Value(Array value) : m_data(std::move(value)) {}
    Value(Object value) : m_data(std::move(value)) {}

    [[nodiscard]] bool isNull() const { return m_data.index() == 0; }
    // Null if the value is of another type.
    [[nodiscard]] const bool* boolean() const { return std::get_if<bool>(&m_data); }
    [[nodiscard]] const double* number() const { return std::get_if<double>(&m_data); }
    [[nodiscard]] const std::string* string() const { return std::get_if<std::string>(&m_data); }
    [[nodiscard]] const Array* array() const { return std::get_if<Array>(&m_data); }
    [[nodiscard]] const Object* object() const { return std::get_if<Object>(&m_data); }
    [[nodiscard]] Array* array() { return std::get_if<Array>(&m_data); }
    [[nodiscard]] Object* object() { return std::get_if<Object>(&m_data); }

    // The member of that name; null if there is none or this is no object.
    [[nodiscard]] const Value* find(std::string_view name) const;
    [[nodiscard]] Value* find(std::string_view name);

    bool operator==(const Value&) const = default;

private:
    std::variant<std::monostate, bool, double, std::string, Array, Object> m_data;
};

struct ParseError {
    enum class Code {
        Syntax,         // no JSON
        Encoding,       // bytes that are no UTF-8, a lone surrogate
        DuplicateName,  // a name twice in one object; `detail` is the name
        NullCharacter,  // U+0000 in a text
        Number,         // does not survive as a double: too large, or an integer it cannot hold
        Depth,          // nested deeper than 64
    };
    Code code = Code::Syntax;
    std::size_t offset = 0;  // byte at which it was found
    std::string detail;
};

// One JSON value and nothing after it but white space. Members keep the order they came in.
[[nodiscard]] tl::expected<Value, ParseError> parse(std::string_view text);

// RFC 8785: members sorted by the UTF-16 code units of their names, no white space, numbers as
// ECMAScript prints them. The value must hold valid UTF-8 and finite numbers.
[[nodiscard]] std::string canonical(const Value& value);

// The same with two blanks of indentation and members in their own order, for people.
[[nodiscard]] std::string pretty(const Value& value);

}  // namespace logbook::json
