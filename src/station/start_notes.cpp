// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Notes as files of JSON; see start_notes.h.
#include "station/start_notes.h"

#include "logbook/json.h"
#include "store/hash.h"
#include "store/operating_system.h"
#include "words/shown.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using Path = std::filesystem::path;

constexpr std::string_view ending = ".start.json";
constexpr std::string_view unreadable = ".unreadable";
constexpr std::string_view dropped = ".dropped";
constexpr std::string_view form = "emergency start, not recorded: 1";
constexpr std::uintmax_t longestNote = 1 << 16;
constexpr int mostOfOneMoment = 1000;

// Any bytes may be in a path: this tells it from every other one.
std::string placeOf(const LogbookFile& file) {
    std::error_code error;
    const auto full = std::filesystem::absolute(file.path, error).lexically_normal();
    return store::toHex(store::sha256((error ? file.path : full).string()));
}

void add(json::Object& object, const char* name, const std::optional<std::string>& text) {
    if (text) {
        object.emplace_back(name, *text);
    }
}

json::Value valueOf(const Entry& entry) {
    json::Object object{{"kind", entry.kind}, {"device", entry.device}, {"body", entry.body}};
    if (entry.at) {
        object.emplace_back("at", toText(*entry.at));
    }
    add(object, "done_by", entry.doneBy);
    add(object, "form", entry.form);
    add(object, "batch", entry.batch);
    if (entry.witness) {
        object.emplace_back("witness", entry.witness->who);
    }
    object.emplace_back("names_no_patient", entry.namesNoPatient);
    return object;
}

std::string textOf(const LogbookFile& file, const PressedStart& start) {
    json::Array entries;
    for (const auto& entry : start.entries) {
        entries.push_back(valueOf(entry));
    }
    return json::canonical(json::Object{{"note", form},
                                        {"logbook", words::shown(file.path.string())},
                                        {"place", placeOf(file)},
                                        {"log", start.log},
                                        {"by", start.entries.front().by.who},
                                        {"pressed", toText(start.pressed)},
                                        {"entries", std::move(entries)}}) +
           "\n";
}

// "" where there is no such text.
std::string textIn(const json::Value& value, std::string_view name) {
    const auto* member = value.find(name);
    return member != nullptr && member->string() != nullptr ? *member->string() : "";
}

std::optional<std::string> anyIn(const json::Value& value, std::string_view name) {
    auto text = textIn(value, name);
    return text.empty() ? std::nullopt : std::optional(std::move(text));
}

std::optional<Entry> entryIn(const json::Value& value, const std::string& by) {
    const auto* body = value.find("body");
    const auto at = logbook::parseInstant(textIn(value, "at"));
    if (body == nullptr || body->object() == nullptr || !at) {
        return std::nullopt;
    }
    Entry entry{Writer(by), textIn(value, "kind"), textIn(value, "device"), *body->object(), at};
    entry.doneBy = anyIn(value, "done_by");
    entry.form = anyIn(value, "form");
    entry.batch = anyIn(value, "batch");
    if (const auto witness = anyIn(value, "witness")) {
        entry.witness = Writer(*witness);
    }
    const auto* noPatient = value.find("names_no_patient");
    entry.namesNoPatient = noPatient != nullptr && noPatient->boolean() != nullptr &&
                           *noPatient->boolean();
    return entry;
}

// None where it is no note of one start: damaged, or a stranger's.
std::optional<NotedStart> startIn(const std::string& text, const LogbookFile& file) {
    const auto read = json::parse(text);
    if (!read || textIn(*read, "note") != form) {
        return std::nullopt;
    }
    NotedStart noted;
    noted.logbook = textIn(*read, "logbook");
    noted.isOfThis = textIn(*read, "place") == placeOf(file);
    noted.start.log = textIn(*read, "log");
    const auto by = textIn(*read, "by");
    const auto pressed = logbook::parseInstant(textIn(*read, "pressed"));
    const auto* entries = read->find("entries");
    if (by.empty() || !pressed || entries == nullptr || entries->array() == nullptr) {
        return std::nullopt;
    }
    noted.start.pressed = *pressed;
    for (const auto& each : *entries->array()) {
        auto entry = entryIn(each, by);
        if (!entry || entry->device.empty()) {
            return std::nullopt;
        }
        noted.start.entries.push_back(std::move(*entry));
    }
    const bool isStart = std::ranges::any_of(noted.start.entries, &isEmergencyStart);
    return isStart ? std::optional(std::move(noted)) : std::nullopt;
}

// Each level that is not there yet by itself, so that its name is on the disk too.
bool makeFolders(const Path& folder) {
    if (folder.empty() || system::exists(folder)) {
        return system::makeFolder(folder);
    }
    return makeFolders(folder.parent_path()) && system::makeFolder(folder);
}

Path besides(Path note, std::string_view more) {
    note += more;
    return note;
}

// Under another name it is left alone.
Problem putAside(const words::Words& words, const Path& note) {
    const auto name = besides(note, unreadable);
    const bool isAside = system::replaceFile(note, name).has_value();
    return problemOf(words, "start.note_damaged",
                     {{"path", (isAside ? name : note).string()}});
}

}  // namespace

// By the time of the press; a number tells those of one second apart.
Result<Path> noteStart(const words::Words& words, const Path& folder, const LogbookFile& file,
                       const PressedStart& start) {
    if (!makeFolders(folder)) {
        return tl::unexpected(problemOf(words, system::FileTrouble::NotPermitted, folder));
    }
    const auto text = textOf(file, start);
    const auto name = std::to_string(start.pressed.ms);
    for (int number = 1; number <= mostOfOneMoment; ++number) {
        auto note = folder / (name + "-" + std::to_string(number) + std::string(ending));
        const auto written = system::writeNewFile(note, text);
        if (written) {
            return note;
        }
        if (written.error() != system::FileTrouble::Exists) {
            return tl::unexpected(problemOf(words, written.error(), note));
        }
    }
    return tl::unexpected(problemOf(words, system::FileTrouble::Exists, folder));
}

StartNotes readStartNotes(const words::Words& words, const Path& folder,
                          const LogbookFile& file) {
    StartNotes notes;
    for (const auto& name : system::namesIn(folder)) {
        if (!name.ends_with(ending)) {
            continue;
        }
        const auto note = folder / name;
        const auto text = system::readFile(note, longestNote);
        if (!text && text.error() == system::FileTrouble::NotFound) {
            continue;  // another window has just kept it
        }
        if (!text && text.error() != system::FileTrouble::TooLong) {
            // It stays, to be read when that can be done.
            notes.damaged.push_back(problemOf(words, text.error(), note));
            continue;
        }
        auto noted = text ? startIn(*text, file) : std::nullopt;
        if (!noted) {
            notes.damaged.push_back(putAside(words, note));
            continue;
        }
        noted->note = note;
        notes.starts.push_back(std::move(*noted));
    }
    std::ranges::sort(notes.starts, {}, [](const NotedStart& noted) {
        return std::pair(noted.start.pressed, noted.note);
    });
    return notes;
}

bool forgetStart(const Path& note) {
    system::removeFile(note);
    return !system::exists(note) && !store::system::flush(note.parent_path());
}

bool dropStart(const Path& note) {
    return system::replaceFile(note, besides(note, dropped)).has_value();
}

bool isDropped(const Path& note) {
    return system::exists(besides(note, dropped));
}

}  // namespace station
