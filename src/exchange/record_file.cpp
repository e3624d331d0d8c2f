// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files: JSON Lines to records and back. Knows no file, no logbook and no rulebook.
#include "exchange/record_file.h"

#include "logbook/canonical_reader.h"

#include <algorithm>
#include <utility>

namespace exchange {

namespace {

constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";

// Takes the first line, without its end, off the front of `rest`.
std::string_view takeLine(std::string_view& rest) {
    const auto end = rest.find('\n');
    auto line = rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    if (line.ends_with('\r')) {
        line.remove_suffix(1);
    }
    return line;
}

bool isBlank(std::string_view line) {
    return line.find_first_not_of(" \t") == std::string_view::npos;
}

void note(RecordFileFault& fault, std::size_t line, logbook::RecordFaults faults) {
    if (fault.lines.size() < faultyLinesListed) {
        fault.lines.push_back({line, std::move(faults)});
    } else {
        ++fault.more;
    }
}

}  // namespace

tl::expected<std::vector<RecordLine>, RecordFileFault> readRecordFile(std::string_view bytes) {
    if (bytes.starts_with(byteOrderMark)) {
        return tl::unexpected(RecordFileFault{RecordFileFault::Code::ByteOrderMark, {}, 0});
    }
    std::vector<RecordLine> records;
    records.reserve(1 + static_cast<std::size_t>(std::count(bytes.begin(), bytes.end(), '\n')));
    RecordFileFault fault{RecordFileFault::Code::Lines, {}, 0};
    for (std::size_t number = 1; !bytes.empty(); ++number) {
        const auto line = takeLine(bytes);
        if (isBlank(line)) {
            continue;
        }
        RecordLine& kept = records.emplace_back(RecordLine{number, {}});
        // What another logbook exported is canonical; anything else is read with more care.
        if (logbook::readCanonical(line, kept.record)) {
            continue;
        }
        auto record = logbook::readRecord(line);
        if (record) {
            kept.record = std::move(*record);
        } else {
            records.pop_back();
            note(fault, number, std::move(record.error()));
        }
    }
    if (!fault.lines.empty()) {
        return tl::unexpected(std::move(fault));
    }
    return records;
}

std::string writeRecordFile(std::span<const logbook::Record> records) {
    std::string bytes;
    for (const auto& record : records) {
        bytes += record.content;
        bytes += '\n';
    }
    return bytes;
}

}  // namespace exchange
