// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must hold of canonical JSON and of a record's content, on values made at random.
#include "logbook/json.h"
#include "logbook/record_reader.h"
#include "support/seed.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <iostream>
#include <random>
#include <string>

using namespace logbook;

namespace {

class Maker {
public:
    explicit Maker(std::uint32_t seed) : m_engine(seed) {}

    json::Value value(int depth) {
        switch (below(depth > 0 ? 7 : 5)) {
        case 0: return nullptr;
        case 1: return below(2) == 0;
        case 2: return number();
        case 3: return below(100000) / 100.0;
        case 4: return text();
        case 5: return array(depth);
        default: return object(depth);
        }
    }

    json::Object object(int depth) {
        json::Object members;
        const auto count = below(below(8) == 0 ? 30 : 6);
        for (int index = 0; index < count; ++index) {
            const std::string name = below(8) == 0 ? instantNames[below(4)] : text();
            if (json::Value(members).find(name) == nullptr) {
                members.emplace_back(name, value(depth - 1));
            }
        }
        return members;
    }

    json::Value shuffled(json::Value value) {
        if (auto* array = value.array()) {
            for (auto& element : *array) {
                element = shuffled(std::move(element));
            }
        } else if (auto* members = value.object()) {
            std::shuffle(members->begin(), members->end(), m_engine);
            for (auto& member : *members) {
                member.second = shuffled(std::move(member.second));
            }
        }
        return value;
    }

    int below(int limit) { return std::uniform_int_distribution<int>(0, limit - 1)(m_engine); }

private:
    static constexpr const char* instantNames[] = {"at", "entered", "until", "body"};

    json::Array array(int depth) {
        json::Array elements;
        for (int count = below(6); count > 0; --count) {
            elements.push_back(value(depth - 1));
        }
        return elements;
    }

    // Any finite double, by its bits.
    double number() {
        for (;;) {
            const auto bits = std::uniform_int_distribution<std::uint64_t>()(m_engine);
            const auto number = std::bit_cast<double>(bits);
            if (std::isfinite(number)) {
                return number;
            }
        }
    }

    std::string text() {
        static const char* const pieces[] = {"a",  "b",      "\"",     "\\",         "\n",
                                             "é",  "\u0001", "\ufb33", "\U0001f602", "\u20ac",
                                             "/",  " ",      "\x7f",   "\ue000",     "z"};
        if (below(10) == 0) {
            return below(2) == 0 ? "2026-03-02T14:00:00.000Z" : "2026-03-02T14:00:00.001Z";
        }
        std::string text;
        for (int count = below(5); count > 0; --count) {
            text += pieces[below(15)];
        }
        return text;
    }

    std::mt19937 m_engine;
};

constexpr int runs = 3000;
constexpr int depth = 5;

std::uint32_t freshSeed() {
    const auto seed = support::seedOfRun();
    std::cout << "seed " << seed << '\n';
    return seed;
}

bool holdsNullMember(const json::Value& value) {
    if (const auto* array = value.array()) {
        return std::any_of(array->begin(), array->end(), holdsNullMember);
    }
    const auto* object = value.object();
    return object != nullptr && std::any_of(object->begin(), object->end(), [](const auto& member) {
        return member.second.isNull() || holdsNullMember(member.second);
    });
}

}  // namespace

TEST_CASE("Canonical text and the writing for people read back the same", "[property]") {
    const std::uint32_t seed = freshSeed();
    Maker maker(seed);
    for (int run = 0; run < runs; ++run) {
        const json::Value value = maker.value(depth);
        const std::string text = json::canonical(value);
        INFO("seed " << seed << ", run " << run << ": " << text);
        const auto again = json::parse(text);
        REQUIRE(again);
        REQUIRE(json::canonical(*again) == text);
        const auto forPeople = json::parse(json::pretty(value));
        REQUIRE(forPeople);
        REQUIRE(*forPeople == value);
    }
}

TEST_CASE("The order of members does not bear on the canonical text", "[property]") {
    const std::uint32_t seed = freshSeed();
    Maker maker(seed);
    for (int run = 0; run < runs; ++run) {
        const json::Value value = maker.value(depth);
        INFO("seed " << seed << ", run " << run);
        REQUIRE(json::canonical(maker.shuffled(value)) == json::canonical(value));
    }
}

TEST_CASE("Content is the content of itself and holds no null member", "[property]") {
    const std::uint32_t seed = freshSeed();
    Maker maker(seed);
    for (int run = 0; run < runs; ++run) {
        const json::Value content = contentOf(maker.object(depth));
        INFO("seed " << seed << ", run " << run << ": " << json::canonical(content));
        REQUIRE(contentOf(content) == content);
        REQUIRE_FALSE(holdsNullMember(content));
    }
}

TEST_CASE("A text cut or changed anywhere is read or refused, never more", "[property]") {
    const std::uint32_t seed = freshSeed();
    Maker maker(seed);
    for (int run = 0; run < runs; ++run) {
        std::string text = json::canonical(maker.object(depth));
        const auto place = static_cast<std::size_t>(maker.below(static_cast<int>(text.size())));
        if (maker.below(2) == 0) {
            text.resize(place);
        } else {
            text[place] = static_cast<char>(maker.below(256));
        }
        INFO("seed " << seed << ", run " << run << ": " << text);
        const auto record = readRecord(text);
        REQUIRE_FALSE(record);
        REQUIRE_FALSE(record.error().empty());
    }
}
