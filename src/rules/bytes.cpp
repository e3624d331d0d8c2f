// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading bytes that may be anything; see bytes.h.
#include "rules/bytes.h"

#include "logbook/text.h"

namespace rules {

std::uint64_t BytesReader::number() {
    std::uint64_t value = 0;
    for (unsigned shift = 0; shift < 64 && !m_rest.empty(); shift += 7) {
        const auto byte = static_cast<std::uint8_t>(m_rest.front());
        m_rest.remove_prefix(1);
        const std::uint64_t bits = byte & 0x7FU;
        // Neither more than 64 bits, nor a longer form than the shortest.
        if ((bits << shift) >> shift != bits || (byte == 0 && shift > 0)) break;
        value |= bits << shift;
        if (byte < 0x80U) return value;
    }
    fail();
    return 0;
}

std::int64_t BytesReader::signedNumber() {
    const std::uint64_t value = number();
    return static_cast<std::int64_t>((value >> 1U) ^ ((value & 1U) != 0 ? ~std::uint64_t{0} : 0));
}

bool BytesReader::flag() {
    const std::uint64_t value = number();
    require(value <= 1);
    return value == 1;
}

std::string_view BytesReader::text() {
    const std::uint64_t which = number();
    if (which < m_texts.size()) return m_texts[which];
    const std::uint64_t size = number();
    if (m_failed || which != m_texts.size() || size > m_rest.size()) {
        fail();
        return {};
    }
    const std::string_view text = m_rest.substr(0, size);
    m_rest.remove_prefix(size);
    if (!logbook::isUtf8(text)) {
        fail();
        return {};
    }
    m_texts.push_back(text);
    return text;
}

void BytesReader::literal(std::string_view wanted) {
    if (m_rest.substr(0, wanted.size()) != wanted) return fail();
    m_rest.remove_prefix(wanted.size());
}

}  // namespace rules
