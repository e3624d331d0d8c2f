// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a sentence about a unit may draw on, and the labels of the keys in it.
#pragma once

#include "rules/assess.h"
#include "rules/state.h"
#include "words/times.h"
#include "words/words.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace words {

// The record of that name; null if it is not at hand.
using RecordLookup = std::function<const logbook::Record*(const logbook::RecordName&)>;

// All references must outlive this. `state.rulebook` is set.
struct Context {
    const Words& words;
    const rules::State& state;
    const rules::Device* device = nullptr;  // none: told from the records alone
    logbook::Instant asked{};
    std::optional<std::string> group;  // for which it was assessed
    RecordLookup lookup;               // may be empty
    // Of an entry made while its writer had not signed in, by its name the review by which they
    // have put their name to it since. May be empty: then none is told of.
    RecordLookup confirmations{};

    [[nodiscard]] Times times() const;
    [[nodiscard]] const logbook::Record* record(const logbook::RecordName& name) const;
    [[nodiscard]] const logbook::Record* confirmation(const logbook::RecordName& entry) const;
    [[nodiscard]] const rules::FittedPart* fitted(std::string_view position) const;
};

// Labels as they stand in a table: "Flow sensor", "Neonatal". A key the edition does not name is
// shown with blanks for underscores.
[[nodiscard]] std::string groupLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string positionLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string checkLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string serviceLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string holdLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string faultLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string conflictLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string choiceLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string alarmLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string conditionLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string roleLabel(const Context& context, std::string_view key);
[[nodiscard]] std::string measureLabel(const Context& context, std::string_view check,
                                       std::string_view key);
// What a finding is about, whatever that is: "Flow sensor", "Held after an incident", "".
[[nodiscard]] std::string subjectLabel(const Context& context, const rules::Finding& finding);

// "Biomedical engineer or Risk manager".
[[nodiscard]] std::string roleList(const Context& context, const std::vector<std::string>& roles);

// The same, each with the people who hold it at the instant asked, the first few by name:
// "Biomedical engineer (Bastian Wren) or Risk manager (nobody at present)".
[[nodiscard]] std::string rolesWithPeople(const Context& context,
                                          const std::vector<std::string>& roles);

// The roles that may write that kind; empty: anyone. A hold's own `release_by` goes before.
[[nodiscard]] std::vector<std::string> rolesFor(const Context& context, logbook::Kind kind,
                                                std::string_view hold = {});

// The name of a person, or what the record calls them.
[[nodiscard]] std::string personName(const Context& context, std::string_view person);

// The rulebook's own advice in this language; empty if it gives none.
[[nodiscard]] std::string adviceOf(const Context& context, const rules::Named* named);

[[nodiscard]] std::string verdictWord(const Words& words, rules::Verdict verdict);
[[nodiscard]] std::string statusWord(const Words& words, rules::CheckStatus status);

}  // namespace words
