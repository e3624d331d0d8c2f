// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who has a PIN here; see credentials.h. Reads no hash.
#include "store/credentials.h"

#include "store/connection.h"
#include "store/credential_call.h"

namespace store {

tl::expected<std::vector<Credential>, Trouble> Credentials::pins() const {
    const auto connection = Connection::open(m_path, options(OpenOptions::Access::Read));
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return (*connection)->guarded([&]() -> tl::expected<std::vector<Credential>, Trouble> {
        SQLite::Statement statement((*connection)->database(),
                                    "SELECT person, failures, set_by, set_ms, failed_ms FROM"
                                    " local_credentials WHERE purpose = 'pin' ORDER BY person");
        std::vector<Credential> pins;
        while (statement.executeStep()) {
            const int failures = failuresIn(statement.getColumn(1));
            pins.push_back({statement.getColumn(0).getString(), failures,
                            failures >= failuresUntilLocked, statement.getColumn(2).getString(),
                            {statement.getColumn(3).getInt64()},
                            {statement.getColumn(4).getInt64()}});
        }
        return pins;
    });
}

}  // namespace store
