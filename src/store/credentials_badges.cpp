// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Badges: whose a badge is at this station; see credentials.h.
#include "store/credential_call.h"

namespace store {

tl::expected<bool, Trouble> Credentials::setBadge(const std::string& person,
                                                  const std::optional<std::string>& badge,
                                                  const Writing& writing) const {
    const auto connection = openFor(m_path, options(OpenOptions::Access::Write));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    using IsSet = tl::expected<bool, Trouble>;
    return writingWholeAt(**connection, m_arrival, writing, [&]() -> IsSet {
        auto& database = (*connection)->database();
        SQLite::Statement others(database,
                                 "SELECT 1 FROM local_badges WHERE badge = ? AND person <> ?");
        others.bind(1, badge.value_or(""));
        others.bind(2, person);
        if (badge && others.executeStep()) {
            return false;
        }
        SQLite::Statement away(database, "DELETE FROM local_badges WHERE person = ?");
        away.bind(1, person);
        away.exec();
        if (badge) {
            SQLite::Statement statement(
                database, "INSERT OR ABORT INTO local_badges (badge, person) VALUES (?, ?)");
            statement.bind(1, *badge);
            statement.bind(2, person);
            statement.exec();
        }
        return true;
    });
}

tl::expected<std::vector<Badge>, Trouble> Credentials::badges() const {
    const auto connection = Connection::open(m_path, options(OpenOptions::Access::Read));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return (*connection)->guarded([&]() -> tl::expected<std::vector<Badge>, Trouble> {
        SQLite::Statement statement((*connection)->database(),
                                    "SELECT badge, person FROM local_badges ORDER BY person");
        std::vector<Badge> badges;
        while (statement.executeStep()) {
            badges.push_back({statement.getColumn(0).getString(),
                              statement.getColumn(1).getString()});
        }
        return badges;
    });
}

}  // namespace store
