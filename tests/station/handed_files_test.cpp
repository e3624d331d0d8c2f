// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files that are handed in: room is made for as many records as there may be in them.
#include "station/handed_files.h"

#include "station/ward.h"

using support::noteLine;

namespace {

station::Result<station::HandedFiles> handed(const support::Folder& folder,
                                             const std::string& bytes) {
    return station::HandedFiles::read(*words::Words::builtIn(),
                                      {folder.write("in.jsonl", bytes)});
}

}  // namespace

TEST_CASE("A file of line ends asks for no more memory than it has bytes", "[fault]") {
    const support::Folder folder;
    std::string bytes(1 << 20, '\n');
    for (int seq = 1; seq <= 300; ++seq) {
        bytes += noteLine("icu-2", seq);
    }
    const auto read = handed(folder, bytes);
    REQUIRE(read);
    REQUIRE(read->records().size() == 300);
    CHECK(read->records().back().seq == 300);
    CHECK(read->records().capacity() * sizeof(store::LentRecord) <= bytes.size());
}
