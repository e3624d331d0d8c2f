// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Trouble of the layers below to problems in words; see problem.h.
#include "station/problem.h"

#include "station/file_kind.h"
#include "store/foreign_journal.h"
#include "store/lacking_seal.h"
#include "store/second_name.h"
#include "store/stray_log.h"
#include "words/as_word.h"
#include "words/fault_words.h"

#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace station {

namespace {

using Weight = Problem::Weight;
using Code = store::Trouble::Code;

Weight weightOf(Code code) {
    switch (code) {
        case Code::Exists:
        case Code::NoStation:
        case Code::StationSet:
        case Code::StationTaken:
        case Code::BadStation:
        case Code::Fork:
        case Code::Gap:
        case Code::FirstChanged:
        case Code::NotOwn:
        case Code::LogMoved:
        case Code::NoRecord:
        case Code::Cancelled: return Weight::Input;
        case Code::NotFound:
        case Code::NotALogbook:
        case Code::OtherSchema:
        case Code::ReadOnly:
        case Code::NotPermitted:
        case Code::Busy:
        case Code::DiskFull:
        case Code::Damaged:
        case Code::NeedsRecovery:
        case Code::NetworkFileSystem:
        case Code::Moved:
        case Code::ChainBroken:
        case Code::LeftAside:
        case Code::NotConfirmed:
        case Code::WriteNotConfirmed:
        case Code::Io: break;
    }
    return Weight::Logbook;
}

std::string namesOf(const words::Words& words, const std::vector<logbook::RecordName>& records) {
    std::vector<std::string> names;
    for (const auto& record : records) {
        names.push_back(toText(record));
    }
    return words.all(names);
}

words::Gaps gapsOf(const words::Words& words, const store::Trouble& trouble) {
    words::Gaps gaps{{"path", trouble.path.string()},
                     {"argument", words::asWord(trouble.path.string())},
                     {"aside", trouble.aside.string()},
                     {"detail", trouble.text},
                     {"type", trouble.text},
                     {"station", trouble.station},
                     {"records", namesOf(words, trouble.records)}};
    if (!trouble.records.empty()) {
        gaps["record"] = toText(trouble.records.front());
        if (trouble.station.empty()) {
            gaps["station"] = trouble.records.front().station;
        }
    }
    if (trouble.code == Code::Gap) {
        gaps["detail"] = gaps["records"];
    }
    if (trouble.holder) {
        gaps["person"] = trouble.holder->person;
        gaps["computer"] = trouble.holder->computer;
        gaps["time"] = toText(trouble.holder->since);
    }
    return gaps;
}

// Without the full stop that other people's sentences bring along: it stands inside one here.
std::string faultLine(const words::Words& words, logbook::RecordFault fault) {
    while (fault.detail.ends_with('.')) {
        fault.detail.pop_back();
    }
    return recordFault(words, fault).text();
}

std::string codeOf(system::FileTrouble trouble) {
    switch (trouble) {
        case system::FileTrouble::NotFound: return "file.not_found";
        case system::FileTrouble::NotPermitted: return "file.not_permitted";
        case system::FileTrouble::NotAFile: return "file.not_a_file";
        case system::FileTrouble::NoPlainFile: return "file.no_plain_file";
        case system::FileTrouble::TooLong: return "file.too_long";
        case system::FileTrouble::Exists: return "trouble.exists";
        case system::FileTrouble::DiskFull: return "file.disk_full";
        case system::FileTrouble::Io: break;
    }
    return "file.io";
}

std::string_view keyOfUnread(Code code) {
    switch (code) {
        case Code::NeedsRecovery: return "journal_unread";
        case Code::Damaged: return "unreadable";
        default: return "not_given";
    }
}

// The system names no file when it fails at the one beside the logbook.
bool isByJournal(const store::Trouble& trouble) {
    if (trouble.code != Code::Io && trouble.code != Code::ReadOnly) {
        return false;
    }
    auto journal = trouble.path;
    journal += "-journal";
    const auto kind = system::kindOf(journal);
    return kind == system::FileKind::Folder || kind == system::FileKind::Other;
}

// Where the file beside the logbook is none of its own.
std::optional<std::string_view> keyOfJournal(const store::Trouble& trouble) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> keys = {{
        {store::journalNamesFile, "trouble.journal_names_file"},
        {store::journalHasTwoNames, "trouble.journal_two_names"},
        {store::journalIsNone, "trouble.journal_is_none"},
        {store::journalOfOtherTime, "trouble.journal_of_other_time"},
    }};
    for (const auto& [text, key] : keys) {
        if (trouble.code == Code::Io && trouble.text == text) {
            return key;
        }
    }
    return std::nullopt;
}

}  // namespace

Problem problemOf(const words::Words& words, std::string_view code, const words::Gaps& gaps,
                  Weight weight) {
    const std::string key(code);
    return {weight,
            key,
            {words.say(key + ".says", gaps), words.say(key + ".safe", gaps),
             words.say(key + ".do", gaps)},
            {}};
}

Problem problemOf(const words::Words& words, const store::Trouble& trouble) {
    if (isByJournal(trouble)) {
        return problemOf(words, "trouble.journal_in_way", {{"path", trouble.path.string()}},
                         Weight::Logbook);
    }
    if (trouble.code == Code::Io && trouble.text == store::strayLog) {
        return problemOf(words, "trouble.wal_in_way", {{"path", trouble.path.string()}},
                         Weight::Logbook);
    }
    if (trouble.code == Code::Io && trouble.text == store::lackingSeal) {
        return trouble.path.empty()
                   ? problemOf(words, "snapshots.no_folder", {}, Weight::Logbook)
                   : problemOf(words, "snapshots.no_key", {{"path", trouble.path.string()}},
                               Weight::Logbook);
    }
    if (trouble.code == Code::Io && trouble.text == store::fileHasTwoNames) {
        return problemOf(words, "trouble.two_names", {{"path", trouble.path.string()}},
                         Weight::Logbook);
    }
    if (const auto key = keyOfJournal(trouble)) {
        return problemOf(words, *key, {{"path", trouble.path.string()}}, Weight::Logbook);
    }
    const bool isOlder = trouble.code == Code::OtherSchema &&
                         trouble.schemaFound < trouble.schemaKnown;
    // The station is that of a restore.
    const bool isMade = trouble.code == Code::NotConfirmed && trouble.station.empty();
    const bool nothingStood = trouble.code == Code::NotConfirmed && trouble.aside.empty();
    const std::string code(trouble.isUnread ? keyOfUnread(trouble.code)
                           : isOlder        ? "older_schema"
                           : isMade         ? "made_not_confirmed"
                           : nothingStood   ? "not_confirmed_new"
                                            : name(trouble.code));
    return {weightOf(trouble.code), "trouble." + code,
            words::trouble(words, code, gapsOf(words, trouble)), {}};
}

Problem problemOf(const words::Words& words, system::FileTrouble trouble,
                  const std::filesystem::path& path) {
    return problemOf(words, codeOf(trouble), {{"path", path.string()}});
}

Problem problemOf(const words::Words& words, const exchange::RecordFileFault& fault,
                  const std::filesystem::path& path) {
    if (fault.code == exchange::RecordFileFault::Code::ByteOrderMark) {
        return problemOf(words, "file.byte_order_mark", {{"path", path.string()}});
    }
    auto problem = problemOf(words, "trouble.bad_records",
                             {{"path", path.string()},
                              {"count", std::to_string(fault.lines.size() + fault.more)}});
    for (const auto& line : fault.lines) {
        for (const auto& each : line.faults) {
            problem.details.push_back(
                words.say("file.line", {{"line", std::to_string(line.line)},
                                        {"sentence", faultLine(words, each)}}));
        }
    }
    if (fault.more > 0) {
        problem.details.push_back(
            words.say("file.more_lines", {{"count", std::to_string(fault.more)}}));
    }
    return problem;
}

Problem problemOf(const words::Words& words, const logbook::RecordFaults& faults) {
    auto problem = problemOf(words, "entry.bad_record");
    for (const auto& fault : faults) {
        problem.details.push_back(faultLine(words, fault));
    }
    return problem;
}

Problem problemOf(const words::Words& words, const rules::LogFault& fault) {
    const bool none = fault.code == rules::LogFault::Code::NoEdition;
    Problem problem{none ? Weight::Input : Weight::Logbook,
                    none ? "trouble.no_edition" : "trouble.bad_rulebook",
                    logFault(words, fault), remarkLines(words, fault.remarks)};
    return problem;
}

std::vector<std::string> remarkLines(const words::Words& words,
                                     const std::vector<rules::RulebookRemark>& remarks) {
    std::vector<std::string> lines;
    for (const auto& remark : remarks) {
        lines.push_back(rulebookRemark(words, remark).text());
    }
    return lines;
}

words::Sentence remarkSentence(const words::Words& words, const rules::RulebookRemark& remark) {
    // The place of a remark without one is its path alone, by which the sentence can be told apart.
    auto placeless = remark;
    placeless.line = 0;
    auto sentence = rulebookRemark(words, placeless);
    const auto path = remark.path.empty() ? words.say("plain.whole_file") : remark.path;
    const auto place = words.say("rulebook.place.unknown", {{"path", path}}) + " ";
    if (sentence.says.starts_with(place)) {
        sentence.says = words::capitalized(sentence.says.substr(place.size()));
    }
    return sentence;
}

}  // namespace station
