// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small logbook of two stations that is tampered with behind the store's back, to be verified.
#pragma once

#include "logbook_files.h"
#include "store/hash.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace store::test {

// How many records each of the two has.
inline constexpr std::int64_t ofOne = 8;    // icu-1
inline constexpr std::int64_t ofOther = 3;  // icu-2

inline std::int64_t lastOf(const std::string& station) {
    return station == "icu-1" ? ofOne : ofOther;
}

inline std::vector<logbook::RecordName> eachRecord() {
    std::vector<logbook::RecordName> names;
    for (const std::string station : {"icu-1", "icu-2"}) {
        for (std::int64_t seq = 1; seq <= lastOf(station); ++seq) {
            names.push_back({station, seq});
        }
    }
    return names;
}

class Victim {
public:
    // Each from the bytes of the same one: there are many, and writing takes its time.
    Victim() : m_logbook(copyOf(freshBytes(), path())) {}
    [[nodiscard]] Logbook& logbook() { return m_logbook; }
    [[nodiscard]] std::filesystem::path path() const { return m_folder / "log"; }
    void noteVerified() { REQUIRE(m_logbook.noteVerified(*m_logbook.verify(), writing())); }
    void tamper(const std::string& sql) { test::tamper(path(), sql); }
    [[nodiscard]] std::vector<Break> breaks() {
        const auto report = m_logbook.verify();
        REQUIRE(report);
        CHECK(report->schemaChanged.empty());
        CHECK(report->ok() == report->breaks.empty());
        return report->breaks;
    }

private:
    static const std::string& freshBytes() {
        static const std::string bytes = [] {
            const TemporaryFolder folder;
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", ofOne));
            append(logbook, notes("icu-2", ofOther));
            return bytesOf(folder / "log");
        }();
        return bytes;
    }
    static Logbook copyOf(const std::string& bytes, const std::filesystem::path& path) {
        writeBytes(path, bytes);
        return open(path);
    }

    TemporaryFolder m_folder;
    Logbook m_logbook;
};

inline std::string hexOf(const Hash& hash) {
    return "x'" + toHex(hash) + "'";
}

}  // namespace store::test
