// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing JSON: the canonical form, and one for people.
#include "logbook/json.h"
#include "logbook/json_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace logbook::json {

namespace {

void writeText(std::string_view text, std::string& out) {
    out += '"';
    for (const char character : text) {
        switch (character) {
        case '"': out += "\\\""; break;
        case '\\': out += "\\\\"; break;
        case '\b': out += "\\b"; break;
        case '\t': out += "\\t"; break;
        case '\n': out += "\\n"; break;
        case '\f': out += "\\f"; break;
        case '\r': out += "\\r"; break;
        default:
            if (static_cast<unsigned char>(character) < 0x20) {
                fmt::format_to(std::back_inserter(out), "\\u{:04x}", int{character});
            } else {
                out += character;
            }
        }
    }
    out += '"';
}

// UTF-8 sorts as UTF-16 does but for U+E000 to U+FFFF, which start with 0xEE or 0xEF there and
// come after all that needs surrogates here.
int rank(unsigned char byte) {
    return byte == 0xee || byte == 0xef ? byte + 0x100 : byte;
}

bool sortsBefore(std::string_view a, std::string_view b) {
    return std::lexicographical_compare(
        a.begin(), a.end(), b.begin(), b.end(), [](char one, char other) {
            return rank(static_cast<unsigned char>(one)) < rank(static_cast<unsigned char>(other));
        });
}

std::vector<const Member*> inOrder(const Object& object, bool sorted) {
    std::vector<const Member*> members;
    members.reserve(object.size());
    for (const auto& member : object) {
        members.push_back(&member);
    }
    if (sorted) {
        std::sort(members.begin(), members.end(), [](const Member* a, const Member* b) {
            return sortsBefore(a->first, b->first);
        });
    }
    return members;
}

class Writer {
public:
    explicit Writer(bool forPeople) : m_forPeople(forPeople) {}

    [[nodiscard]] std::string take() { return std::move(m_out); }

    void write(const Value& value) {
        if (const auto* object = value.object()) {
            writeObject(*object);
        } else if (const auto* array = value.array()) {
            writeArray(*array);
        } else if (const auto* text = value.string()) {
            writeText(*text, m_out);
        } else if (const auto* number = value.number()) {
            m_out += numberText(*number);
        } else if (const auto* flag = value.boolean()) {
            m_out += *flag ? "true" : "false";
        } else {
            m_out += "null";
        }
    }

private:
    void writeObject(const Object& object) {
        m_out += '{';
        ++m_depth;
        bool first = true;
        for (const Member* member : inOrder(object, !m_forPeople)) {
            separate(first);
            writeText(member->first, m_out);
            m_out += m_forPeople ? ": " : ":";
            write(member->second);
        }
        end(object.empty(), '}');
    }

    void writeArray(const Array& array) {
        m_out += '[';
        ++m_depth;
        bool first = true;
        for (const Value& element : array) {
            separate(first);
            write(element);
        }
        end(array.empty(), ']');
    }

    void separate(bool& first) {
        if (!first) {
            m_out += ',';
        }
        first = false;
        breakLine();
    }

    void end(bool empty, char bracket) {
        --m_depth;
        if (!empty) {
            breakLine();
        }
        m_out += bracket;
    }

    void breakLine() {
        if (m_forPeople) {
            m_out += '\n';
            m_out.append(2 * m_depth, ' ');
        }
    }

    bool m_forPeople;
    std::size_t m_depth = 0;
    std::string m_out;
};

}  // namespace

std::string canonical(const Value& value) {
    Writer writer(false);
    writer.write(value);
    return writer.take();
}

std::string pretty(const Value& value) {
    Writer writer(true);
    writer.write(value);
    return writer.take();
}

}  // namespace logbook::json
