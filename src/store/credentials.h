// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The secrets by which people sign in at one station: hashes of PINs in the logbook file, with the
// failures that were counted against each. May not know persons, roles or what makes a good PIN.
// A secret handed in is never copied, and no hash is ever handed out.
#pragma once

#include "store/logbook.h"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace store {

// After so many failures in a row a PIN is not looked at any more, right or wrong.
inline constexpr int failuresUntilLocked = 10;

// How long nothing is looked at after so many failures in a row: 1, 2, 4 … at most 60 s.
[[nodiscard]] logbook::Duration waitAfter(int failures);

struct Trial {
    enum class Outcome {
        Right,    // the failures so far are forgotten
        Wrong,    // and counted
        Waiting,  // not looked at: too soon after a failure
        Locked,   // not looked at: failuresUntilLocked
        NotSet,   // there is no such secret
    };
    Outcome outcome = Outcome::NotSet;
    int failures = 0;          // in a row, this one included
    logbook::Duration wait{};  // until one is looked at again
    bool operator==(const Trial&) const = default;
};

// Whose PIN is set here, and what has been tried on it.
struct Credential {
    std::string person;
    int failures = 0;  // in a row
    bool locked = false;
    std::string setBy;
    logbook::Instant setAt{};
    logbook::Instant failedAt{};  // the last failure, if there are any
    bool operator==(const Credential&) const = default;
};

// How long it still is until that PIN is looked at; a lock is another matter.
[[nodiscard]] logbook::Duration waitLeft(const Credential& pin, logbook::Instant now);

// Persons and PINs that are no secrets: those of a demo.
using Pins = std::vector<std::pair<std::string, std::string>>;

struct Badge {
    std::string badge, person;
    bool operator==(const Badge&) const = default;
};

// The first PIN of a file and the code that goes with it; besides, where they are given, the
// station that the file has from then on and its first records. All of it in one transaction.
struct Beginning {
    std::string person;
    std::string_view pin, code;
    std::string station{};   // empty: as it is
    OwnRecords records{};    // as for Logbook::appendOwn
};

// A code that gives a person a new PIN and is then used up: another takes its place.
struct Recovery {
    std::string person;
    std::string_view code, pin, nextCode;
};

// The clock, asked for the time of a try while the lock is held: a question that was put long ago
// must not make a try an early one.
using Now = std::function<logbook::Instant()>;

// One logbook file. Each call opens the file by itself and leaves nothing of it in memory. Trouble
// as in opening and writing a Logbook. A clock that has been set back since a failure lets its wait
// begin anew, so that it is never shorter.
// Hashing takes about a tenth of a second and 64 MiB, and never holds the lock.
class Credentials {
public:
    explicit Credentials(std::filesystem::path path, bool trustLocks = false,
                         int busyTimeoutMs = defaultBusyTimeoutMs);

    // The same, but writing only as long as no record has come in after the one with that
    // `arrival`, on which rests that they may be written: else LogMoved, and nothing is written.
    [[nodiscard]] Credentials onlyAt(std::int64_t arrival) const;

    // The names of the records written. Nothing, and nothing written, if there is a PIN already.
    [[nodiscard]] tl::expected<std::optional<std::vector<logbook::RecordName>>, Trouble> begin(
        const Beginning& beginning, const Writing& writing) const;

    // Takes the place of the old PIN, forgets its failures and unlocks it.
    [[nodiscard]] tl::expected<void, Trouble> setPin(const std::string& person,
                                                     std::string_view pin,
                                                     const Writing& writing) const;

    // The same for many, hashed on all processors at once.
    [[nodiscard]] tl::expected<void, Trouble> setPins(const Pins& pins,
                                                      const Writing& writing) const;

    // Two programs that try at once are looked at one after the other: a try that comes before the
    // wait of another's failure is over is told to wait, right or wrong.
    [[nodiscard]] tl::expected<Trial, Trouble> tryPin(const std::string& person,
                                                      std::string_view pin,
                                                      const Now& now) const;

    // Sets the PIN if the code is right. It makes wait, but is never locked: who could unlock it?
    [[nodiscard]] tl::expected<Trial, Trouble> recover(const Recovery& recovery,
                                                       const Now& now) const;

    // Takes the place of the old recovery code and lets nobody wait for its failures any more.
    [[nodiscard]] tl::expected<void, Trouble> setCode(std::string_view code,
                                                      const Writing& writing) const;

    // Nothing takes the person's badge away. False, and nothing written, if it is another's.
    [[nodiscard]] tl::expected<bool, Trouble> setBadge(const std::string& person,
                                                       const std::optional<std::string>& badge,
                                                       const Writing& writing) const;

    // By person.
    [[nodiscard]] tl::expected<std::vector<Credential>, Trouble> pins() const;
    [[nodiscard]] tl::expected<std::vector<Badge>, Trouble> badges() const;

private:
    [[nodiscard]] OpenOptions options(OpenOptions::Access access) const;

    std::filesystem::path m_path;
    bool m_trustLocks;
    int m_busyTimeoutMs;
    std::optional<std::int64_t> m_arrival{};
};

}  // namespace store
