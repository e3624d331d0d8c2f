// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Salvaging; see salvage.h.
#include "store/salvage.h"

#include "logbook/record_reader.h"
#include "logbook/text.h"
#include "store/journal_file.h"
#include "store/logbook.h"
#include "store/operating_system.h"
#include "store/raw_rows.h"
#include "store/unfinished_file.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

namespace store {

namespace {

using Code = Trouble::Code;

// By number; several may stand in the file under one, in the order of the file.
using Candidates = std::vector<const RawRecord*>;

// What of one station stands in one reading of the file.
struct Reading {
    const RawRows* rows;
    Candidates candidates{};
};

// Of one station what is proven, and how much of it by the first reading alone.
struct Chain {
    std::vector<logbook::Record> records;
    Head head{};
    std::int64_t byFirst = 0;
};

struct Proven {
    std::vector<logbook::Record> records;
    std::vector<Unproven> unproven;
    Heads heads;
    std::int64_t undone = 0;
    std::vector<std::string> unnoted;
};

Trouble troubleAt(const std::filesystem::path& path, Code code, std::string text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = std::move(text);
    return trouble;
}

// The one of that number that goes on from there, if there is one.
std::optional<logbook::Record> next(const Reading& reading, const std::string& station,
                                    const Head& head) {
    const auto all =
        std::ranges::equal_range(reading.candidates, head.seq + 1, {}, &RawRecord::seq);
    for (const RawRecord* raw : all) {
        const std::string content = reading.rows->contentOf(*raw);
        if (raw->hash != chainHash(head.hash, content)) {
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

// Each record by the first of the readings that has one which goes on.
Chain chainIn(const std::vector<const Reading*>& readings, const std::string& station) {
    Chain chain;
    for (bool isThere = true; isThere;) {
        isThere = false;
        for (const Reading* reading : readings) {
            auto record = next(*reading, station, chain.head);
            if (!record) {
                continue;
            }
            chain.head = {chain.head.seq + 1, chainHash(chain.head.hash, record->content)};
            chain.records.push_back(*std::move(record));
            if (reading == readings.front() && chain.byFirst + 1 == chain.head.seq) {
                chain.byFirst = chain.head.seq;
            }
            isThere = true;
            break;
        }
    }
    return chain;
}

std::optional<Unproven> unprovenAfter(const std::vector<Reading>& readings,
                                      const std::string& station, std::int64_t proven,
                                      std::int64_t noted) {
    std::vector<std::int64_t> after;  // each number once
    for (const auto& [rows, candidates] : readings) {
        auto each = std::ranges::upper_bound(candidates, proven, {}, &RawRecord::seq);
        for (; each != candidates.end(); ++each) {
            after.push_back((*each)->seq);
        }
    }
    std::ranges::sort(after);
    after.erase(std::ranges::unique(after).begin(), after.end());
    const std::int64_t last = std::max(noted, after.empty() ? 0 : after.back());
    if (last <= proven) {
        return std::nullopt;
    }
    const bool stands = !after.empty() && after.front() == proven + 1;
    Unproven lacking{{station, proven + 1},
                     stands          ? Break::Reason::WrongHash
                     : after.empty() ? Break::Reason::TailLost
                                     : Break::Reason::Gap,
                     last,
                     static_cast<std::int64_t>(after.size()) - (stands ? 1 : 0)};
    if (stands) {
        after.erase(after.begin());
    }
    auto& runs = lacking.standing;
    for (const auto seq : after) {
        if (runs.empty() || runs.back().last != seq - 1) {
            runs.push_back({seq, seq});
        }
        runs.back().last = seq;
    }
    return lacking;
}

// The same of one station by all readings: the longest there is.
Chain longestChain(const std::vector<Reading>& readings, const std::string& station) {
    std::vector<const Reading*> inOrder;
    for (const auto& reading : readings) {
        inOrder.push_back(&reading);
    }
    auto chain = chainIn(inOrder, station);
    // Where the two have another record under one number, either may be the one that goes on.
    std::ranges::reverse(inOrder);
    auto other = readings.size() > 1 ? chainIn(inOrder, station) : Chain();
    if (other.head.seq > chain.head.seq) {
        other.byFirst = chain.byFirst;
        return other;
    }
    return chain;
}

Proven prove(const std::vector<const RawRows*>& readings) {
    std::map<std::string, std::vector<Reading>> stations;
    std::map<std::string, std::int64_t> noted;
    std::set<std::string> notedWithRecord;
    const auto readingsOf = [&](const std::string& station) -> std::vector<Reading>& {
        auto& found = stations[station];
        for (std::size_t i = found.size(); i < readings.size(); ++i) {
            found.push_back({readings[i]});
        }
        return found;
    };
    for (std::size_t i = 0; i < readings.size(); ++i) {
        for (const RawRecord& raw : readings[i]->records()) {
            if (raw.seq >= 1) {
                readingsOf(std::string(raw.station))[i].candidates.push_back(&raw);
            }
        }
        for (const RawHead& head : readings[i]->heads()) {
            noted[head.station] = std::max(noted[head.station], head.seq);
            (void)readingsOf(head.station);
            if (head.isWithRecord) {
                notedWithRecord.insert(head.station);
            }
        }
    }
    Proven proven;
    for (auto& [station, each] : stations) {
        for (Reading& reading : each) {
            std::ranges::stable_sort(reading.candidates, {}, &RawRecord::seq);
        }
        auto chain = longestChain(each, station);
        std::ranges::move(chain.records, std::back_inserter(proven.records));
        if (chain.head.seq > 0) {
            proven.heads[station] = chain.head;
            if (!notedWithRecord.contains(station)) {
                proven.unnoted.push_back(station);
            }
        }
        proven.undone += each.size() > 1 ? chain.head.seq - chain.byFirst : 0;
        if (auto lacking = unprovenAfter(each, station, chain.head.seq, noted[station])) {
            proven.unproven.push_back(*std::move(lacking));
        }
    }
    return proven;
}

// What a file holds as it stands, and where a journal lies beside it, what it would hold once that
// were played back: which of the two is right nobody knows, but what the chain proves is.
class Readings {
public:
    explicit Readings(const std::filesystem::path& file) : m_standing(file) {
        std::error_code error;
        const auto whole = std::filesystem::canonical(file, error);
        const auto& place = error ? file : whole;
        m_beside = journalOf(place);
        const auto kind = std::filesystem::symlink_status(m_beside, error).type();
        if (kind == std::filesystem::file_type::regular) {
            m_journal.emplace(place);
            if (m_journal->isPlayed()) {
                m_played.emplace(file, &*m_journal);
            }
        } else if (kind == std::filesystem::file_type::none) {
            // A name that is too long is nobody's.
            if (error != std::errc::filename_too_long) {
                m_refused = {m_beside, Why::NotGiven, error.message()};
            }
        } else if (kind != std::filesystem::file_type::not_found) {
            m_refused = {m_beside, Why::NoPlainFile};
        }
    }

    [[nodiscard]] Proven prove() const {
        return m_played ? store::prove({&*m_played, &m_standing}) : store::prove({&m_standing});
    }
    [[nodiscard]] const std::error_code& error() const { return m_standing.error(); }

    // Once all that is wanted of them was proven.
    [[nodiscard]] SalvageResult resultOf(const Proven& proven) const {
        SalvageResult result;
        result.records = static_cast<std::int64_t>(proven.records.size());
        result.heads = proven.heads;
        result.unproven = proven.unproven;
        result.unreadPages = m_standing.unreadPages();
        result.undone = proven.undone;
        result.nameless =
            std::max(m_standing.nameless(), m_played ? m_played->nameless() : 0);
        result.journal = unreadJournal();
        result.unnoted = proven.unnoted;
        return result;
    }

private:
    using Why = UnreadJournal::Why;

    [[nodiscard]] std::optional<UnreadJournal> unreadJournal() const {
        if (!m_journal) {
            return m_refused;
        }
        const bool isStrange = m_journal->isStrange();
        if (m_journal->isUnread()) {
            return notGiven();
        }
        if (isStrange || m_journal->isTorn()) {
            return UnreadJournal{m_beside, isStrange ? Why::Strange : Why::Torn};
        }
        return std::nullopt;
    }

    // Unless it is gone: whoever was writing is done.
    [[nodiscard]] std::optional<UnreadJournal> notGiven() const {
        std::error_code ignored;
        if (std::filesystem::symlink_status(m_beside, ignored).type() ==
            std::filesystem::file_type::not_found) {
            return std::nullopt;
        }
        if (!system::mayRead(m_beside)) {
            return UnreadJournal{m_beside, Why::NotPermitted};
        }
        const int number = m_journal->whyUnread();
        return UnreadJournal{m_beside, Why::NotGiven,
                             number == 0 ? "it cannot be opened"
                                         : std::generic_category().message(number)};
    }

    RawRows m_standing;
    std::filesystem::path m_beside;
    std::optional<UnreadJournal> m_refused;
    std::optional<JournalFile> m_journal;
    std::optional<RawRows> m_played;
};

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
    const Readings readings(from);
    if (const auto& failed = readings.error()) {
        return tl::unexpected<Trouble>(troubleAt(from, Code::Io, failed.message()));
    }
    const Proven proven = readings.prove();
    auto result = readings.resultOf(proven);
    if (proven.records.empty()) {
        return result;
    }
    const UnfinishedFile file(to);
    file.removeLeftOvers();
    if (auto trouble = write(file, proven, at)) {
        // What is not certain to stay is, or is in, the unfinished one: nothing stands at its final
        // name.
        const bool isUncertain =
            trouble->code == Code::NotConfirmed || trouble->code == Code::WriteNotConfirmed;
        trouble->code = isUncertain ? Code::Io : trouble->code;
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
    result.path = to;
    return result;
}

}  // namespace store
