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
        NameBed,   // two names, and a bed or a room by its number
    };
    Code code{};
    std::string text;  // what looks like it, as it stands there
};

enum class TextSort {
    Free,  // reasons, texts, places
    Name,  // of a person, a unit, a part: digits and forms of address belong into some of them
};

// In order of the text; markers and forms of address are those of the language.
[[nodiscard]] std::vector<PatientTrace> patientTraces(std::string_view text,
                                                      const words::Words& words,
                                                      TextSort sort = TextSort::Free);

// Of every text at every level of a body that is no key: reasons, texts, titles, labels and places
// as free text, others as names. Left out is the text of a rulebook.
[[nodiscard]] std::vector<PatientTrace> patientTraces(std::string_view kind,
                                                      const logbook::json::Object& body,
                                                      const words::Words& words);

// Takes out of the body what looks like it: of free text those words, in whose place it is said
// that they were left out, of other text all.
void withholdTraces(std::string_view kind, logbook::json::Object& body,
                    const words::Words& words);

}  // namespace station
