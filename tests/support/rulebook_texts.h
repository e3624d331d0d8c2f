// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rulebook texts for tests: a head that is complete, to which a test appends what it is about.
#pragma once

#include "rules/rulebook_reader.h"
#include "support/zones.h"

#include <catch2/catch.hpp>

#include <memory>
#include <ostream>
#include <string>
#include <vector>

namespace support {

// Ends within [checks.leak]; what is appended begins on line 12.
inline const std::string head =
    "format = 1\n"
    "title = \"Kestrel Bay\"\n"
    "edition = \"2026-1\"\n"
    "time_zone = \"America/Chicago\"\n"
    "[groups.adult]\n"
    "[groups.neonatal]\n"
    "[positions.circuit]\n"
    "[positions.hme]\n"
    "[services.acceptance]\n"
    "[checks.leak]\n"
    "takes = \"PT2M\"\n";

inline rules::RulebookReading read(const std::string& text) {
    return rules::readRulebook(text, zones());
}

// A remark that a test expects; all of it is compared.
struct Remark {
    rules::RulebookRemark::Code code;
    std::string path;
    int line;
    int column;
    std::string detail;
    bool operator==(const Remark&) const = default;
};

inline std::ostream& operator<<(std::ostream& out, const Remark& remark) {
    return out << static_cast<int>(remark.code) << ' ' << remark.path << ' ' << remark.line << ':'
               << remark.column << " [" << remark.detail << ']';
}

inline std::vector<Remark> remarks(const std::vector<rules::RulebookRemark>& list) {
    std::vector<Remark> result;
    for (const auto& each : list) {
        result.push_back({each.code, each.path, each.line, each.column, each.detail});
    }
    return result;
}

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

// The rulebook of a text without a fault.
inline std::shared_ptr<const rules::Rulebook> taken(const std::string& text) {
    const auto reading = read(text);
    CHECK(remarks(reading.faults).empty());
    REQUIRE(reading.rulebook);
    return reading.rulebook;
}

// The only fault of a text.
inline Remark onlyFault(const std::string& text) {
    const auto reading = read(text);
    CHECK(reading.rulebook == nullptr);
    REQUIRE(reading.faults.size() == 1);
    return remarks(reading.faults).front();
}

// A text appended to the head, and the one fault it makes.
struct FaultCase {
    std::string text;
    Remark fault;
};

inline void checkEach(const std::vector<FaultCase>& cases) {
    for (const auto& each : cases) {
        INFO(each.text);
        const auto reading = read(head + each.text);
        CHECK(reading.rulebook == nullptr);
        CHECK(remarks(reading.faults) == std::vector{each.fault});
    }
}

}  // namespace support
