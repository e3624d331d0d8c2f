// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Free text that looks as if it named a patient. A guess, to ask about before the text is kept for
// ever: it may err in both directions and refuses nothing by itself.
#pragma once

#include "logbook/json.h"
#include "words/words.h"

#include <string>
#include <string_view>
#include <vector>

namespace station {

struct PatientTrace {
    enum class Code {
        Marker,    // a word that goes before a patient's number or birth date
        Number,    // six digits or more that belong to no lot, serial, time or measure
        Title,     // a form of address with a name
        NameDate,  // two names and a date
    };
    Code code{};
    std::string text;  // what looks like it, as it stands there
};

// In order of the text; markers and forms of address are those of the language.
[[nodiscard]] std::vector<PatientTrace> patientTraces(std::string_view text,
                                                      const words::Words& words);

// Whether a field of a body is free text.
[[nodiscard]] bool isFreeText(std::string_view field);

// Of all free texts in the body of an entry: reasons, texts, titles, labels and places.
[[nodiscard]] std::vector<PatientTrace> patientTraces(const logbook::json::Object& body,
                                                      const words::Words& words);

}  // namespace station
