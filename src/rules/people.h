// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// People in a log: who is known in which roles, who may say who holds one, and which entries stand
// under the name of somebody who has yet to confirm them.
#pragma once

#include "rules/log.h"

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

// The persons known and the edition in force at `at`, and nothing else of a state: for little,
// since neither depends on other records. Precondition: log.firstEdition().
[[nodiscard]] State peopleAt(const Log& log, Instant at);

// Who may write `person` records: known then, and in one of the roles that the edition names for
// it, if it names any.
[[nodiscard]] bool isManager(const State& people, const std::string& person, Instant at);

// Those who are, by their keys; sorted.
[[nodiscard]] std::vector<std::string> managers(const State& people, Instant at);

// Every role that the edition's [authority] names; sorted.
[[nodiscard]] std::vector<std::string> rolesOfAuthority(const Rulebook& rulebook);

// These, those who may release a hold, and those that have a label; sorted.
[[nodiscard]] std::vector<std::string> rolesNamed(const Rulebook& rulebook);

// Whose word it is that an entry is theirs: its writer's or, where it takes the place of one on
// another unit, the writer's of that one.
[[nodiscard]] const std::string& confirmerOf(const Log& log, const logbook::Record& record);

// The records, by index, that say `confirmed: false` or take the place of one that does, are not
// struck through, and that no `review` by that person with the disposition "confirmed" confirms. A
// review counts only if it stands, was signed itself and its writer was allowed to write it.
[[nodiscard]] std::vector<std::size_t> unconfirmed(const Log& log);

// The others that said so once: by the index of the entry that of the review which counts and
// confirms it; of several the last.
[[nodiscard]] std::map<std::size_t, std::size_t> confirmations(const Log& log);

// What that person says of an entry under their name: a review's disposition.
inline constexpr std::string_view confirmedWord = "confirmed";
inline constexpr std::string_view notMineWord = "not_mine";

// Those of them, by index, of which that person says, in a review that counts likewise, that they
// are not theirs. They go on standing, and can be confirmed all the same.
[[nodiscard]] std::set<std::size_t> disowned(const Log& log,
                                             const std::vector<std::size_t>& unconfirmed);

}  // namespace rules
