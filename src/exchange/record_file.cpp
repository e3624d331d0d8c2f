// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Record files: JSON Lines to records and back. Knows no file, no logbook and no rulebook.
#include "exchange/record_file.h"

#include "logbook/canonical_reader.h"

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

tl::expected<void, RecordFileFault> readRecordFile(std::string_view bytes,
                                                   const RecordTaker& take) {
    if (bytes.starts_with(byteOrderMark)) {
        return tl::unexpected(RecordFileFault{RecordFileFault::Code::ByteOrderMark, {}, 0});
    }
    RecordFileFault fault{RecordFileFault::Code::Lines, {}, 0};
    logbook::Record record;
    for (std::size_t number = 1; !bytes.empty(); ++number) {
        const auto line = takeLine(bytes);
        if (isBlank(line)) {
            continue;
        }
        // What another logbook exported is canonical; anything else is read with more care.
        if (logbook::readCanonical(line, record)) {
            take(number, line, record);
            continue;
        }
        auto thorough = logbook::readRecord(line);
        if (thorough) {
            take(number, line, *thorough);
        } else {
            note(fault, number, std::move(thorough.error()));
        }
    }
    if (!fault.lines.empty()) {
        return tl::unexpected(std::move(fault));
    }
    return {};
}

tl::expected<std::vector<RecordLine>, RecordFileFault> readRecordFile(std::string_view bytes) {
    std::vector<RecordLine> records;
    return readRecordFile(bytes, [&](std::size_t line, std::string_view, logbook::Record& record) {
               records.push_back({line, std::move(record)});
           }).map([&] { return std::move(records); });
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
