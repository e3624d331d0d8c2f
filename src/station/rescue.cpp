// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Salvaging, restoring and holding against earlier heads; see rescue.h.
#include "station/rescue.h"

#include "station/file_kind.h"
#include "station/heads_doubt.h"
#include "station/heads_text.h"
#include "station/system.h"
#include "store/database_mark.h"
#include "store/heads_check.h"
#include "store/left_alone.h"
#include "words/languages.h"

#include <map>
#include <string_view>
#include <utility>

namespace station {

namespace {

using Code = store::Trouble::Code;
using store::Break;

// Bytes: far more than any report, or than what verify prints.
constexpr std::uintmax_t longestText = 16U << 20;
// Named of the entries of one station, and of stations.
constexpr std::size_t mostRanges = 20;

std::string reasonKey(Break::Reason reason) {
    switch (reason) {
        case Break::Reason::Gap: return "rescue.missing";
        case Break::Reason::TailLost: return "rescue.cut_off";
        default: return "rescue.changed";
    }
}

std::string toldOf(const words::Words& words, const store::UnreadJournal& journal) {
    using Why = store::UnreadJournal::Why;
    const auto path = journal.path.string();
    switch (journal.why) {
        case Why::NoPlainFile: return words.say("rescue.journal_no_plain_file", {{"path", path}});
        case Why::NotPermitted: return words.say("rescue.journal_not_permitted", {{"path", path}});
        case Why::Strange: return words.say("rescue.journal_strange", {{"path", path}});
        case Why::Torn: return words.say("rescue.journal_torn", {{"path", path}});
        case Why::NotGiven: break;
    }
    return words.say("rescue.journal_not_given", {{"path", path}, {"detail", journal.text}});
}

// Which of those that are not proven can be read.
std::string standingIn(const words::Words& words, const store::Unproven& lacking) {
    const auto nameOf = [&](std::int64_t seq) {
        return toText(logbook::RecordName{lacking.first.station, seq});
    };
    std::vector<std::string> ranges;
    for (const auto& [first, last] : lacking.standing) {
        if (ranges.size() == mostRanges) {
            ranges.emplace_back("…");
            break;
        }
        ranges.push_back(first == last ? nameOf(first)
                                       : words.say("rescue.range", {{"record", nameOf(first)},
                                                                    {"last", nameOf(last)}}));
    }
    return words.all(ranges);
}

// A text of two bytes a letter, as some editors save it, with one: what heads are written with is
// in the lower one.
std::string inSingleBytes(std::string text) {
    const bool isLowFirst = text.starts_with("\xFF\xFE");
    if (!isLowFirst && !text.starts_with("\xFE\xFF")) {
        return text;
    }
    std::string single;
    single.reserve(text.size() / 2);
    for (std::size_t place = 2; place + 1 < text.size(); place += 2) {
        const char high = text[place + (isLowFirst ? 1 : 0)];
        single += high == 0 ? text[place + (isLowFirst ? 0 : 1)] : '?';
    }
    return single;
}

}  // namespace

Result<store::SalvageResult> salvage(const Surroundings& surroundings, const LogbookFile& damaged,
                                     const std::filesystem::path& target) {
    const auto& words = surroundings.words;
    if (system::isSideName(target)) {
        return tl::unexpected(problemOf(words, "file.side_name", {{"path", target.string()}}));
    }
    auto result = store::salvage(damaged.path, target, surroundings.clock.now());
    if (result && result->records > 0) {
        return *std::move(result);
    }
    if (result) {
        auto nothing = problemOf(words, "rescue.nothing", {{"path", damaged.path.string()}},
                                 Problem::Weight::Logbook);
        nothing.details = lackingOf(words, *result);
        return tl::unexpected(std::move(nothing));
    }
    const auto& trouble = result.error();
    std::error_code ignored;
    if (trouble.code == Code::NotALogbook) {
        const bool isFolder = std::filesystem::is_directory(damaged.path, ignored);
        return tl::unexpected(problemOf(words,
                                        isFolder ? system::FileTrouble::NotAFile
                                                 : system::FileTrouble::NoPlainFile,
                                        damaged.path));
    }
    if (trouble.code == Code::NotFound && system::exists(damaged.path)) {
        return tl::unexpected(problemOf(words, "file.no_folder", {{"path", target.string()}}));
    }
    return tl::unexpected(problemOf(words, trouble));
}

std::vector<std::string> lackingOf(const words::Words& words,
                                   const store::SalvageResult& salvaged) {
    std::vector<std::string> lines;
    if (salvaged.journal) {
        lines.push_back(toldOf(words, *salvaged.journal));
    }
    if (salvaged.unreadPages > 0) {
        lines.push_back(words.say("rescue.unread_pages",
                                  {{"count", std::to_string(salvaged.unreadPages)}}));
    }
    if (salvaged.nameless > 0) {
        lines.push_back(
            words.say("rescue.nameless", {{"count", std::to_string(salvaged.nameless)}}));
    }
    for (const auto& lacking : salvaged.unproven) {
        auto line = words.say(reasonKey(lacking.reason),
                              {{"record", toText(lacking.first)},
                               {"last", std::to_string(lacking.last)}});
        if (lacking.readable > 0) {
            line += " " + words.say("rescue.readable",
                                    {{"count", std::to_string(lacking.readable)},
                                     {"records", standingIn(words, lacking)}});
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

std::optional<std::string> unnotedOf(const words::Words& words,
                                     const store::SalvageResult& salvaged) {
    if (salvaged.unnoted.empty()) {
        return std::nullopt;
    }
    auto stations = salvaged.unnoted;
    if (stations.size() > mostRanges) {
        stations.resize(mostRanges);
        stations.emplace_back("…");
    }
    return words.say("rescue.unnoted", {{"stations", words.all(stations)}});
}

std::optional<std::string> undoneOf(const words::Words& words,
                                    const std::filesystem::path& damaged,
                                    const store::SalvageResult& salvaged) {
    return salvaged.undone == 0
               ? std::nullopt
               : std::optional(words.say("rescue.undone",
                                         {{"count", std::to_string(salvaged.undone)},
                                          {"path", damaged.string()}}));
}

namespace {

// Which file, put aside by an earlier restore, has records of that station: perhaps no other has.
std::optional<std::filesystem::path> asideWith(const LogbookFile& file,
                                               const std::string& station) {
    const auto folder = file.path.parent_path();
    const auto start = file.path.filename().string() + ".before-";
    for (const auto& name : system::namesIn(folder.empty() ? "." : folder)) {
        if (!name.starts_with(start) || system::isSideName(name)) {
            continue;
        }
        const auto path = folder / name;
        const auto aside = store::Logbook::open(path, {Access::Read, file.trustLocks});
        const auto heads = aside ? aside->heads() : tl::unexpected(store::Trouble{});
        if (heads && heads->contains(station)) {
            return path;
        }
    }
    return std::nullopt;
}

}  // namespace

Result<store::RestoreResult> restore(const Surroundings& surroundings,
                                     const std::filesystem::path& backup, const LogbookFile& file,
                                     const std::string& station) {
    if (system::isSideName(file.path)) {
        return tl::unexpected(problemOf(surroundings.words, "file.side_name",
                                        {{"path", file.path.string()}}));
    }
    std::error_code ignored;
    if (std::filesystem::equivalent(backup, file.path, ignored)) {
        return tl::unexpected(problemOf(surroundings.words, "rescue.same_file",
                                        {{"path", backup.string()}}));
    }
    if (auto aside = asideWith(file, station)) {
        store::Trouble taken;
        taken.code = Code::StationTaken;
        taken.path = *std::move(aside);
        taken.station = station;
        return tl::unexpected(problemOf(surroundings.words, taken));
    }
    auto result = store::restore(backup, {file.path, station, file.trustLocks},
                                 {surroundings.login, surroundings.clock.now()});
    if (result) {
        return *std::move(result);
    }
    const auto& trouble = result.error();
    if (trouble.code == Code::ChainBroken) {
        return tl::unexpected(problemOf(surroundings.words, "rescue.backup_not_sound",
                                        {{"path", backup.string()}}, Problem::Weight::Logbook));
    }
    const bool isOfAside =
        trouble.path.filename().string().find(".before-") != std::string::npos;
    if (trouble.code == Code::Exists && isOfAside) {
        return tl::unexpected(problemOf(surroundings.words, "rescue.same_second",
                                        {{"aside", trouble.path.string()}}));
    }
    if (trouble.code == Code::NotFound && system::exists(backup)) {
        return tl::unexpected(problemOf(surroundings.words, "file.no_folder",
                                        {{"path", file.path.string()}}));
    }
    return tl::unexpected(problemOf(surroundings.words, trouble));
}

std::vector<std::string> asideTold(const words::Words& words,
                                   const store::RestoreResult& restored) {
    std::vector<std::string> told;
    if (!restored.aside) {
        return told;
    }
    if (restored.asideJournal) {
        told.push_back(words.say("rescue.journal_aside",
                                 {{"path", restored.asideJournal->string()}}));
    }
    if (restored.isOther) {
        told.push_back(words.say("rescue.other_log"));
    }
    if (!restored.later) {
        told.push_back(words.say("rescue.later_unknown"));
    } else if (restored.isAtLeast && *restored.later == 0) {
        told.push_back(words.say("rescue.later_damaged"));
    } else if (*restored.later > 0) {
        told.push_back(words.say(restored.isAtLeast ? "rescue.later_at_least"
                                 : restored.isOther ? "rescue.later_other"
                                                    : "rescue.later",
                                 {{"count", std::to_string(*restored.later)}}));
    }
    return told;
}

std::size_t EarlierHeads::count() const {
    std::size_t count = 0;
    for (const auto& each : heads) {
        count += each.size();
    }
    return count;
}

std::set<std::string> EarlierHeads::stations() const {
    std::set<std::string> stations;
    for (const auto& each : heads) {
        for (const auto& [station, head] : each) {
            stations.insert(station);
        }
    }
    return stations;
}

namespace {

// What reports say between a station and its last number, in each language: "up to entry".
std::vector<std::string> headPhrases() {
    std::vector<std::string> phrases;
    for (const auto& language : words::builtInLanguages()) {
        const auto line = words::Words::builtIn(language)->say(
            "month.head", {{"station", "s"}, {"seq", "1"}, {"hash", "h"}});
        const auto begin = line.find(": ");
        const auto end = line.find(" 1");
        if (begin != std::string::npos && end != std::string::npos && begin + 2 < end) {
            phrases.push_back(line.substr(begin + 2, end - begin - 2));
        }
    }
    return phrases;
}

EarlierHeads headsOfText(const words::Words& words, std::string_view text) {
    auto found = headsInText(text);
    const auto doubtful = doubtfulHeads(text, found, headPhrases());
    EarlierHeads earlier{std::move(found.heads)};
    for (const auto& [record, seen] : doubtful.first) {
        earlier.unread.push_back(
            words.say("rescue.no_hash", {{"record", record}, {"seen", seen}}));
    }
    if (doubtful.count > doubtful.first.size()) {
        earlier.unread.push_back(words.say(
            "rescue.more_unread",
            {{"count", std::to_string(doubtful.count - doubtful.first.size())}}));
    }
    return earlier;
}

}  // namespace

Result<EarlierHeads> headsIn(const Surroundings& surroundings,
                             const std::filesystem::path& path) {
    const auto noHeads = [&](std::vector<std::string> unread) -> Result<EarlierHeads> {
        auto problem =
            problemOf(surroundings.words, "rescue.no_heads", {{"path", path.string()}});
        problem.details = std::move(unread);
        return tl::unexpected(std::move(problem));
    };
    const auto backup = store::LeftAlone::open(path, path);
    if (backup) {
        const auto heads = backup->logbook().heads();
        if (!heads) {
            return tl::unexpected(problemOf(surroundings.words, backup->told(heads.error())));
        }
        // Then they are those of the records that are left, which any logbook has that holds these.
        if (backup->logbook().metDamage()) {
            store::Trouble unread;
            unread.code = Code::Damaged;
            unread.path = path;
            unread.text = "its noted heads cannot be read";
            unread.isUnread = backup->logbook().metRefusal();
            return tl::unexpected(problemOf(surroundings.words, unread));
        }
        return heads->empty() ? noHeads({}) : EarlierHeads{{store::headsOf(*heads)}};
    }
    const auto text = system::readFile(path, longestText);
    if (!text && text.error() != system::FileTrouble::TooLong) {
        return tl::unexpected(problemOf(surroundings.words, text.error(), path));
    }
    if (text && text->starts_with(store::databaseMark)) {
        return tl::unexpected(problemOf(surroundings.words, backup.error()));
    }
    auto earlier = text ? headsOfText(surroundings.words, inSingleBytes(*text)) : EarlierHeads{};
    return earlier.heads.empty() ? noHeads(std::move(earlier.unread))
                                 : Result<EarlierHeads>(std::move(earlier));
}

Result<std::vector<Break>> breaksAgainst(const Surroundings& surroundings, const LogbookFile& file,
                                         const std::vector<store::Heads>& earlier) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    std::map<std::string, Break> first;  // by station
    for (const auto& heads : earlier) {
        const auto breaks = store::breaksAgainst(*logbook, heads);
        if (!breaks) {
            return tl::unexpected(problemOf(surroundings.words, breaks.error()));
        }
        for (const auto& found : *breaks) {
            const auto [place, isNew] = first.try_emplace(found.record.station, found);
            if (!isNew && found.record.seq < place->second.record.seq) {
                place->second = found;
            }
        }
    }
    std::vector<Break> breaks;
    for (const auto& [station, found] : first) {
        breaks.push_back(found);
    }
    return breaks;
}

}  // namespace station
