// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Station settings, their texts and their bounds; see settings.h.
#include "station/settings.h"

#include "logbook/digits.h"
#include "logbook/text.h"
#include "logbook/unit.h"
#include "station/file_kind.h"
#include "words/record_words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace station {

namespace {

using logbook::Duration;

constexpr std::int64_t second = 1000, minute = 60 * second, hour = 60 * minute, day = 24 * hour;
constexpr std::size_t longestScannerText = 8;
constexpr int mostBackups = 365;

struct Dimension {
    std::string_view name, unit;  // one of its units
};
constexpr std::array<Dimension, 11> dimensions{{{"pressure", "cmH2O"},
                                                {"flow", "L/min"},
                                                {"volume", "mL"},
                                                {"ratio", "%"},
                                                {"compliance", "mL/cmH2O"},
                                                {"resistance", "cmH2O/(L/s)"},
                                                {"temperature", "degC"},
                                                {"time", "min"},
                                                {"voltage", "V"},
                                                {"current", "mA"},
                                                {"electrical-resistance", "ohm"}}};

const Dimension* dimensionOf(std::string_view name) {
    const auto found = std::ranges::find(dimensions, name, &Dimension::name);
    return found == dimensions.end() ? nullptr : &*found;
}

std::vector<std::string> unitsOf(const Dimension& dimension) {
    std::vector<std::string> units;
    for (const auto unit : logbook::unitNames()) {
        if (logbook::convert(1, dimension.unit, unit)) {
            units.emplace_back(unit);
        }
    }
    return units;
}

// As it stands in the file, "stale_after"; "unit.pressure" of a dimension.
std::string keyOf(std::string_view name) {
    std::string key(name);
    std::ranges::replace(key, '-', '_');
    return dimensionOf(name) != nullptr ? "unit." + key : key;
}

// "PT12H", "12 h" or "90 s"; as a record has it.
std::optional<Duration> spanIn(std::string_view text) {
    if (const auto span = logbook::parseDuration(text)) {
        return span;
    }
    const auto end = text.find_first_not_of("0123456789");
    const auto count = logbook::digits(text.substr(0, end));
    auto unit = end == std::string_view::npos ? std::string_view() : text.substr(end);
    unit.remove_prefix(unit.starts_with(' ') ? 1 : 0);
    for (const auto& [name, length] :
         {std::pair<std::string_view, std::int64_t>{"s", second},
          {"min", minute},
          {"h", hour},
          {"d", day}}) {
        if (count && unit == name) {
            return Duration{*count * length};
        }
    }
    return std::nullopt;
}

std::string spanText(Duration span) {
    return "PT" + std::to_string(span.ms / second) + "S";
}

std::string readableSpan(Duration span) {
    for (const auto& [name, length] : {std::pair<const char*, std::int64_t>{" d", day},
                                       {" h", hour},
                                       {" min", minute}}) {
        if (span.ms >= 2 * length && span.ms % length == 0) {
            return std::to_string(span.ms / length) + name;
        }
    }
    return std::to_string(span.ms / second) + " s";
}

constexpr std::array<std::pair<std::string_view, Theme>, 3> themes{
    {{"computer", Theme::AsComputer}, {"light", Theme::Light}, {"dark", Theme::Dark}}};

// For which file the second place was set: a copy of a logbook brings its settings along, and must
// not put its backups among those of the one that it is a copy of.
constexpr const char* homeKey = "second_backup.home";

std::string homeOf(const std::filesystem::path& path) {
    return store::toHex(store::sha256(system::homeOf(path)));
}

bool isAtHome(const store::Logbook& logbook, const std::map<std::string, std::string>& stored) {
    const auto home = stored.find(homeKey);
    return home != stored.end() && home->second == homeOf(logbook.path());
}

// Puts one value into the settings, or says why it cannot.
class Setting {
public:
    Setting(const words::Words& words, Settings& settings) : m_words(words), m_settings(settings) {}

    // The value as it is to be stored; none: `fault` says why.
    std::optional<std::string> put(std::string_view name, const std::string& value) {
        m_value = value;
        if (const auto* dimension = dimensionOf(name)) {
            return putUnit(*dimension);
        }
        if (name == "place") return putName();
        if (name == "stale-after") return putSpan(m_settings.staleAfter, minute, 30 * day);
        if (name == "lock-after") return putSpan(m_settings.lockAfter, 15 * second, hour);
        if (name == "long-use") return putLongUse();
        if (name == "second-backup") return putFolder();
        if (name == "backups-kept") return putBackupsKept();
        if (name == "language") return putLanguage();
        if (name == "scanner-prefix") return putScannerText(m_settings.scannerPrefix);
        if (name == "scanner-suffix") return putScannerText(m_settings.scannerSuffix);
        if (name == "text-size") return putTextSize();
        return putTheme();
    }

    [[nodiscard]] const words::Sentence& fault() const { return m_fault; }

    std::optional<std::string> refuse(std::string_view code, words::Gaps gaps = {}) {
        gaps["value"] = m_value;
        m_fault = m_words.sentence("settings_fault." + std::string(code), gaps);
        return std::nullopt;
    }

private:
    std::optional<std::string> putUnit(const Dimension& dimension) {
        const auto units = unitsOf(dimension);
        if (std::ranges::find(units, m_value) == units.end()) {
            return refuse("unit", {{"units", m_words.anyOf(units)}});
        }
        m_settings.units[std::string(dimension.name)] = m_value;
        return m_value;
    }
    std::optional<std::string> putName() {
        if (!logbook::isName(m_value)) {
            return refuse("place");
        }
        m_settings.place = m_value;
        return m_value;
    }
    std::optional<std::string> putSpan(Duration& into, std::int64_t least, std::int64_t most) {
        const auto span = spanIn(m_value);
        if (!span || span->ms < least || span->ms > most || span->ms % second != 0) {
            return refuse("span", {{"least", readableSpan({least})},
                                   {"most", readableSpan({most})}});
        }
        into = *span;
        return spanText(*span);
    }
    std::optional<std::string> putLongUse() {
        Duration span{};
        auto stored = putSpan(span, hour, 365 * day);
        if (stored) {
            m_settings.longUse = span;
        }
        return stored;
    }
    std::optional<std::string> putFolder() {
        if (!logbook::isUtf8(m_value) || !std::filesystem::path(m_value).is_absolute()) {
            return refuse("folder");
        }
        m_settings.secondBackup = m_value;
        return m_value;
    }
    std::optional<std::string> putBackupsKept() {
        const auto count = logbook::digits(m_value);
        if (!count || *count > mostBackups) {
            return refuse("backups", {{"most", std::to_string(mostBackups)}});
        }
        m_settings.backupsKept = *count;
        return std::to_string(*count);
    }
    std::optional<std::string> putLanguage() {
        if (words::Words::builtIn(m_value) == nullptr) {
            return refuse("language");
        }
        m_settings.language = m_value;
        return m_value;
    }
    std::optional<std::string> putScannerText(std::string& into) {
        const bool isPlain = std::ranges::all_of(
            m_value, [](char letter) { return letter >= '!' && letter <= '~'; });
        if (m_value.empty() || m_value.size() > longestScannerText || !isPlain) {
            return refuse("scanner", {{"most", std::to_string(longestScannerText)}});
        }
        into = m_value;
        return m_value;
    }
    std::optional<std::string> putTextSize() {
        const auto size = logbook::digits(m_value);
        if (!size || *size < 100 || *size > 200) {
            return refuse("text_size");
        }
        m_settings.textSizePercent = *size;
        return std::to_string(*size);
    }
    std::optional<std::string> putTheme() {
        const auto found = std::ranges::find(themes, m_value, [](const auto& each) {
            return each.first;
        });
        if (found == themes.end()) {
            return refuse("theme");
        }
        m_settings.theme = found->second;
        return m_value;
    }

    const words::Words& m_words;
    Settings& m_settings;
    std::string m_value;
    words::Sentence m_fault;
};

// The values as they are to be stored, by their key in the file.
using Stored = std::map<std::string, std::optional<std::string>>;

Result<Stored> checked(const words::Words& words, const SettingsChange& change) {
    Stored stored;
    Settings settings;
    Setting setting(words, settings);
    auto problem = problemOf(words, "settings.bad");
    for (const auto& [name, value] : change.values) {
        if (std::ranges::find(settingNames(), name) == settingNames().end()) {
            std::vector<std::string> names(settingNames().begin(), settingNames().end());
            return tl::unexpected(problemOf(
                words, "settings.unknown", {{"name", name}, {"names", words.anyOf(names)}}));
        }
        auto kept = value ? setting.put(name, *value) : std::nullopt;
        if (kept && name == "second-backup" && system::isInWayOfFolder(*kept)) {
            kept = setting.refuse("in_way");
        }
        if (value && !kept) {
            problem.details.push_back(words.say(
                "settings.line", {{"name", name}, {"value", setting.fault().text()}}));
        }
        stored[keyOf(name)] = kept;
    }
    if (!problem.details.empty()) {
        return tl::unexpected(std::move(problem));
    }
    return stored;
}

// The name under which it is written.
Result<std::string> managerOf(const Surroundings& surroundings, const Gate& gate,
                              const std::optional<Writer>& by) {
    const auto unopened = gate.isUnopened();
    if (!unopened) {
        return tl::unexpected(unopened.error());
    }
    if (*unopened) {
        return by ? by->who : surroundings.login;
    }
    if (!by) {
        return tl::unexpected(problemOf(surroundings.words, "settings.nobody"));
    }
    const auto signature = gate.sign(*by);
    if (!signature) {
        return tl::unexpected(signature.error());
    }
    if (!signature->isManager) {
        const words::Context context{surroundings.words, *gate.people(), nullptr, gate.now(),
                                     {}, {}};
        const auto roles = words::rolesFor(context, logbook::Kind::Person);
        return tl::unexpected(problemOf(surroundings.words, "people.not_manager",
                                        {{"person", signature->name},
                                         {"roles", words::rolesWithPeople(context, roles)}}));
    }
    return signature->person;
}

}  // namespace

const std::vector<std::string_view>& settingNames() {
    static const std::vector<std::string_view> names = [] {
        std::vector<std::string_view> all{"place",         "lock-after",    "stale-after",
                                          "long-use",      "backups-kept",  "second-backup",
                                          "language",      "text-size",     "theme",
                                          "scanner-prefix", "scanner-suffix"};
        for (const auto& dimension : dimensions) {
            all.push_back(dimension.name);
        }
        return all;
    }();
    return names;
}

std::string valueOf(const Settings& settings, std::string_view name) {
    if (dimensionOf(name) != nullptr) {
        const auto found = settings.units.find(name);
        return found == settings.units.end() ? "" : found->second;
    }
    if (name == "place") return settings.place.value_or("");
    if (name == "lock-after") return readableSpan(settings.lockAfter);
    if (name == "stale-after") return readableSpan(settings.staleAfter);
    if (name == "long-use") return settings.longUse ? readableSpan(*settings.longUse) : "";
    if (name == "backups-kept") return std::to_string(settings.backupsKept);
    if (name == "second-backup") return settings.secondBackup.value_or("");
    if (name == "language") return settings.language;
    if (name == "text-size") return std::to_string(settings.textSizePercent);
    if (name == "scanner-prefix") return settings.scannerPrefix;
    if (name == "scanner-suffix") return settings.scannerSuffix;
    const auto found = std::ranges::find(themes, settings.theme, [](const auto& each) {
        return each.second;
    });
    return std::string(found->first);
}

Result<StationSettings> settingsOf(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    const auto stored = logbook->settings();
    if (!stored) {
        return tl::unexpected(problemOf(surroundings.words, stored.error()));
    }
    StationSettings all;
    all.isUnread = logbook->metDamage();  // nothing else was read of it
    Setting setting(surroundings.words, all.settings);
    for (const auto name : settingNames()) {
        const auto found = stored->find(keyOf(name));
        if (found == stored->end()) {
            continue;
        }
        all.stated.emplace(name, found->second);
        if (!setting.put(name, found->second)) {
            all.faults.push_back({std::string(name), found->second, setting.fault()});
        }
    }
    if (all.settings.secondBackup && !isAtHome(*logbook, *stored)) {
        const auto value = *std::exchange(all.settings.secondBackup, std::nullopt);
        all.faults.push_back({"second-backup", value,
                              surroundings.words.sentence("settings_fault.elsewhere",
                                                          {{"value", value}})});
    }
    return all;
}

Result<StationSettings> changeSettings(const Surroundings& surroundings, const LogbookFile& file,
                                       const SettingsChange& change) {
    auto stored = checked(surroundings.words, change);
    if (!stored) {
        return tl::unexpected(stored.error());
    }
    if (const auto place = stored->find(keyOf("second-backup")); place != stored->end()) {
        const bool isSet = place->second.has_value();
        (*stored)[homeKey] = isSet ? std::optional(homeOf(file.path)) : std::nullopt;
    }
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const auto log = readWholeLog(surroundings, *logbook);
    if (!log) {
        return tl::unexpected(log.error());
    }
    const Gate gate(surroundings, file, *log);
    const auto person = managerOf(surroundings, gate, change.by);
    if (!person) {
        return tl::unexpected(person.error());
    }
    for (const auto& [key, value] : *stored) {
        const auto set = logbook->setSetting(key, value, gate.writing(*person));
        if (!set) {
            return tl::unexpected(problemOf(surroundings.words, set.error()));
        }
    }
    auto after = settingsOf(surroundings, file);
    if (!after) {
        after = StationSettings();  // it is set all the same
        after->isUnread = true;
    }
    return after;
}

}  // namespace station
