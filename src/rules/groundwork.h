// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must be known of a log before it can be folded, and is little of it: its editions, and which
// records are struck through. Made from the `adopt`, `person` and `strike` records alone, none of
// which can itself be struck; the other records need not be at hand.
#pragma once

#include "rules/fold.h"
#include "rules/rulebook_reader.h"

#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace rules {

inline constexpr Instant unlimited{std::numeric_limits<std::int64_t>::max()};

struct LogFault {
    enum class Code {
        NoEdition,     // no adopt in the log, or none known at the instant asked
        BadRulebook,   // an `adopt` whose text is refused: record, faults
        WrongEdition,  // an `adopt` whose `edition` is not its text's
    };
    Code code{};
    RecordName record;
    std::vector<RulebookRemark> remarks;
};

// An `adopt` record; no edition if it is refused.
struct Adoption {
    RecordRef record;
    std::shared_ptr<const Rulebook> edition;
};

class Groundwork {
public:
    // The `adopt` and `person` records of the log, in any order; those of other kinds are passed
    // over.
    Groundwork(std::vector<logbook::Record> founding, const ZoneSource& zones);

    // A `strike` of the log. All must be added before anything is asked of a record; for little in
    // the reading order, in any other it takes longer.
    void addStrike(const logbook::Record& strike);

    // Rulebooks by the record that adopts them; one whose text is refused is in `faults` instead.
    [[nodiscard]] const Editions& editions() const { return m_editions; }
    [[nodiscard]] const std::vector<LogFault>& faults() const { return m_faults; }

    // Every `adopt`, in the reading order.
    [[nodiscard]] const std::vector<Adoption>& adoptions() const { return m_adoptions; }

    // The rulebook by which all is judged before the first adopt; null if there is none.
    [[nodiscard]] std::shared_ptr<const Rulebook> firstEdition() const;

    // Whether an `adopt` of an edition, with `at` <= `at`, takes part.
    [[nodiscard]] bool hasEdition(Instant at, Instant knownAt) const;

    // The effective strike of the record that was entered first; none if it stands.
    [[nodiscard]] std::optional<RecordRef> struckBy(const logbook::Record& record) const;

    // Whether the record takes part for the knowledge instant: entered by then and not struck by a
    // strike entered by then.
    [[nodiscard]] bool takesPart(const logbook::Record& record, Instant knownAt) const;

    // Of a strike that was added: whether its writer may strike the target; null if there is none.
    [[nodiscard]] bool mayStrike(const logbook::Record& strike,
                                 const logbook::Record* target) const;

    // The same as if every edition had been this one; what was struck stays so.
    [[nodiscard]] Groundwork under(const std::shared_ptr<const Rulebook>& edition) const;

private:
    // A strike with what it is judged by: the edition then in force and, of the persons known, its
    // writer.
    struct Strike {
        RecordRef record;
        std::string by;
        std::shared_ptr<const State> people;
    };
    struct HashOfName {
        std::size_t operator()(const RecordName& name) const;
    };

    // Whether a strike may name the record: with 16 bits a strike, nearly always false for a record
    // that none names, in a few instructions.
    [[nodiscard]] bool mayBeNamed(const RecordName& name) const;
    [[nodiscard]] std::size_t bitOf(const RecordName& name) const;
    void noteNamed(const RecordName& name);

    void readEditions(const ZoneSource& zones);
    void foldPeopleBefore(const RecordRef& place);
    [[nodiscard]] std::shared_ptr<const State> standingOf(const std::string& writer);

    std::vector<logbook::Record> m_founding;  // in the reading order
    Editions m_editions;
    std::vector<LogFault> m_faults;
    std::vector<Adoption> m_adoptions;
    std::unordered_map<RecordName, std::vector<Strike>, HashOfName> m_strikes;  // by target
    std::vector<bool> m_named;  // by bitOf: what m_strikes has; a power of two of them
    State m_people;             // before the strike added last
    std::size_t m_folded = 0;   // of m_founding, in m_people
    std::map<std::string, std::shared_ptr<const State>, std::less<>> m_writers;  // of m_people
};

}  // namespace rules
