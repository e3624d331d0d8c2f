// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// settings: what is set at this station.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "cli/signing.h"
#include "report/layout.h"
#include "station/file_kind.h"
#include "station/settings.h"
#include "words/shown.h"

#include <algorithm>

namespace cli {

namespace {

using station::Result;

std::string lineOf(const station::StationSettings& all, std::string_view name,
                   const words::Words& words) {
    if (all.isUnread) {
        return words.say("settings.unread_value");
    }
    const auto value = station::valueOf(all.settings, name);
    if (value.empty()) {
        return words.say("settings.not_set");
    }
    return all.stated.contains(name) ? words::shown(value)
                                     : words.say("settings.default", {{"value", value}});
}

std::string textOf(const station::StationSettings& all, const words::Words& words) {
    report::Table table({words.say("settings.name"), words.say("settings.value")});
    for (const auto name : station::settingNames()) {
        table.add({std::string(name), lineOf(all, name, words)});
    }
    return words.say("settings.title") + "\n\n" + table.text(report::usableWidth({}));
}

logbook::json::Value jsonOf(const station::StationSettings& all) {
    logbook::json::Object object;
    if (all.isUnread) {
        return object;
    }
    for (const auto name : station::settingNames()) {
        const auto value = station::valueOf(all.settings, name);
        object.emplace_back(std::string(name), value.empty() ? logbook::json::Value()
                                                             : logbook::json::Value(value));
    }
    return object;
}

std::vector<std::string> remarksOf(const station::StationSettings& all,
                                   const words::Words& words) {
    std::vector<std::string> remarks;
    if (all.isUnread) {
        remarks.push_back(words.say("settings.set_unread"));
    }
    for (const auto& fault : all.faults) {
        remarks.push_back(words.say("settings.faulty", {{"name", fault.name},
                                                        {"sentence", fault.sentence.text()}}));
    }
    return remarks;
}

// The folder may be on a disk that is connected later, so that it is no fault.
std::vector<std::string> remarksOfSet(const station::StationSettings& all, std::string_view name,
                                      const words::Words& words) {
    auto remarks = remarksOf(all, words);
    const auto& folder = all.settings.secondBackup;
    if (name == "second-backup" && folder &&
        station::system::kindBehind(*folder) == station::system::FileKind::None) {
        remarks.push_back(words.sentence("settings_fault.not_there", {{"value", *folder}}).text());
    }
    return remarks;
}

class SettingsCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "settings",
            "Show what is set at this station, or set it.",
            {shared::logbook,
             {"NAME", "One setting; none: all are listed.", true},
             {"VALUE", "What it is set to from now on.", true}},
            {{"--unset", "", "Take the value away, so that what goes without one goes again."},
             {"--as", "PERSON",
              "The manager who sets it. Wanted once people have PINs at this station."},
             shared::pinFd, shared::json, shared::trustLocks},
            "Settings are in no entry, no export and no backup, and no verdict depends on them. "
            "Spans are given as 90 s, 15 min or 12 h. The names pressure, flow and so on set the "
            "unit in which such measures are shown; any of the same kind can be typed.",
            "airmuster-cli settings ward.logbook lock-after \"2 min\" --as r.halvorsen"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto name = call.value("NAME");
        const auto value = call.value("VALUE");
        const bool changes = name && (value || call.has("--unset"));
        const auto all = changes ? change(call, surroundings)
                                 : station::settingsOf(surroundings, logbookOf(call));
        if (!all) {
            return tl::unexpected(all.error());
        }
        const auto& words = surroundings.words;
        if (all->isUnread && !changes) {
            return tl::unexpected(station::problemOf(words, "settings.unread", {},
                                                     station::Problem::Weight::Logbook));
        }
        if (call.has(shared::json.name)) {
            return Answer{ExitStatus::Done, jsonText(jsonOf(*all)), remarksOf(*all, words),
                          changes};
        }
        if (!name) {
            return Answer{ExitStatus::Done, textOf(*all, words), remarksOf(*all, words)};
        }
        if (const auto known = requireName(*name, words); !known) {
            return tl::unexpected(known.error());
        }
        return Answer{ExitStatus::Done,
                      words.say("settings.line",
                                {{"name", *name}, {"value", lineOf(*all, *name, words)}}) +
                          "\n",
                      remarksOfSet(*all, *name, words), changes};
    }

private:
    static Result<void> requireName(const std::string& name, const words::Words& words) {
        const auto& names = station::settingNames();
        if (std::find(names.begin(), names.end(), name) != names.end()) {
            return {};
        }
        return tl::unexpected(station::problemOf(
            words, "settings.unknown",
            {{"name", name}, {"names", words.anyOf({names.begin(), names.end()})}}));
    }

    static Result<station::StationSettings> change(const Call& call,
                                                   const station::Surroundings& surroundings) {
        const auto signing = Signing::of(call, surroundings);
        if (!signing) {
            return tl::unexpected(signing.error());
        }
        station::SettingsChange change;
        if (call.has(shared::as.name)) {
            change.by = signing->writer(call);
        }
        change.values[call.wanted("NAME")] =
            call.has("--unset") ? std::nullopt : call.value("VALUE");
        return station::changeSettings(surroundings, logbookOf(call), change);
    }
};

}  // namespace

std::unique_ptr<const Command> makeSettingsCommand() {
    return std::make_unique<SettingsCommand>();
}

}  // namespace cli
