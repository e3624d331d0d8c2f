// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping a start once; see emergency_start.h.
#include "station/emergency_start.h"

#include "station/damage.h"
#include "station/tidied.h"
#include "station/written.h"

#include <algorithm>
#include <utility>

namespace station {

namespace {

using logbook::Record;
using logbook::RecordName;

// Of the start among the entries.
const Entry& startIn(const PressedStart& start) {
    const auto found = std::ranges::find_if(start.entries, &isEmergencyStart);
    return found == start.entries.end() ? start.entries.front() : *found;
}

bool isEmergency(const Record& record) {
    const auto* use = std::get_if<logbook::body::UseStart>(&record.body);
    return use != nullptr && use->emergency;
}

// Also one that was struck through since: it was kept, and somebody has judged it.
std::vector<RecordName> thereOf(const LogAtHand& log, const PressedStart& start) {
    const auto& wanted = startIn(start);
    std::vector<RecordName> there;
    for (const auto& record : log.log.records()) {
        const bool isSame = record.device == wanted.device && isEmergency(record) &&
                            record.by == wanted.by.who && record.at == wanted.at &&
                            record.entered >= start.pressed;
        if (isSame) {
            there.push_back(record.name);
        }
    }
    return there;
}

Problem otherLog(const Surroundings& surroundings, const LogbookFile& file) {
    return problemOf(surroundings.words, "start.other_log", {{"path", file.path.string()}},
                     Problem::Weight::Logbook);
}

// The mark names a record and its seal: a log that goes on holds it still. Where that one record is
// on what cannot be read, nothing says that it is another log: no start is refused for that.
Result<bool> isOther(const words::Words& words, const store::Logbook& logbook,
                     const std::string& mark) {
    const auto blank = mark.find(' ');
    const auto row = logbook.findRecord({mark.substr(0, blank), 1});
    if (row) {
        return !row->content.empty() && (blank == std::string::npos ||
                                         store::toHex(row->hash) != mark.substr(blank + 1));
    }
    if (row.error().code == store::Trouble::Code::NoRecord) {
        return true;
    }
    auto problem = problemOf(words, row.error());
    return cannotBeKept(problem) ? Result<bool>(false) : tl::unexpected(std::move(problem));
}

}  // namespace

bool isEmergencyStart(const Entry& entry) {
    const auto isSaid = [](const logbook::json::Member& member) {
        return member.first == "emergency" && member.second == logbook::json::Value(true);
    };
    return logbook::kindOf(entry.kind) == logbook::Kind::UseStart &&
           std::ranges::any_of(entry.body, isSaid);
}

std::string logMark(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return "";
    }
    const auto station = logbook->station();
    if (!station || !*station) {
        return "";
    }
    const auto first = logbook->findRecord({**station, 1});
    // What is read round has no seal.
    return first && !first->content.empty() ? **station + " " + store::toHex(first->hash) : "";
}

Result<StartKept> keepStart(const Surroundings& surroundings, const LogbookFile& file,
                            const PressedStart& pressed) {
    const auto tidy = tidied(surroundings.words, pressed.entries);
    const PressedStart start{tidy.entries, pressed.pressed, pressed.log};
    const auto notKept = [&](Problem problem) {
        return tl::unexpected(cannotBeKept(problem) || mayStand(problem)
                                  ? onPaper(surroundings.words, std::move(problem))
                                  : std::move(problem));
    };
    const auto open = OpenLog::open(
        surroundings, file,
        [&](const store::Logbook& logbook) {
            return neededFor(surroundings, logbook, start.entries);
        },
        OpenLog::IfDamaged::ReadRound);
    if (!open) {
        return notKept(open.error());
    }
    if (!start.log.empty()) {
        const auto other = isOther(surroundings.words, (*open)->logbook(), start.log);
        if (!other || *other) {
            return tl::unexpected(other ? otherLog(surroundings, file) : other.error());
        }
    }
    StartKept done;
    SignedAct act(**open, [&](const OpenLog& log) -> Result<std::vector<Intended>> {
        done.there = thereOf(log.log(), start);
        if (!done.there.empty()) {
            return tl::unexpected(Problem{});  // nothing is left to be written
        }
        std::vector<Intended> intended;
        for (const auto& entry : start.entries) {
            intended.push_back({entry});
        }
        return intended;
    });
    act.inTurn();
    act.onlyAsJudged();
    const auto kept = act.write(start.entries.front().by);
    if (!done.there.empty()) {
        return done;
    }
    if (!kept) {
        return notKept(kept.error());
    }
    done.written = writtenOf(**open, *kept);
    auto& told = done.written.front().warnings;
    told.insert(told.end(), tidy.remarks.begin(), tidy.remarks.end());
    return done;
}

}  // namespace station
