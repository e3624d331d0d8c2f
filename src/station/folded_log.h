// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log as the states it folds to. A state is found by folding what lies after the newest one known
// before it, be it kept in the file or here; what arrives later than such a state and reaches
// before it throws it away. Keeps no record and writes nothing.
#pragma once

#include "rules/groundwork.h"
#include "station/grounding.h"
#include "station/problem.h"
#include "station/read_ahead.h"
#include "station/records_seen.h"
#include "station/surroundings.h"
#include "store/held_chain.h"
#include "store/logbook.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace station {

struct Folded {
    const rules::State* state = nullptr;  // until the log is asked again
    std::int64_t folded = 0;  // how many records were folded for it, just now
    // Left out, for they cannot be read; or one that is gone, or to which no index leads; and those
    // that change what others tell, but were not found among such.
    std::vector<logbook::RecordName> unread{};
};

// How much is read at once, and what is kept in memory. No answer depends on it.
struct FoldingLimits {
    std::size_t recordsAtFirst = 50;   // mostly there are few
    std::size_t recordsAtOnce = 2000;  // after those; and then another thread reads ahead
    std::size_t recordsAhead = ReadAhead::usualRows;
    // States that lie closer together than this many records are not kept side by side, and no more
    // than so many, at least two: each holds the units that were changed since the one before.
    std::int64_t recordsApart = 1000;
    std::size_t mostMarks = 8;
    // The state that an answer begins with is changed into the one that is asked for, and not kept
    // beside it; after an error neither is there, and the next answer begins anew.
    bool isAskedOnce = false;
    // Each record is folded by itself, the plain way: what is to be checked is not made by what it
    // is checked by.
    bool isOneByOne = false;
    // Each record that is folded is held by it, and what was read ahead of that is told to it.
    store::HeldChain* held = nullptr;
};

class FoldedLog {
public:
    enum class Kept { Use, PassOver };  // whether to begin with what is kept in the file

    // References must outlive it. Nobody else may use the logbook while it is asked.
    FoldedLog(const Surroundings& surroundings, const store::Logbook& logbook,
              Kept kept = Kept::Use, const FoldingLimits& limits = {})
        : m_surroundings(surroundings), m_logbook(logbook), m_kept(kept), m_limits(limits) {}

    // Takes note of what has arrived since it last did: all answers are of the log up to there,
    // whatever others write meanwhile. To be called first, and again where it could not be done.
    [[nodiscard]] Result<void> catchUp();

    // The heads of that log.
    [[nodiscard]] const store::StationHeads& heads() const { return m_heads; }
    // Where records stand that were looked for, since they were not among those folded.
    [[nodiscard]] const PlacesKnown& placesKnown() const { return m_known; }
    // The highest arrival that is taken note of.
    [[nodiscard]] std::int64_t arrival() const { return m_arrival; }
    // Of what is read beside the records that are folded (editions, persons, strikes) those that
    // cannot be read, or are gone.
    [[nodiscard]] const std::vector<logbook::RecordName>& unread() const { return m_unread; }
    // After catchUp. Of the strikes only those that bear on what has been folded here.
    [[nodiscard]] const rules::Groundwork& groundwork() const { return *m_groundwork; }
    [[nodiscard]] const std::vector<logbook::Record>& founding() const { return m_founding; }

    // Of all that is known, up to that instant. Precondition: the groundwork has a first edition.
    [[nodiscard]] Result<Folded> stateAt(logbook::Instant at);

    // The same, up to that place.
    [[nodiscard]] Result<Folded> stateUpTo(const store::Place& place);

    // The state of the answer given last, which is gone from here: the next one begins anew.
    [[nodiscard]] rules::State take(const Folded& folded);

    // Whether there is a state to begin with, so that not all records need be folded for that.
    [[nodiscard]] Result<bool> hasBeginning(logbook::Instant at);

    // The place of the last record in the state given last; none before the first record.
    [[nodiscard]] const std::optional<store::Place>& placeFolded() const { return m_placeFolded; }

private:
    // The kept state that was begun with.
    struct Origin {
        store::Place place;
        store::Heads heads;
    };

    struct Mark {
        store::Place place;
        rules::State state;
        std::int64_t after = 0;  // records folded since the mark before it
        std::vector<logbook::RecordName> unread{};
        RecordsSeen seen{};  // from its origin on
        std::shared_ptr<const Origin> origin{};  // null: the first record
    };

    struct Arrived {
        std::optional<store::Place> reach{};
        bool isFounding = false;  // `adopt` or `person` is among it, or what cannot be told
        bool hasStrikes = false;
    };

    template <class Take>
    [[nodiscard]] Result<void> forEach(store::Selection selection, Take take) const;
    template <class Take>
    [[nodiscard]] Result<void> forEachPortion(store::Selection selection, Take take) const;
    [[nodiscard]] Result<void> catchUpTo(std::int64_t last);
    [[nodiscard]] Result<Arrived> arrived(std::int64_t last) const;
    void ground(const logbook::Record& record, const logbook::RecordName& name);
    [[nodiscard]] Result<void> readFounding(std::int64_t last);
    [[nodiscard]] Result<void> addStrikes(const store::Selection& selection);
    [[nodiscard]] Result<void> addStrikes(const std::vector<logbook::RecordName>& names);
    [[nodiscard]] Result<void> begin(logbook::Instant at);
    [[nodiscard]] Result<bool> beginWith(const store::Snapshot& snapshot);
    [[nodiscard]] const Mark* markBefore(logbook::Instant at) const;
    template <class IsWanted>
    [[nodiscard]] Result<Folded> foldFrom(const Mark* from, IsWanted isWanted);
    [[nodiscard]] bool isReplaced(const Mark* from) const;
    const rules::State& keep(Mark mark, bool isNewest);

    const Surroundings& m_surroundings;
    const store::Logbook& m_logbook;
    Kept m_kept;
    FoldingLimits m_limits;
    std::int64_t m_arrival = -1;  // before the first catchUp
    store::StationHeads m_heads;  // of just that log
    PlacesKnown m_known;
    std::vector<logbook::Record> m_founding;
    std::optional<rules::Groundwork> m_groundwork;
    std::vector<logbook::RecordName> m_unread;
    Grounding m_grounding;  // what m_groundwork was made from
    bool m_hasAllStrikes = false;
    std::vector<Mark> m_marks;  // the oldest first; m_groundwork has the strikes after the first
    rules::State m_passing;     // one in the midst of the log, given last
    std::optional<store::Place> m_placeFolded;
};

}  // namespace station
