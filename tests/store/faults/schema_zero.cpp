// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The schema before the first; see schema_zero.h.
#include "schema_zero.h"

#include "store/schema.h"

#include <array>
#include <stdexcept>
#include <string>

namespace store::test {

namespace {

bool isKnown = false;

struct Zero {
    std::string text{schemaText}, step;

    Zero() {
        for (const auto* beginning :
             {"CREATE INDEX records_by_device", "CREATE TABLE local_badges"}) {
            const auto begin = text.find(beginning);
            const auto end = text.find(";\n", begin);
            if (begin == std::string::npos || end == std::string::npos) {
                throw std::runtime_error("the schema is another one");
            }
            step += text.substr(begin, end + 2 - begin);
            text.erase(begin, end + 2 - begin);
        }
    }
};

std::span<const OlderSchema> schemas() {
    static const Zero zero;
    static const std::array<OlderSchema, 1> all{{{0, zero.text.c_str(), zero.step.c_str()}}};
    return all;
}

}  // namespace

SchemaZero::SchemaZero() {
    isKnown = true;
}

SchemaZero::~SchemaZero() {
    isKnown = false;
}

// In the place of store::olderSchemas, by the name that the compiler gives it.
std::span<const OlderSchema> givenSchemas() asm("__wrap__ZN5store12olderSchemasEv");
std::span<const OlderSchema> givenSchemas() {
    return isKnown ? schemas() : std::span<const OlderSchema>();
}

}  // namespace store::test
