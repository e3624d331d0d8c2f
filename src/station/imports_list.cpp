// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of imports; see imports_list.h.
#include "station/imports_list.h"

#include "station/sign_in.h"
#include "words/context.h"

namespace station {

namespace {

// Without an edition nobody knows in which zone the department lives.
std::string whenText(const words::Words& words, const Gate& gate, logbook::Instant at) {
    if (gate.people() == nullptr) {
        return toText(at);
    }
    const words::Context context{words, *gate.people(), nullptr, gate.now(), {}, {}};
    return context.times().dated(at);
}

}  // namespace

Result<std::vector<ListedImport>> importsOf(const Surroundings& surroundings,
                                            const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto imports = logbook->imports();
    if (!imports) {
        return tl::unexpected(problemOf(surroundings.words, imports.error()));
    }
    const auto log = readWholeLog(surroundings, file);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    std::vector<ListedImport> list;
    for (const auto& import : *imports) {
        list.push_back({import.at, whenText(surroundings.words, gate, import.at), import.person,
                        gate.nameOf(import.person), import.file, import.added, import.skipped});
    }
    return list;
}

}  // namespace station
