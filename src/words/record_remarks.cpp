// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Beside the line of an entry; see record_remarks.h.
#include "words/record_remarks.h"

#include "words/shown.h"

#include <variant>

namespace words {

namespace {

namespace body = logbook::body;

std::string typedText(const logbook::Record& record) {
    if (const auto* fault = std::get_if<body::Fault>(&record.body))
        return shown(fault->text.value_or(""));
    if (const auto* done = std::get_if<body::NoticeDone>(&record.body))
        return shown(done->text.value_or(""));
    if (const auto* start = std::get_if<body::UseStart>(&record.body))
        return shown(start->reason.value_or(""));
    return "";
}

}  // namespace

std::string deniedBy(const Context& context, std::string_view person) {
    return context.words.say("record.not_by", {{"person", personName(context, person)}});
}

std::string withTypedText(const Context& context, const logbook::Record& record,
                          const std::string& line) {
    const auto typed = typedText(record);
    return typed.empty() ? line
                         : context.words.say("history.typed", {{"line", line}, {"text", typed}});
}

}  // namespace words
