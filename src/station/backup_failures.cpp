// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Failures of automatic backups; see backup_failures.h.
#include "station/backup_failures.h"

#include "logbook/json.h"
#include "station/automatic_backup.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using Code = store::Trouble::Code;

json::Value toJson(const BackupFailure& failure) {
    return json::Object{{"why", failure.why},
                        {"folder", failure.folder},
                        {"at", toText(failure.at)}};
}

std::optional<BackupFailure> failureIn(const json::Value& value) {
    const auto stated = [&](std::string_view name) {
        const auto* field = value.find(name);
        return field == nullptr || field->string() == nullptr ? std::string() : *field->string();
    };
    const auto at = logbook::parseInstant(stated("at"));
    static const std::vector<std::string> known{
        "full",      "no_folder", "not_permitted",          "not_sound",
        "not_given", "busy",      BackupFailure::elsewhere, BackupFailure::inWay,
        "exists",    "other"};
    if (!at || std::ranges::find(known, stated("why")) == known.end()) {
        return std::nullopt;
    }
    return BackupFailure{stated("why"), stated("folder"), *at};
}

}  // namespace

std::string_view reasonOf(const store::Trouble& trouble) {
    if (trouble.isUnread) {
        return "not_given";  // a part of the logbook, by its own disk
    }
    switch (trouble.code) {
        case Code::DiskFull: return "full";
        case Code::NotFound: return "no_folder";
        case Code::ReadOnly:
        case Code::NotPermitted: return "not_permitted";
        case Code::ChainBroken:
        case Code::Damaged: return "not_sound";
        case Code::Busy: return "busy";
        case Code::Exists: return "exists";
        default: return "other";
    }
}

std::vector<BackupFailure> failuresIn(const std::map<std::string, std::string>& settings) {
    std::vector<BackupFailure> failures;
    const auto found = settings.find(BackupFailure::setting);
    const auto value = found == settings.end() ? tl::unexpected(json::ParseError{})
                                               : json::parse(found->second);
    if (!value || value->array() == nullptr) {
        return failures;
    }
    for (const auto& each : *value->array()) {
        if (auto failure = failureIn(each)) {
            failures.push_back(std::move(*failure));
        }
    }
    return failures;
}

std::string textOf(const std::vector<BackupFailure>& failures) {
    json::Array noted;
    for (const auto& failure : failures) {
        noted.push_back(toJson(failure));
    }
    return json::canonical(noted);
}

void forgetOthers(std::vector<BackupFailure>& failures, const LogbookFile& file,
                  const StationSettings& settings) {
    const auto first = backupFolder(file).filename();
    const auto stated = settings.stated.find("second-backup");
    std::erase_if(failures, [&](const BackupFailure& failure) {
        const bool isSecond = stated != settings.stated.end() && stated->second == failure.folder;
        return !isSecond && std::filesystem::path(failure.folder).filename() != first;
    });
}

std::string sentenceOf(const words::Words& words, const BackupFailure& failure) {
    return words.say("backups.failed", {{"folder", failure.folder}}) + " " +
           words.say("backups_failed." + failure.why) + " " + words.say("backups.safe");
}

}  // namespace station
