// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The few records of a long logbook on which an answer rests: looked for once in the text of all of
// them, and from then on only among those that came in since. Knows nothing of the answers.
#pragma once

#include "logbook/record.h"
#include "station/problem.h"
#include "station/surroundings.h"
#include "station/system.h"
#include "store/logbook.h"

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string_view>
#include <vector>

namespace station {

// By one thread at a time.
class FoundRecords {
public:
    // Where to look: records of these kinds of which the text may be that of one wanted. One too
    // many does no harm.
    struct Look {
        std::vector<std::string> kinds;
        std::function<bool(std::string_view device, std::string_view content)> mayBeWanted;
    };
    struct Search {
        std::vector<Look> looks;
        std::function<bool(const logbook::Record&)> isWanted;
    };

    // Whether there are others than before. The search is the same each time, or all is forgotten
    // before; where another file has taken the place of that one, it is.
    [[nodiscard]] Result<bool> renew(const Surroundings& surroundings,
                                     const store::Logbook& logbook, const Search& search);
    void forget();

    // False: some could not be read, and may be among those wanted. The whole log names them.
    [[nodiscard]] bool hasReadAll() const { return m_hasReadAll; }

    using Records = std::map<logbook::RecordName, logbook::Record>;
    [[nodiscard]] const Records& records() const { return m_records; }

private:
    [[nodiscard]] tl::expected<void, store::Trouble> lookThrough(const store::Logbook& logbook,
                                                                 const Search& search);
    [[nodiscard]] tl::expected<void, store::Trouble> addArrived(const store::Logbook& logbook,
                                                                const Search& search);
    void add(logbook::Record&& record, const Search& search);

    std::filesystem::path m_path;
    std::optional<system::FileIdentity> m_identity;
    std::int64_t m_arrival = 0;  // up to which all was looked at; 0: nothing was
    bool m_hasReadAll = true;
    Records m_records;
};

}  // namespace station
