// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// PINs and the recovery code in the logbook file; see credentials.h.
#include "store/credentials.h"

#include "store/credential_call.h"
#include "store/secret_hash.h"

#include <algorithm>
#include <atomic>
#include <functional>
#include <memory>
#include <system_error>
#include <thread>
#include <utility>

namespace store {

namespace {

using Outcome = Trial::Outcome;

constexpr const char* pinPurpose = "pin";
constexpr const char* recoveryPurpose = "recovery";
constexpr const char* nobody = "";

// One row of the table.
struct Secret {
    SecretHash hash;
    int failures = 0;
    logbook::Instant failedAt{};
};

// Which row, and whether failures can lock it.
struct Place {
    const char* purpose;
    std::string person;
    [[nodiscard]] bool canBeLocked() const { return purpose == pinPurpose; }
};

bool read(SQLite::Database& database, const Place& place, Secret& secret) {
    SQLite::Statement statement(database,
                                "SELECT hash, failures, failed_ms FROM local_credentials"
                                " WHERE purpose = ? AND person = ?");
    statement.bind(1, place.purpose);
    statement.bind(2, place.person);
    if (!statement.executeStep()) {
        return false;
    }
    secret.hash.take(statement.getColumn(0).getText());
    secret.failures = failuresIn(statement.getColumn(1));
    secret.failedAt = {statement.getColumn(2).getInt64()};
    return true;
}

void write(SQLite::Database& database, const Place& place, const SecretHash& hash,
           const Writing& writing) {
    SQLite::Statement statement(
        database,
        "INSERT OR ABORT INTO local_credentials"
        " (purpose, person, hash, failures, failed_ms, set_by, set_ms)"
        " VALUES (?, ?, ?, 0, 0, ?, ?) ON CONFLICT (purpose, person) DO UPDATE SET"
        " hash = excluded.hash, failures = 0, failed_ms = 0, set_by = excluded.set_by,"
        " set_ms = excluded.set_ms");
    statement.bind(1, place.purpose);
    statement.bind(2, place.person);
    statement.bindNoCopy(3, hash.text());
    statement.bind(4, writing.person);
    statement.bind(5, writing.at.ms);
    statement.exec();
}

void note(SQLite::Database& database, const Place& place, int failures, logbook::Instant at) {
    SQLite::Statement statement(database,
                                "UPDATE local_credentials SET failures = ?, failed_ms = ?"
                                " WHERE purpose = ? AND person = ?");
    statement.bind(1, failures);
    statement.bind(2, at.ms);
    statement.bind(3, place.purpose);
    statement.bind(4, place.person);
    statement.exec();
}

bool isLocked(const Place& place, int failures) {
    return place.canBeLocked() && failures >= failuresUntilLocked;
}

logbook::Duration waitLeftAfter(int failures, logbook::Instant failedAt, logbook::Instant now) {
    const auto wait = waitAfter(failures);
    if (now < failedAt) {
        return wait;
    }
    return std::max(logbook::Duration{0}, failedAt + wait - now);
}

logbook::Duration waitLeft(const Secret& secret, logbook::Instant now) {
    return waitLeftAfter(secret.failures, secret.failedAt, now);
}

// A try of one secret. Whether it is right is found out before the lock is taken, and told only if
// the row, read again under the lock, still allows for a try.
class Trying {
public:
    Trying(const Connection& connection, Place place, std::string person, const Now& now)
        : m_connection(connection), m_place(std::move(place)), m_person(std::move(person)),
          m_now(now) {}

    void onlyAt(std::optional<std::int64_t> arrival) { m_arrival = arrival; }
    // As writingWholeAt: for what writes more than how often it failed.
    void onlyInWhole() { m_isOnlyInWhole = true; }

    // What is done in the same transaction once the secret was right.
    using WhenRight = std::function<void(SQLite::Database&, const Writing&)>;

    tl::expected<Trial, Trouble> run(std::string_view given, const WhenRight& whenRight) {
        for (;;) {
            auto trial = runOnce(given, whenRight);
            if (!trial || *trial) {
                return std::move(trial).map([](std::optional<Trial>&& done) { return *done; });
            }
        }
    }

private:
    using Once = tl::expected<std::optional<Trial>, Trouble>;

    // Nothing if the secret became another one meanwhile.
    Once runOnce(std::string_view given, const WhenRight& whenRight) {
        Secret before;
        const auto found = m_connection.guarded([&]() -> tl::expected<bool, Trouble> {
            return read(m_connection.database(), m_place, before);
        });
        if (!found) {
            return tl::unexpected<Trouble>(found.error());
        }
        if (!*found) {
            return std::optional(Trial{Outcome::NotSet});
        }
        const bool looked = !isLocked(m_place, before.failures) &&
                            waitLeft(before, m_now()) == logbook::Duration{0};
        const bool right = looked && before.hash.matches(given);
        const auto underLock = [&] { return settle({before, looked, right}, whenRight); };
        const Writing writing{m_person, m_now()};
        return m_isOnlyInWhole ? writingWholeAt(m_connection, m_arrival, writing, underLock)
                               : writingAt(m_connection, m_arrival, writing, underLock);
    }

    struct Looked {
        const Secret& at;
        bool isTried = false;
        bool isRight = false;
    };
    Once settle(const Looked& looked, const WhenRight& whenRight) {
        Secret now;
        if (!read(m_connection.database(), m_place, now)) {
            return std::optional(Trial{Outcome::NotSet});
        }
        if (!now.hash.isSame(looked.at.hash)) {
            return std::optional<Trial>();
        }
        auto trial = decide(now, looked.isTried, looked.isRight);
        if (trial && trial->outcome == Outcome::Right) {
            whenRight(m_connection.database(), {m_person, m_now()});
        }
        return trial;
    }

    std::optional<Trial> decide(const Secret& secret, bool looked, bool right) {
        auto& database = m_connection.database();
        const auto now = m_now();
        if (isLocked(m_place, secret.failures)) {
            return Trial{Outcome::Locked, secret.failures};
        }
        if (const auto wait = waitLeft(secret, now); wait > logbook::Duration{0}) {
            if (now < secret.failedAt) {
                note(database, m_place, secret.failures, now);
            }
            return Trial{Outcome::Waiting, secret.failures, wait};
        }
        if (!looked) {
            return std::nullopt;
        }
        if (!right) {
            note(database, m_place, secret.failures + 1, now);
            return Trial{Outcome::Wrong, secret.failures + 1, waitAfter(secret.failures + 1)};
        }
        if (secret.failures > 0) {
            note(database, m_place, 0, {});
        }
        return Trial{Outcome::Right};
    }

    const Connection& m_connection;
    Place m_place;
    std::string m_person;
    const Now& m_now;
    std::optional<std::int64_t> m_arrival{};
    bool m_isOnlyInWhole = false;
};

Trouble noMemory(const Connection& connection) {
    return connection.trouble(Trouble::Code::Io, "no memory to hash a secret");
}

struct NewSecret {
    Place place;
    std::string_view secret;
};

// In the place of what stands there, if anything does; its failures are forgotten.
tl::expected<void, Trouble> setSecret(
    const tl::expected<std::unique_ptr<Connection>, Trouble>& connection,
    std::optional<std::int64_t> arrival, const NewSecret& given, const Writing& writing) {
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    SecretHash hash;
    if (!hash.make(given.secret)) {
        return tl::unexpected<Trouble>(noMemory(**connection));
    }
    return writingWholeAt(**connection, arrival, writing, [&]() -> tl::expected<void, Trouble> {
        write((*connection)->database(), given.place, hash, writing);
        return {};
    });
}

bool makeAll(const Pins& pins, std::vector<SecretHash>& hashes) {
    std::atomic<std::size_t> next{0};
    std::atomic<bool> done{true};
    const auto work = [&] {
        for (auto index = next++; index < pins.size(); index = next++) {
            if (!hashes[index].make(pins[index].second)) {
                done = false;
            }
        }
    };
    const std::size_t most = std::max(1U, std::thread::hardware_concurrency()) - 1;
    std::vector<std::thread> others;
    others.reserve(most);
    try {
        while (others.size() < most) {
            others.emplace_back(work);
        }
    } catch (const std::system_error&) {
        // No more can be had: it takes longer.
    }
    work();
    for (auto& other : others) {
        other.join();
    }
    return done;
}

}  // namespace

logbook::Duration waitAfter(int failures) {
    constexpr int longestS = 60;
    if (failures <= 0) {
        return {0};
    }
    const int seconds = failures > 6 ? longestS : std::min(longestS, 1 << (failures - 1));
    return {seconds * 1000LL};
}

logbook::Duration waitLeft(const Credential& pin, logbook::Instant now) {
    return waitLeftAfter(pin.failures, pin.failedAt, now);
}

Credentials::Credentials(std::filesystem::path path, bool trustLocks, int busyTimeoutMs)
    : m_path(std::move(path)), m_trustLocks(trustLocks), m_busyTimeoutMs(busyTimeoutMs) {}

OpenOptions Credentials::options(OpenOptions::Access access) const {
    return {access, m_trustLocks, m_busyTimeoutMs};
}

Credentials Credentials::onlyAt(std::int64_t arrival) const {
    Credentials others = *this;
    others.m_arrival = arrival;
    return others;
}

tl::expected<std::optional<std::vector<logbook::RecordName>>, Trouble> Credentials::begin(
    const Beginning& beginning, const Writing& writing) const {
    using Names = std::vector<logbook::RecordName>;
    using Begun = tl::expected<std::optional<Names>, Trouble>;
    const auto connection = openFor(m_path, options(OpenOptions::Access::Write));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    SecretHash pinHash;
    SecretHash codeHash;
    if (!pinHash.make(beginning.pin) || !codeHash.make(beginning.code)) {
        return tl::unexpected<Trouble>(noMemory(**connection));
    }
    return writingWholeAt(**connection, m_arrival, writing, [&]() -> Begun {
        auto& database = (*connection)->database();
        if (database.execAndGet("SELECT count(*) FROM local_credentials").getInt() > 0) {
            return std::optional<Names>();
        }
        if (!beginning.station.empty()) {
            if (auto named = nameStation(**connection, beginning.station, writing.at); !named) {
                return tl::unexpected<Trouble>(named.error());
            }
        }
        auto names = beginning.records ? appendOwnRecords(**connection, beginning.records, writing)
                                       : tl::expected<Names, Trouble>();
        if (!names) {
            return tl::unexpected<Trouble>(names.error());
        }
        write(database, {pinPurpose, beginning.person}, pinHash, writing);
        write(database, {recoveryPurpose, nobody}, codeHash, writing);
        return std::optional(std::move(*names));
    });
}

tl::expected<void, Trouble> Credentials::setPin(const std::string& person, std::string_view pin,
                                                const Writing& writing) const {
    return setSecret(openFor(m_path, options(OpenOptions::Access::Write)), m_arrival,
                     {{pinPurpose, person}, pin}, writing);
}

tl::expected<void, Trouble> Credentials::setCode(std::string_view code,
                                                 const Writing& writing) const {
    return setSecret(openFor(m_path, options(OpenOptions::Access::Write)), m_arrival,
                     {{recoveryPurpose, nobody}, code}, writing);
}

tl::expected<void, Trouble> Credentials::setPins(const Pins& pins, const Writing& writing) const {
    const auto connection = openFor(m_path, options(OpenOptions::Access::Write));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    std::vector<SecretHash> hashes(pins.size());
    if (!makeAll(pins, hashes)) {
        return tl::unexpected<Trouble>(noMemory(**connection));
    }
    return writingWholeAt(**connection, m_arrival, writing, [&]() -> tl::expected<void, Trouble> {
        for (std::size_t index = 0; index < pins.size(); ++index) {
            write((*connection)->database(), {pinPurpose, pins[index].first}, hashes[index],
                  writing);
        }
        return {};
    });
}

tl::expected<Trial, Trouble> Credentials::tryPin(const std::string& person, std::string_view pin,
                                                 const Now& now) const {
    const auto connection = openFor(m_path, options(OpenOptions::Access::Write));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return Trying(**connection, {pinPurpose, person}, person, now)
        .run(pin, [](SQLite::Database&, const Writing&) {});
}

tl::expected<Trial, Trouble> Credentials::recover(const Recovery& recovery, const Now& now) const {
    const auto connection = openFor(m_path, options(OpenOptions::Access::Write));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    SecretHash pinHash;
    SecretHash nextHash;
    if (!pinHash.make(recovery.pin) || !nextHash.make(recovery.nextCode)) {
        return tl::unexpected<Trouble>(noMemory(**connection));
    }
    Trying trying(**connection, {recoveryPurpose, nobody}, recovery.person, now);
    trying.onlyAt(m_arrival);
    trying.onlyInWhole();
    return trying.run(recovery.code, [&](SQLite::Database& database, const Writing& writing) {
        write(database, {pinPurpose, recovery.person}, pinHash, writing);
        write(database, {recoveryPurpose, nobody}, nextHash, writing);
    });
}

}  // namespace store
