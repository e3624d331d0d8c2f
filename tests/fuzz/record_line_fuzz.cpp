// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Any bytes as a line of a record file: it is refused with a reason, or its content is a record
// again, the same to the byte. The quick reader of a logbook takes no line that is refused, and
// reads what it takes alike.
#include "logbook/canonical_reader.h"
#include "logbook/record_reader.h"
#include "support/told_record.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace {

void demand(bool holds, const char* what) {
    if (!holds) {
        std::fprintf(stderr, "broken: %s\n", what);
        std::abort();
    }
}

void compareQuick(std::string_view line) {
    logbook::Record quick;
    for (int number = 0; number < logbook::kindCount; ++number) {
        const auto kind = logbook::kindName(static_cast<logbook::Kind>(number));
        if (!logbook::readCanonical(line, kind, quick)) continue;
        const auto record = logbook::readRecord(line);
        demand(record.has_value(), "what the quick reader takes is a record");
        demand(support::told(quick) == support::told(*record), "both readers read alike");
    }
    if (logbook::readCanonical(line, quick)) {
        const auto record = logbook::readRecord(line);
        demand(record && support::told(quick) == support::told(*record), "unasked too");
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view line(reinterpret_cast<const char*>(data), size);
    compareQuick(line);
    const auto record = logbook::readRecord(line);
    if (!record) {
        demand(!record.error().empty(), "a refusal has a reason");
        return 0;
    }
    const auto value = logbook::json::parse(line);
    demand(value.has_value(), "what a record was read from is JSON");
    const std::string content = logbook::json::canonical(logbook::contentOf(*value));
    compareQuick(content);
    const auto again = logbook::readRecord(content);
    demand(again.has_value(), "the content of a record is a record");
    const auto parsed = logbook::json::parse(content);
    demand(parsed && logbook::json::canonical(logbook::contentOf(*parsed)) == content,
           "the content of a record's content is the same");
    return 0;
}
