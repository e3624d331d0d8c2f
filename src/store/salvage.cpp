// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Salvaging; see salvage.h.
#include "store/salvage.h"

#include "logbook/record_reader.h"
#include "logbook/text.h"
#include "store/logbook.h"
#include "store/operating_system.h"
#include "store/raw_rows.h"
#include "store/unfinished_file.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

using Code = Trouble::Code;

// By number; several may stand in the file under one.
using Candidates = std::multimap<std::int64_t, const RawRecord*>;

struct Proven {
    std::vector<logbook::Record> records;
    std::vector<Unproven> unproven;
    Heads heads;
};

Trouble troubleAt(const std::filesystem::path& path, Code code, std::string text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = std::move(text);
    return trouble;
}

// The one of that number that goes on from there, if there is one.
std::optional<logbook::Record> next(const RawRows& rows, const Candidates& candidates,
                                    const std::string& station, const Head& head) {
    const auto [first, last] = candidates.equal_range(head.seq + 1);
    for (auto it = first; it != last; ++it) {
        const RawRecord& raw = *it->second;
        const std::string content = rows.contentOf(raw);
        if (raw.hash != chainHash(head.hash, content)) {
            continue;
        }
        auto record = logbook::readRecord(std::string_view(content));
        if (record && record->content == content &&
            record->name == logbook::RecordName{station, head.seq + 1}) {
            return *std::move(record);
        }
    }
    return std::nullopt;
}

std::optional<Unproven> unprovenAfter(const Candidates& candidates, const std::string& station,
                                      std::int64_t proven, std::int64_t noted) {
    std::set<std::int64_t> after;
    for (auto it = candidates.upper_bound(proven); it != candidates.end(); ++it) {
        after.insert(it->first);
    }
    const std::int64_t last = std::max(noted, after.empty() ? 0 : *after.rbegin());
    if (last <= proven) {
        return std::nullopt;
    }
    const bool stands = after.count(proven + 1) > 0;
    return Unproven{{station, proven + 1},
                    stands          ? Break::Reason::WrongHash
                    : after.empty() ? Break::Reason::TailLost
                                    : Break::Reason::Gap,
                    last,
                    static_cast<std::int64_t>(after.size()) - (stands ? 1 : 0)};
}

Proven prove(const RawRows& rows) {
    std::map<std::string, Candidates> stations;
    std::map<std::string, std::int64_t> noted;
    for (const RawRecord& raw : rows.records()) {
        if (raw.seq >= 1) {
            stations[raw.station].emplace(raw.seq, &raw);
        }
    }
    for (const RawHead& head : rows.heads()) {
        noted[head.station] = std::max(noted[head.station], head.seq);
        stations[head.station];
    }
    Proven proven;
    for (const auto& [station, candidates] : stations) {
        Head head;
        while (auto record = next(rows, candidates, station, head)) {
            head = {head.seq + 1, chainHash(head.hash, record->content)};
            proven.records.push_back(*std::move(record));
        }
        if (head.seq > 0) {
            proven.heads[station] = head;
        }
        if (auto lacking = unprovenAfter(candidates, station, head.seq, noted[station])) {
            proven.unproven.push_back(*std::move(lacking));
        }
    }
    return proven;
}

// A logbook under another name, whole and on the disk before it gets its own.
std::optional<Trouble> write(const UnfinishedFile& file, const Proven& proven,
                             logbook::Instant at) {
    // Nobody else uses a file of that name, so its locks need no trust.
    auto logbook = Logbook::open(file.path(), {OpenOptions::Access::Create, true});
    if (!logbook) {
        return logbook.error();
    }
    const auto appended = logbook->append(proven.records, {"", at});
    if (!appended) {
        return appended.error();
    }
    const auto report = logbook->verify();
    if (!report) {
        return report.error();
    }
    if (!report->ok() || report->heads != proven.heads) {
        return troubleAt(file.path(), Code::Io, "what was read back is not what was written");
    }
    return std::nullopt;
}

std::optional<Code> refuse(const std::filesystem::path& damaged,
                           const std::filesystem::path& target) {
    std::error_code ignored;
    if (!std::filesystem::exists(damaged, ignored)) {
        return Code::NotFound;
    }
    if (!std::filesystem::is_regular_file(damaged, ignored)) {
        return Code::NotALogbook;
    }
    if (!system::mayRead(damaged)) {
        return Code::NotPermitted;
    }
    if (std::filesystem::exists(std::filesystem::symlink_status(target, ignored))) {
        return Code::Exists;
    }
    return std::nullopt;
}

}  // namespace

tl::expected<SalvageResult, Trouble> salvage(const std::filesystem::path& damaged,
                                             const std::filesystem::path& target,
                                             logbook::Instant at) {
    std::error_code error;
    const auto from = std::filesystem::absolute(damaged, error);
    const auto to = std::filesystem::absolute(target, error);
    if (const auto code = refuse(from, to)) {
        return tl::unexpected<Trouble>(troubleAt(*code == Code::Exists ? to : from, *code));
    }
    // Whatever comes of it: the pages are read all the same.
    (void)Logbook::open(from, {OpenOptions::Access::Read, true});
    const RawRows rows(from);
    if (const auto& failed = rows.error()) {
        return tl::unexpected<Trouble>(troubleAt(from, Code::Io, failed.message()));
    }
    const Proven proven = prove(rows);
    if (proven.records.empty()) {
        return SalvageResult{{}, 0, {}, proven.unproven, rows.unreadPages()};
    }
    const UnfinishedFile file(to);
    file.removeLeftOvers();
    if (auto trouble = write(file, proven, at)) {
        trouble->path = to;
        return tl::unexpected<Trouble>(*trouble);
    }
    if (const auto failed = file.takeName()) {
        const bool taken = failed == std::errc::file_exists;
        return tl::unexpected<Trouble>(
            troubleAt(to, taken ? Code::Exists : Code::Io, failed.message()));
    }
    if (const auto failed = file.confirmName()) {
        return tl::unexpected<Trouble>(troubleAt(to, Code::NotConfirmed, failed.message()));
    }
    return SalvageResult{to, static_cast<std::int64_t>(proven.records.size()), proven.heads,
                         proven.unproven, rows.unreadPages()};
}

}  // namespace store
