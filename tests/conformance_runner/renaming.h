// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same case with other names for everything that a department names: an engine that knows a
// rule of the trade by its name answers it differently. Knows the form of records, rulebooks and
// answers; the words that have a meaning of their own stay.
#pragma once

#include "conformance_runner/case_file.h"
#include "conformance_runner/names.h"

#include <cstdint>
#include <string>
#include <tl/expected.hpp>

namespace conformance {

// The same seed gives the same names. Error: a log file that cannot be read.
[[nodiscard]] tl::expected<Case, std::string> renamed(const Case& given, std::uint64_t seed);

// The parts of it.
[[nodiscard]] Value renamedRecord(const Value& record, Names& names);
[[nodiscard]] std::string renamedRulebook(const std::string& toml, Names& names);
[[nodiscard]] Value renamedAnswer(const Value& answer, Names& names);

// "icu-1/60"
[[nodiscard]] std::string renamedRecordName(const std::string& name, Names& names);

}  // namespace conformance
