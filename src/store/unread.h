// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the disk does not give of a logbook: a part of it, all of it, or the journal by which a
// write that was cut off is undone. For this folder only.
//
// What a Trouble says of it, by `code` and `isUnread`:
//
//   Damaged               a page, or a value, is not what a logbook has there
//   Damaged, unread       asked twice, the disk does not give that, but it gives other places
//   Io                    the disk or the system failed at something, or gave nothing for a moment
//   Io, unread            the disk gives nothing of the file: nobody knows what is in it
//   NeedsRecovery         a write was cut off, and it cannot be undone here
//   NeedsRecovery, unread for the disk does not give the journal by which it would be
//
// What an exception of the database is, from the narrow to the wide:
//
//   isRefusal             the disk did not give it: the database's code says so
//   isRefusedBy           or it took that for damage: the system's last error or the journal tells
//   Connection::isRefused or it was the connection that writes, which is gone by then
//   isDamage              or nothing of this, and the page is not what it has to be
//
// And the trouble made of it: trouble and troubleOf of what was asked for once, lastingTrouble of
// what was asked for twice, unreadTrouble of what is known not to be given. reasonOf is what the
// system said then, reasonAtBeginning what it says now of the first byte. isDiskThere: one of a few
// places is given; isNothingGiven: none is, and there are some.
//
// How Connection::readingRound ends, in this order:
//
//   1. the answer, at once
//   2. a write that was cut off was undone first, or the file is opened to write and the disk did
//      not give it: what is asked once more comes to, and nothing is read round
//   3. the trouble, where the file is opened to write, or it is no damage
//   4. the disk did not give it, and is asked once more: the answer, or trouble that is no damage
//   5. what can be read round; but Io where by then the disk gives nothing at all
#pragma once

#include "store/trouble.h"

#include <filesystem>
#include <optional>
#include <string>

namespace store {

// Whether it has something there and gives none of it.
[[nodiscard]] bool isNothingGiven(const std::filesystem::path& file);

// Whether something stands beside the database by which a write that was cut off is undone, and
// nobody is writing.
[[nodiscard]] bool hasJournalLeft(const std::filesystem::path& database);
// What the system says of it; nothing where it gives all of it, or there is none.
[[nodiscard]] std::optional<std::string> reasonOfJournal(const std::filesystem::path& database);

// Which of these it is.
[[nodiscard]] Trouble unreadTrouble(const std::filesystem::path& logbook,
                                    const std::string& reason);

}  // namespace store
