// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps from one schema to the next; see migration.h.
#include "store/migration.h"

#include "store/connection.h"
#include "store/schema.h"

#include <string>
#include <utility>

namespace store {

namespace {

using Access = OpenOptions::Access;
using Code = Trouble::Code;

tl::expected<void, Trouble> takeSteps(const Connection& connection, int from) {
    SQLite::Database& database = connection.database();
    if (schemaIn(database) != from) {
        return tl::unexpected<Trouble>(connection.trouble(Code::LogMoved));
    }
    for (const OlderSchema& schema : olderSchemas()) {
        if (schema.version >= from) {
            database.exec(schema.step);
        }
    }
    database.exec("PRAGMA user_version = " + std::to_string(schemaVersion));
    const auto report = verifyAs(schemaVersion, connection, {});
    if (!report) {
        return tl::unexpected<Trouble>(report.error());
    }
    if (report->diskFailed) {
        return tl::unexpected<Trouble>(connection.trouble(
            Code::Io, report->integrity.empty() ? "" : report->integrity.front()));
    }
    if (!report->ok()) {
        return tl::unexpected<Trouble>(connection.trouble(Code::ChainBroken));
    }
    return {};
}

}  // namespace

tl::expected<std::optional<Migrated>, Trouble> migrate(const std::filesystem::path& path,
                                                       const MigrateTo& to,
                                                       const Writing& writing) {
    const auto connection =
        Connection::open(path, {Access::Write, to.trustLocks}, Schemas::Older);
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    const int from = (*connection)->schema();
    if (from == schemaVersion) {
        return std::nullopt;
    }
    auto backup = backUp(**connection, to.backup, {});
    if (!backup) {
        return tl::unexpected<Trouble>(backup.error());
    }
    const auto done =
        (*connection)->writing(writing, [&] { return takeSteps(**connection, from); });
    if (!done) {
        return tl::unexpected<Trouble>(done.error());
    }
    return Migrated{from, std::move(*backup)};
}

}  // namespace store
