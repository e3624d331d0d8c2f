// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is set at one station and never leaves it: how its screen looks, how it reads a scanner,
// when it locks. No rule of the trade is among it, and no verdict depends on it.
#pragma once

#include "station/sign_in.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace station {

enum class Theme { AsComputer, Light, Dark };

struct Settings {
    std::optional<std::string> place;                       // where this computer stands
    std::map<std::string, std::string, std::less<>> units;  // "pressure": the unit people see
    logbook::Duration staleAfter{defaultStaleAfter};
    std::optional<logbook::Duration> longUse{};  // a use longer than this is asked about
    logbook::Duration lockAfter{90'000};         // without a press
    std::optional<std::string> secondBackup{};   // an absolute folder; set for this very file
    int backupsKept = 7;                         // automatic ones; 0: none are made
    std::string language = "en";                 // one that is built in
    std::string scannerPrefix{}, scannerSuffix{};
    int textSizePercent = 100;  // 100 to 200
    Theme theme = Theme::AsComputer;
};

// A value that is stored, or asked for, and cannot be used.
struct SettingFault {
    std::string name, value;
    words::Sentence sentence;
};

struct StationSettings {
    Settings settings;                                       // a faulty one has its default
    std::map<std::string, std::string, std::less<>> stated;  // name: value, of those that are set
    std::vector<SettingFault> faults;
    bool isUnread = false;  // nothing is known of what is set: all have their default
};

// "place", "pressure", "stale-after", …: in the order in which people see them.
[[nodiscard]] const std::vector<std::string_view>& settingNames();

// How the setting reads as a person sees it, its default where none is set; "" for none.
[[nodiscard]] std::string valueOf(const Settings& settings, std::string_view name);

[[nodiscard]] Result<StationSettings> settingsOf(const Surroundings& surroundings,
                                                 const LogbookFile& file);

struct SettingsChange {
    std::optional<Writer> by;  // a manager; needless before anybody has a PIN at this station
    std::map<std::string, std::optional<std::string>, std::less<>> values;  // none: the default
};

// Refused whole, with nothing written: a name that is none; a value that cannot be used, each with
// its reason in the details; somebody who may not say who holds which role. A disk that fails in
// between may leave some of several written. What is set afterwards, as far as it can be read.
[[nodiscard]] Result<StationSettings> changeSettings(const Surroundings& surroundings,
                                                     const LogbookFile& file,
                                                     const SettingsChange& change);

}  // namespace station
