// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// imports: who brought in which record files here.
#include "cli/answer_options.h"
#include "cli/commands.h"
#include "report/layout.h"
#include "station/imports_list.h"
#include "words/shown.h"

namespace cli {

namespace {

namespace json = logbook::json;
using station::ListedImport;
using station::Result;

std::string whoOf(const ListedImport& import, const words::Words& words) {
    return import.name == import.person
               ? words::shown(import.person)
               : words.say("imports.who", {{"person", import.name}, {"key", import.person}});
}

std::string textOf(const std::vector<ListedImport>& imports, const words::Words& words) {
    if (imports.empty()) {
        return words.say("imports.none") + "\n";
    }
    report::Table table({words.say("imports.when"), words.say("imports.person"),
                         words.say("imports.added"), words.say("imports.skipped"),
                         words.say("imports.file")});
    for (const auto& import : imports) {
        table.add({import.when, whoOf(import, words), std::to_string(import.added),
                   std::to_string(import.skipped), words::shown(import.files)});
    }
    return words.say("imports.title") + "\n\n" + table.text(report::usableWidth({}));
}

json::Value jsonOf(const std::vector<ListedImport>& imports) {
    json::Array list;
    for (const auto& import : imports) {
        list.emplace_back(json::Object{{"at", toText(import.at)},
                                       {"person", import.person},
                                       {"name", import.name == import.person
                                                    ? json::Value()
                                                    : json::Value(import.name)},
                                       {"file", import.files},
                                       {"added", import.added},
                                       {"skipped", import.skipped}});
    }
    return list;
}

class ImportsCommand final : public Command {
public:
    const Description& description() const override {
        static const Description data{
            "imports",
            "List which record files were taken in here, by whom and when.",
            {shared::logbook},
            {shared::json, shared::trustLocks},
            "Files in which nothing was new are listed too; a refused import leaves no trace. The "
            "list is kept in this logbook only: it is in no export and no backup.",
            "airmuster-cli imports ward.logbook"};
        return data;
    }

    Result<Answer> run(const Call& call, const station::Surroundings& surroundings) const override {
        const auto imports = station::importsOf(surroundings, logbookOf(call));
        if (!imports) {
            return tl::unexpected(imports.error());
        }
        return Answer{ExitStatus::Done, call.has(shared::json.name)
                                            ? jsonText(jsonOf(*imports))
                                            : textOf(*imports, surroundings.words)};
    }
};

}  // namespace

std::unique_ptr<const Command> makeImportsCommand() {
    return std::make_unique<ImportsCommand>();
}

}  // namespace cli
