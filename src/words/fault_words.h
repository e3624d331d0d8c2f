// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is wrong with what was read, and trouble with files and stations, in words. Trouble comes as
// the text of a code with named gaps, so that no layer below has to be known here.
#pragma once

#include "logbook/record_reader.h"
#include "rules/log.h"
#include "rules/rulebook_reader.h"
#include "words/words.h"

#include <string_view>

namespace words {

// What is wrong with a line of a record file. Where the line stands is for the caller to say.
[[nodiscard]] Sentence recordFault(const Words& words, const logbook::RecordFault& fault);

// "Line 31, column 9, checks.leak.takes: …"
[[nodiscard]] Sentence rulebookRemark(const Words& words, const rules::RulebookRemark& remark);

// Why there is no verdict. The faults of a rulebook are said by rulebookRemark.
[[nodiscard]] Notice logFault(const Words& words, const rules::LogFault& fault);

// Trouble by the word of its code ("busy", "disk_full") and what goes into its gaps: path, detail,
// station, person, computer, time, record, records, type, group, groups, device, text, count. Times
// are text already. A gap that is not given reads "unknown"; "busy" without a person is told as
// such; an unknown word is told with its detail.
[[nodiscard]] Notice trouble(const Words& words, std::string_view code, const Gaps& gaps = {});

// What verify found, by the word of its reason ("hash", "gap"); gaps: record, detail.
[[nodiscard]] Sentence chainBreak(const Words& words, std::string_view reason,
                                  const Gaps& gaps = {});

}  // namespace words
