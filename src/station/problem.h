// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why a use case could not be carried out, in sentences for a person, and the making of these from
// what the layers below report. Knows no screen.
#pragma once

#include "exchange/record_file.h"
#include "rules/log.h"
#include "station/system.h"
#include "store/trouble.h"
#include "words/words.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace station {

struct Problem {
    enum class Weight {
        Input,    // the call or what was handed in is wrong
        Logbook,  // the logbook cannot be opened, or not read as far as is needed
    };
    Weight weight = Weight::Input;
    std::string code;                  // the key of the sentences: "trouble.busy"
    words::Notice notice;
    std::vector<std::string> details;  // a line each: what exactly is wrong, and where
};

template <class Value>
using Result = tl::expected<Value, Problem>;

// From the sentences CODE.says, CODE.safe and CODE.do.
[[nodiscard]] Problem problemOf(const words::Words& words, std::string_view code,
                                const words::Gaps& gaps = {},
                                Problem::Weight weight = Problem::Weight::Input);

// What goes wrong in opening, reading and writing is the logbook's; what was refused is the call's.
[[nodiscard]] Problem problemOf(const words::Words& words, const store::Trouble& trouble);

// A file of records or rules.
[[nodiscard]] Problem problemOf(const words::Words& words, system::FileTrouble trouble,
                                const std::filesystem::path& path);

[[nodiscard]] Problem problemOf(const words::Words& words,
                                const exchange::RecordFileFault& fault,
                                const std::filesystem::path& path);

// A record that breaks the format.
[[nodiscard]] Problem problemOf(const words::Words& words, const logbook::RecordFaults& faults);

// A record in the logbook without which nothing can be judged.
[[nodiscard]] Problem problemOf(const words::Words& words, const rules::LogFault& fault);

// "Line 3, column 9, checks.leak.takes: …" for each.
[[nodiscard]] std::vector<std::string> remarkLines(
    const words::Words& words, const std::vector<rules::RulebookRemark>& remarks);

// What the fault is, and what to do, without its place.
[[nodiscard]] words::Sentence remarkSentence(const words::Words& words,
                                             const rules::RulebookRemark& remark);

}  // namespace station
