// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Bedside desk: one unit, whatever was scanned or typed, and what a press states as the body of
// an entry. Writes nothing itself.
#pragma once

#include "report/bedside.h"
#include "report/known_parts.h"
#include "station/answers.h"
#include "station/entry.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace station {

// One unit at the time asked; a problem if it was never enrolled by then. Asks of the whole state
// only what bears on the unit.
[[nodiscard]] Result<report::Bedside> bedside(const Surroundings& surroundings,
                                              const WholeStanding& standing,
                                              const std::string& device);

// What a scanned or typed text names.
struct Found {
    enum class What {
        Unit,     // exactly one: `device`
        Units,    // several: `devices`, by serial; the person says which
        Part,     // a part known by its serial: `parts`
        Model,    // a model of parts: `parts`, where it went before
        Lot,      // a lot of parts, known by one of them or by a notice: `parts`, likewise
        Nothing,  // `sentence` says what was read
    };
    What what = What::Nothing;
    std::string read;  // as it is taken: no control characters, no blanks around it
    std::string device;
    bool retired = false;
    std::vector<std::string> devices;
    std::vector<report::PartProposal> parts;  // where it would go on the unit that is open
    std::vector<report::FittedPlace> places;  // where such parts stand, on whichever unit
    std::vector<std::string> notices;         // that concern them, with what to do
    std::string sentence;  // what was found, or that it is not known and what was read

    [[nodiscard]] bool isOfParts() const {
        return what == What::Part || what == What::Model || what == What::Lot;
    }
};

// Serial or asset number of a unit first, exactly as written, then whatever the case; then the
// serial of a part, the lot of one that is in a unit or was there last, a model of parts, and the
// lot of any part. Retired units come after the others. `open`: the unit that is open, "" if none.
[[nodiscard]] Found find(const Surroundings& surroundings, const WholeStanding& standing,
                         std::string_view text, const std::string& open = {});

// Reads the log that holds what was ever fitted of a model or a lot that a text may name, when it
// is called; see model_log.h.
using ModelReader =
    std::function<Result<std::shared_ptr<const WholeStanding>>(const std::string& text)>;

// The same of a standing without its log, which is read only where nothing else is known by the
// text: if it cannot be, the sentence says why nothing was found.
[[nodiscard]] Found find(const Surroundings& surroundings, const Standing& standing,
                         const ModelReader& log, std::string_view text,
                         const std::string& open = {});

// What an entry says: its kind and its body.
struct Act {
    std::string kind;
    logbook::json::Object body;
};

// Who does it, when, and with whom: what all entries of one press share.
struct Doing {
    Writer by;
    std::string device;
    std::optional<logbook::Instant> at{};
    std::optional<std::string> doneBy{};
    std::optional<Writer> witness{};
    std::optional<std::string> batch{};
    bool namesNoPatient = false;
};

[[nodiscard]] Entry entryOf(const Doing& doing, Act act);
// In the order given. Without a batch they have none.
[[nodiscard]] std::vector<Entry> entriesOf(const Doing& doing, std::vector<Act> acts);

// A name for the entries of one session on one unit that no other session has: the station's and
// the instant.
[[nodiscard]] std::string batchName(const Surroundings& surroundings,
                                    const Standing& standing);

struct TypedMeasure {
    std::string key;
    double value = 0;
    std::string unit;  // as typed
};

// Attempts at a check. What was typed is kept in the units of the policy edition. Stated is every
// condition but those of `notSo`, which did not hold, however the attempt ended. A problem: a value
// in a unit that measures something else.
[[nodiscard]] Result<Act> passOf(const words::Words& words, const report::CheckToLog& check,
                                 const std::vector<TypedMeasure>& measures);
// The check was carried out all the same: the program says that and why it does not count.
[[nodiscard]] Result<Act> notSoOf(const words::Words& words, const report::CheckToLog& check,
                                  const std::vector<TypedMeasure>& measures,
                                  const std::vector<std::string>& notSo);
// Without `notSo` nobody was asked what held, and nothing is stated.
[[nodiscard]] Result<Act> failOf(const words::Words& words, const report::CheckToLog& check,
                                 const std::vector<TypedMeasure>& measures,
                                 const std::optional<std::vector<std::string>>& notSo = {});
// What was seen at it, for people: a check has no words of its own.
[[nodiscard]] Act noteOf(const report::CheckToLog& check, const std::string& seen);
// It was begun and not finished.
[[nodiscard]] Act incompleteOf(const report::CheckToLog& check,
                               const std::vector<std::string>& notSo);

// What a person states of a part: a proposal as they left it, with what is on the part itself.
// An empty text is not stated.
struct StatedPart {
    std::string position;
    std::map<std::string, std::string, std::less<>> texts;  // model, serial, lot, expires, …
    std::optional<std::vector<std::string>> groups;
};
[[nodiscard]] StatedPart statedPart(const report::PartProposal& proposal);

[[nodiscard]] Act fitOf(const StatedPart& part);
[[nodiscard]] Act removeOf(const std::string& position);
// Taken out and another put in: two entries.
[[nodiscard]] std::vector<Act> swapOf(const StatedPart& part);
[[nodiscard]] Act reprocessOf(const std::vector<std::string>& positions, logbook::Level level,
                              const std::optional<std::string>& load = {});

// What a row asks for, where nothing has to be typed: group, switching on, taking out,
// reprocessing, pausing and resuming a use. Nothing for a check, a fit or a service.
[[nodiscard]] std::optional<Act> actOf(const report::ActToLog& act);

}  // namespace station
