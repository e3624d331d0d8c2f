// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Texts of entries brought into form; see tidied.h.
#include "station/tidied.h"

#include "logbook/text.h"
#include "logbook/tidy.h"
#include "words/shown.h"

#include <functional>
#include <iterator>
#include <optional>
#include <utility>

namespace station {

namespace {

namespace json = logbook::json;
using logbook::Kind;
using Tidy = std::function<std::optional<std::string>(std::string_view)>;

bool isFit(Kind kind) {
    return kind == Kind::Fit || kind == Kind::Remove || kind == Kind::Move;
}

// How a text of the body is kept; none: as it is.
Tidy tidyOf(std::string_view field) {
    for (const auto* name : {"location", "serial", "lot", "model"}) {
        if (field == name) {
            return logbook::tidyName;
        }
    }
    for (const auto* key : {"group", "code", "hold", "position"}) {
        if (field == key) {
            return logbook::tidyKey;
        }
    }
    return {};
}

bool isOptional(std::string_view field) {
    return field == "location" || field == "group" || field == "reason" || field == "text";
}

class Tidying {
public:
    Tidying(const words::Words& words, std::vector<std::string>& remarks)
        : m_words(words), m_remarks(remarks) {}

    void tidy(Entry& entry) {
        const auto kind = logbook::kindOf(entry.kind);
        if (!kind || (!hasHappened(*kind) && !isFit(*kind))) {
            return;
        }
        m_leavesOut = hasHappened(*kind);
        m_isStart = *kind == Kind::UseStart;
        if (auto device = logbook::tidyName(entry.device); device && !device->empty()) {
            entry.device = *std::move(device);
        }
        tidyObject(entry.body);
        if (!m_leavesOut) {
            return;
        }
        tidyWriter(entry.by);
        for (auto* text : {&entry.doneBy, &entry.form, &entry.batch}) {
            if (*text) {
                *text = orNothing(**text, logbook::tidyName);
            }
        }
        if (entry.witness) {
            tidyWriter(*entry.witness);
            if (!logbook::isName(entry.witness->who)) {
                leaveOut(entry.witness->who);
                entry.witness.reset();
            }
        }
    }

private:
    static void tidyWriter(Writer& writer) {
        if (auto who = logbook::tidyName(writer.who); who && !who->empty()) {
            writer.who = *std::move(who);
        }
    }

    void leaveOut(const std::string& text) {
        m_remarks.push_back(m_words.say("entry.form_left_out", {{"text", words::shown(text)}}));
    }

    // What is empty was not stated.
    std::optional<std::string> orNothing(const std::string& text, const Tidy& tidy) {
        auto kept = tidy(text);
        if (!kept) {
            leaveOut(text);
        }
        return kept && !kept->empty() ? kept : std::nullopt;
    }

    void tidyObject(json::Object& object) {
        for (auto member = object.begin(); member != object.end();) {
            auto& [field, value] = *member;
            if (auto* part = value.object()) {
                tidyObject(*part);
            }
            const auto* stated = value.string();
            const auto text = stated != nullptr ? std::optional(*stated) : std::nullopt;
            member = !text || keepText(field, *text, value) ? std::next(member)
                                                            : object.erase(member);
        }
    }

    // Whether it stays.
    bool keepText(const std::string& field, const std::string& text, json::Value& value) {
        const auto tidy = tidyOf(field);
        const bool mayGo = m_leavesOut && isOptional(field) && (m_isStart || field == "text");
        if (!tidy) {
            const bool isKept = logbook::isUtf8(text) && text.find('\0') == std::string::npos;
            if (mayGo && !isKept) {
                leaveOut(text);
            }
            return isKept || !mayGo;
        }
        if (mayGo) {
            const auto kept = orNothing(text, tidy);
            if (kept) {
                value = *kept;
            }
            return kept.has_value();
        }
        if (const auto kept = tidy(text); kept && !kept->empty()) {
            value = *kept;
        }
        return true;
    }

    const words::Words& m_words;
    std::vector<std::string>& m_remarks;
    bool m_leavesOut = false, m_isStart = false;
};

}  // namespace

bool hasHappened(Kind kind) {
    switch (kind) {
        case Kind::UseStart:
        case Kind::UsePause:
        case Kind::UseResume:
        case Kind::UseEnd:
        case Kind::Fault:
        case Kind::Withdraw:
        case Kind::Soil:
        case Kind::Alarm: return true;
        default: return false;
    }
}

Tidied tidied(const words::Words& words, const std::vector<Entry>& entries) {
    Tidied all{entries, {}};
    Tidying tidying(words, all.remarks);
    for (auto& entry : all.entries) {
        tidying.tidy(entry);
    }
    return all;
}

}  // namespace station
