// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences about the settings of a station, with their gaps. Knows no language.
#include "words/key_tables.h"

namespace words {

static constexpr std::string_view table = R"(
settings: title line(name value) default(value) not_set name value faulty(name sentence)
settings: unread_value set_unread
settings.unread: says safe do
settings.bad: says safe do
settings.unknown: says(name) safe do(names)
settings.nobody: says safe do
settings_fault.unit: says(value) do(units)
settings_fault.place: says(value) do
settings_fault.span: says(value) do(least most)
settings_fault.folder: says(value) do
settings_fault.in_way: says(value) do
settings_fault.not_there: says(value) do
settings_fault.language: says(value) do
settings_fault.scanner: says(value) do(most)
settings_fault.text_size: says(value) do
settings_fault.theme: says(value) do
settings_fault.elsewhere: says(value) do
settings_fault.backups: says(value) do(most)
backups: made(path) made_second(path) failed(folder) safe last(when) begun
backups: gone(names) not_counted(folder names)
backups: second_unread place_unread not_tried(reason)
backups: migrated(path backup) up_to_date(path)
backups_failed: full no_folder not_permitted not_sound busy elsewhere in_way not_given exists other
)";

std::string_view settingsKeys() {
    return table;
}

}  // namespace words
