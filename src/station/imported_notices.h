// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of the field notices in record files that are taken in: for import.h only.
#pragma once

#include "station/problem.h"
#include "station/surroundings.h"
#include "store/logbook.h"

#include <string>
#include <vector>

namespace station {

class ImportedNotices {
public:
    // Of those records the notices that are not here yet; asked before they are taken in.
    ImportedNotices(const store::Logbook& logbook, const std::vector<store::LentRecord>& records);

    // Once they are: which name what they concern by something that means nothing or lists
    // nothing, and what those that stand concern now.
    void addRemarks(const Surroundings& surroundings, const LogbookFile& file,
                    std::vector<std::string>& remarks) const;

private:
    std::vector<store::LentRecord> m_new;
};

}  // namespace station
