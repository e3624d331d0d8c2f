// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verifying and backing up; see upkeep.h.
#include "station/upkeep.h"

#include "station/file_kind.h"
#include "store/second_name.h"
#include "words/as_word.h"
#include "words/fault_words.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace station {

namespace {

using Code = store::Trouble::Code;

// Verifying is never kept from anyone who can read the file.
Result<store::Logbook> openToVerify(const Surroundings& surroundings, const LogbookFile& file) {
    store::OpenOptions options;
    options.access = Access::Write;
    options.trustLocks = file.trustLocks;
    auto logbook = store::Logbook::open(file.path, options);
    if (logbook) {
        return std::move(*logbook);
    }
    if (logbook.error().code != Code::ReadOnly && logbook.error().code != Code::NotFound) {
        return tl::unexpected(problemOf(surroundings.words, logbook.error()));
    }
    return openLogbook(surroundings, file, Access::Read);
}

using Noted = tl::expected<std::optional<store::Verification>, store::Trouble>;

bool isSame(const store::Verification& one, const store::Verification& other) {
    return one.ok == other.ok && one.at == other.at && one.checked == other.checked &&
           one.breaks == other.breaks;
}

// Whether another verify, since it was asked before, has noted that it found something.
bool isFoundSince(const Noted& before, const Noted& now) {
    return now && *now && !(*now)->ok && !(before && *before && isSame(**before, **now));
}

// One that began before something came to harm finds nothing, and would be noted after the one that
// found it.
tl::expected<store::VerifyReport, store::Trouble> verifyAsNoted(const store::Logbook& logbook) {
    constexpr int mostTimes = 3;
    for (int times = 1; times <= mostTimes; ++times) {
        const auto before = logbook.lastVerification();
        auto report = logbook.verify();
        if (!report || !report->ok() || !isFoundSince(before, logbook.lastVerification())) {
            return report;
        }
    }
    store::Trouble others;
    others.code = Code::Busy;
    return tl::unexpected<store::Trouble>(std::move(others));
}

// Others may only be reading for a while, and boards rest on the note.
constexpr int mostAttempts = 3;

tl::expected<void, store::Trouble> note(const Surroundings& surroundings, store::Logbook& logbook,
                                        const store::VerifyReport& report) {
    for (int attempt = 1;; ++attempt) {
        auto noted = logbook.noteVerified(report, {surroundings.login, surroundings.clock.now()});
        if (noted || noted.error().code != Code::Busy || attempt == mostAttempts) {
            return noted;
        }
    }
}

// The database tells of several pages in one message, a line for each.
std::string inOneLine(std::string_view message) {
    std::string line;
    for (std::size_t begin = 0; begin < message.size();) {
        const auto end = std::min(message.find('\n', begin), message.size());
        line += (line.empty() || end == begin ? "" : "; ");
        line += message.substr(begin, end - begin);
        begin = end + 1;
    }
    return line;
}

}  // namespace

Result<VerifyAnswer> verify(const Surroundings& surroundings, const LogbookFile& file) {
    auto logbook = openToVerify(surroundings, file);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    auto report = verifyAsNoted(*logbook);
    if (!report && report.error().code == Code::Busy) {
        return tl::unexpected(problemOf(surroundings.words, "trouble.not_verified",
                                        {{"argument", words::asWord(file.path.string())}},
                                        Problem::Weight::Logbook));
    }
    if (!report) {
        return tl::unexpected(problemOf(surroundings.words, report.error()));
    }
    // What was found is told even if it cannot be noted.
    VerifyAnswer answer{std::move(*report)};
    answer.twoNames = store::refuseSecondName(logbook->path());
    if (logbook->access() == Access::Write) {
        const auto noted = note(surroundings, *logbook, answer.report);
        answer.noted = noted.has_value();
        answer.wasBusy = !noted && noted.error().code == Code::Busy;
        answer.wasFull = !noted && noted.error().code == Code::DiskFull;
    }
    if (answer.report.ok()) {
        auto check = checkSnapshots(surroundings, *logbook);
        if (!check) {
            return tl::unexpected(std::move(check.error()));
        }
        answer.snapshots = std::move(*check);
        answer.thrownAway = throwAway(surroundings, *logbook, answer.snapshots);
    }
    return answer;
}

std::vector<std::string> findingsOf(const words::Words& words, const store::VerifyReport& report) {
    std::vector<std::string> findings;
    if (report.diskFailed) {
        findings.push_back(words.say("verify.disk_failed"));
    }
    for (const auto& found : report.breaks) {
        // Of one that is gone the number is that of an arrival.
        const auto record = found.reason == store::Break::Reason::Hole
                                ? std::to_string(found.record.seq)
                                : toText(found.record);
        std::string reason(name(found.reason));
        if (reason == "wrong_hash") {
            reason = "hash";
        }
        findings.push_back(
            words::chainBreak(words, reason, {{"record", record}, {"detail", found.detail}})
                .text());
    }
    for (const auto& changed : report.schemaChanged) {
        findings.push_back(words.say("verify.schema_changed", {{"name", changed}}));
    }
    const auto* ofPages = report.diskFailed ? "verify.not_given" : "verify.integrity";
    for (const auto& said : report.integrity) {
        findings.push_back(words.say(ofPages, {{"detail", inOneLine(said)}}));
    }
    return findings;
}

std::optional<std::string> twoNamesTold(const words::Words& words, const VerifyAnswer& answer) {
    if (!answer.twoNames) {
        return std::nullopt;
    }
    const auto said = problemOf(words, *answer.twoNames).notice;
    return said.says + " " + said.action;
}

std::vector<std::string> findingsOf(const words::Words& words, const VerifyAnswer& answer,
                                    ToldBy toldBy) {
    const auto* stays =
        toldBy == ToldBy::Window ? "window.state_stays" : "snapshots.wrong_stays";
    auto findings = findingsOf(words, answer.report);
    for (const auto& place : answer.snapshots.wrong) {
        findings.push_back(words.say(answer.thrownAway ? "snapshots.wrong" : stays,
                                     {{"record", toText(place.name)}}));
    }
    if (toldBy == ToldBy::Window && answer.isOnNoBoard()) {
        findings.push_back(words.say("done.boards_unaware"));
    }
    if (auto told = toldBy == ToldBy::Window ? twoNamesTold(words, answer) : std::nullopt) {
        findings.push_back(*std::move(told));
    }
    return findings;
}

Result<store::BackupResult> backUp(const Surroundings& surroundings, const LogbookFile& file,
                                   const std::filesystem::path& target) {
    if (system::isSideName(target)) {
        return tl::unexpected(problemOf(surroundings.words, "file.side_name",
                                        {{"path", target.string()}}));
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    auto result = logbook->backup(target);
    if (!result) {
        if (result.error().code == Code::NotFound) {
            return tl::unexpected(problemOf(surroundings.words, "file.no_folder",
                                            {{"path", target.string()}}));
        }
        // What is wrong with the file as a whole is no record's.
        if (result.error().code == Code::ChainBroken && result.error().records.empty()) {
            return tl::unexpected(problemOf(surroundings.words, "trouble.not_sound",
                                            {{"path", file.path.string()}},
                                            Problem::Weight::Logbook));
        }
        return tl::unexpected(problemOf(surroundings.words, result.error()));
    }
    return result.value();
}

}  // namespace station
