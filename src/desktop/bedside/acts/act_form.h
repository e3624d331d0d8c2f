// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an entry asks for, as plain data: the fields in their order, what the button that ends it
// asserts, and which acts come of the answers. Knows no widget.
#pragma once

#include "station/bedside.h"

#include <QString>
#include <QStringList>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace desktop {

// By field. One that was not answered is absent.
using Answers = std::map<std::string, std::string, std::less<>>;

// "" where the field was not answered.
[[nodiscard]] inline std::string answer(const Answers& answers, std::string_view field) {
    const auto found = answers.find(field);
    return found == answers.end() ? std::string() : found->second;
}

struct ActChoice {
    std::string value;
    QString label;
    QString note{};  // said below it
};

struct ActField {
    enum class What {
        Choice,  // one of the choices
        Text,    // typed or scanned; the choices are proposals for it
    };
    std::string key;
    QString label;
    What what = What::Choice;
    bool isWanted = false;  // without it nothing can be kept; set where the form is asked for
    std::string value{};    // answered so at first
    std::vector<ActChoice> choices{};
};

struct ActForm {
    QString title;
    bool isUrgent = false;  // kept at once: nothing is looked up or asked before
    std::optional<logbook::RecordName> use{};  // that began so, if it is about one
    QStringList told{};  // to be known before it is entered
    std::vector<ActField> fields{};
    // What the button asserts, by what is answered so far.
    std::function<QString(const Answers&)> says;
    // Called with every wanted field answered.
    std::function<std::vector<station::Act>(const Answers&)> acts;
};

}  // namespace desktop
