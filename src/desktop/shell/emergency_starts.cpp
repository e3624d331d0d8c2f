// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Starts until they are kept; see emergency_starts.h.
#include "desktop/shell/emergency_starts.h"

#include "desktop/shell/text.h"
#include "station/system.h"
#include "words/shown.h"

#include <algorithm>
#include <utility>

namespace desktop {

namespace {

// What is kept sooner has not stood: nothing is shown of it that would be gone at once.
constexpr std::chrono::milliseconds toldAfter{400};

logbook::RecordName lastOf(const station::StartKept& kept) {
    return kept.there.empty() ? kept.written.back().record : kept.there.back();
}

}  // namespace

const station::Entry& StandingStart::entry() const {
    return *std::ranges::find_if(start.entries, &station::isEmergencyStart);
}

EmergencyStarts::EmergencyStarts(Workplace& workplace, std::filesystem::path folder)
    : m_workplace(workplace), m_folder(std::move(folder)) {
    m_again.setSingleShot(true);
    m_again.setInterval(againAfter);
    connect(&m_again, &QTimer::timeout, this, &EmergencyStarts::attemptAll);
}

EmergencyStarts::~EmergencyStarts() = default;

StandingStart* EmergencyStarts::find(int number) {
    const auto found = std::ranges::find(m_starts, number, &StandingStart::number);
    return found == m_starts.end() ? nullptr : &*found;
}

bool EmergencyStarts::isHere(const StandingStart& start) const {
    return start.file.path == m_workplace.file().path;
}

bool EmergencyStarts::isOfThisLog(const StandingStart& start) const {
    return isHere(start) ||
           (!start.start.log.empty() && start.start.log == m_workplace.logMark());
}

// The note is written beside the first attempt, so that neither waits for the other's disk.
void EmergencyStarts::begin(std::vector<station::Entry> entries,
                            const QPointer<QObject>& receiver, Workplace::TakeKept taken) {
    const auto now = m_workplace.clock().now();
    for (auto& entry : entries)
        if (!entry.at) entry.at = now;
    const int number = ++m_last;
    m_starts.push_back(
        {number, {std::move(entries), now, m_workplace.logMark()}, m_workplace.file()});
    m_waiting.emplace(number, Taken(receiver, std::move(taken)));
    note(number);
    attempt(number, Background::Urgency::Soon);
    QTimer::singleShot(toldAfter, this, [this, number] {
        auto* start = find(number);
        if (start == nullptr || std::exchange(start->isTold, true)) return;
        Q_EMIT changed();
    });
}

void EmergencyStarts::note(int number) {
    auto* unnoted = find(number);
    if (m_folder.empty() || unnoted == nullptr || !unnoted->note.empty()) return;
    if (std::exchange(unnoted->isBeingNoted, true)) return;
    m_workplace.runErrand(
        [&words = m_workplace.words(), folder = m_folder, file = unnoted->file,
         pressed = unnoted->start, before = unnoted->noteBefore] {
            auto note = station::noteStart(words, folder, file, pressed);
            // One press has one note, by whichever name.
            if (note && !before.empty() && station::system::replaceFile(*note, before))
                note = before;
            return note;
        },
        this,
        [this, number, by = unnoted->entry().by.who](
            const station::Result<std::filesystem::path>& note) {
            auto* start = find(number);
            if (start == nullptr) {
                if (note) forget(*note);  // it has been kept meanwhile
                return;
            }
            start->isBeingNoted = false;
            if (note && by != start->entry().by.who) {  // another name was pressed meanwhile
                if (start->noteBefore != *note) forget(start->noteBefore);
                start->noteBefore = *note;
                this->note(number);
                return;
            }
            const auto before = std::exchange(start->noteBefore, {});
            if (!note) {  // it is tried again with the start, and the row says so
                start->note = before;
                return;
            }
            start->note = *note;
            if (before != *note) forget(before);
            if (start->isTold) Q_EMIT changed();
        });
}

void EmergencyStarts::forget(const std::filesystem::path& note) {
    if (note.empty()) return;
    m_workplace.runErrand([note] { return station::forgetStart(note); }, this, [](bool) {});
}

void EmergencyStarts::attempt(int number, Background::Urgency urgency) {
    auto* start = find(number);
    if (start == nullptr || std::exchange(start->isTried, true)) return;
    m_workplace.writeUnasked(
        [pressed = start->start, file = start->file, note = start->note](
            const station::Surroundings& surroundings) {
            if (!note.empty() && station::isDropped(note)) return Attempt{{}, true};
            return Attempt{station::keepStart(surroundings, file, pressed)};
        },
        this, [this, number](const Attempt& attempt) { take(number, attempt); }, urgency);
}

void EmergencyStarts::attemptAll() {
    std::vector<int> due;
    for (const auto& start : m_starts)
        if (isHere(start)) due.push_back(start.number);
    for (const int number : due) {
        note(number);
        attempt(number, Background::Urgency::Later);
    }
}

void EmergencyStarts::tryAgain(int number) {
    auto* start = find(number);
    if (start == nullptr) return;
    // Nobody else is asked for a name, unless the log takes no entry by the one that was pressed.
    if (start->refused && start->refused->code.starts_with("sign_in.")) {
        askWhoStarts(number);
        return;
    }
    start->isPressedAgain = true;
    start->file = m_workplace.file();
    start->start.log = m_workplace.logMark();  // a person says that it belongs into this one
    Q_EMIT changed();
    attempt(number, Background::Urgency::Soon);
}

void EmergencyStarts::askWhoStarts(int number) {
    m_workplace.asWriter(false, this, [this, number](const station::Writer& writer) {
        auto* start = find(number);
        if (start == nullptr) return;
        for (auto& entry : start->start.entries) entry.by = writer;
        start->refused.reset();
        start->noteBefore = std::exchange(start->note, {});
        note(number);
        tryAgain(number);
    });
}

void EmergencyStarts::take(int number, const Attempt& attempt) {
    auto* start = find(number);
    if (start == nullptr) return;
    start->isTried = false;
    const bool isWaitedFor = std::exchange(start->isPressedAgain, false);
    if (attempt.isDropped) {
        end(number);
    } else if (attempt.kept) {
        takeKept(*start, *attempt.kept);
    } else {
        takeRefused(*start, attempt.kept.error(), isWaitedFor);
        if (start->isToBeDropped) drop(number, start->entry().device);
    }
}

void EmergencyStarts::takeKept(const StandingStart& start, const station::StartKept& kept) {
    const auto record = lastOf(kept);
    const auto device = start.entry().device;
    const int number = start.number;
    const bool isLate = start.isTold;
    const bool isUnwanted = start.isToBeDropped;
    if (isLate) m_settling.insert_or_assign(device, Settling{record, *start.entry().at});
    if (!kept.there.empty())
        Q_EMIT m_workplace.told(tr("The emergency start of unit %1 is in the log, as %2.")
                                    .arg(shownText(words::shown(device)),
                                         shownText(toText(record))));
    forget(start.note);
    forget(start.noteBefore);
    const Workplace::Kept told{kept.written, {}};
    m_workplace.takeWritten(told, record);
    answer(number, told);
    end(number);
    if (isLate || kept.written.empty()) Q_EMIT this->kept(device, record);
    if (isUnwanted) tellRecorded(device);
    m_workplace.refresh();
}

void EmergencyStarts::tellRecorded(const std::string& device) {
    Q_EMIT m_workplace.told(
        tr("The emergency start of unit %1 has been recorded meanwhile. If the unit was not "
           "started, strike that entry through: it stands in the unit's History.")
            .arg(shownText(words::shown(device))));
}

// Quietly, where it was refused for the same before and nobody waits for it.
void EmergencyStarts::takeRefused(StandingStart& start, const station::Problem& problem,
                                  bool isWaitedFor) {
    const bool isSame = start.isTold && start.refused && start.refused->code == problem.code;
    const bool isNew = isWaitedFor || !isSame;
    start.refused = problem;
    start.isTold = true;
    m_again.start();
    const int number = start.number;
    if (isNew) Q_EMIT changed();
    answer(number, {{}, problem, false, true});
}

void EmergencyStarts::answer(int number, const Workplace::Kept& kept) {
    const auto found = m_waiting.find(number);
    if (found == m_waiting.end()) return;
    const auto [receiver, taken] = std::exchange(found->second, {});
    m_waiting.erase(found);
    if (receiver && taken) taken(kept);
}

void EmergencyStarts::end(int number) {
    std::erase_if(m_starts, [number](const auto& each) { return each.number == number; });
    Q_EMIT changed();
}

// Where its note cannot be put aside it would be recorded once the window is opened anew: it stays.
void EmergencyStarts::drop(int number, const std::string& device) {
    auto* start = find(number);
    if (start == nullptr) {
        tellRecorded(device);
        return;
    }
    start->isToBeDropped = start->isTried;
    if (start->isTried) return;
    const auto noted = start->note.empty() ? start->noteBefore : start->note;
    if (noted.empty()) {
        end(number);
        return;
    }
    start->isTried = true;  // not while its note is put aside
    m_workplace.runErrand(
        [noted] { return station::dropStart(noted); }, this,
        [this, number, note = noted](bool isDropped) {
            if (isDropped) {
                end(number);
            } else {
                if (auto* kept = find(number)) kept->isTried = false;
                m_again.start();
                Q_EMIT m_workplace.told(
                    tr("This start stands still: its note could not be put aside, and it would be "
                       "recorded later. Look whether the disk can be written: %1")
                        .arg(shownText(words::shown(note.string()))));
            }
        });
}

void EmergencyStarts::load() {
    m_settling.clear();  // of another logbook
    attemptAll();        // those pressed for this one before another was opened
    if (m_folder.empty() || m_workplace.file().path.empty()) return;
    m_workplace.read(
        [folder = m_folder](const auto& surroundings, const auto& file) {
            return std::pair(file.path,
                             station::readStartNotes(surroundings.words, folder, file));
        },
        this, [this](const auto& read) {
            // Of the logbook that has been opened since they are read anew; what was put aside is
            // told here alone.
            if (read.first == m_workplace.file().path)
                takeNotes(read.second);
            else
                takeNotes({{}, read.second.damaged});
        });
}

// One that was pressed here may have been noted for the same logbook under another name of it.
void EmergencyStarts::takeNote(const station::NotedStart& noted) {
    const auto known = std::ranges::find_if(m_starts, [&](const StandingStart& start) {
        return start.note == noted.note || start.noteBefore == noted.note;
    });
    if (known != m_starts.end()) {
        if (noted.isOfThis) known->file = m_workplace.file();
        return;
    }
    const auto file =
        noted.isOfThis ? m_workplace.file() : station::LogbookFile{noted.logbook};
    m_starts.push_back({++m_last, noted.start, file, noted.note});
    m_starts.back().isTold = true;
}

void EmergencyStarts::takeNotes(const station::StartNotes& notes) {
    m_damaged.insert(m_damaged.end(), notes.damaged.begin(), notes.damaged.end());
    for (const auto& noted : notes.starts) takeNote(noted);
    if (notes.starts.empty() && notes.damaged.empty()) return;
    Q_EMIT changed();
    attemptAll();
}

void EmergencyStarts::endDamaged() {
    m_damaged.clear();
    Q_EMIT changed();
}

std::map<std::string, logbook::Instant> EmergencyStarts::units() const {
    std::map<std::string, logbook::Instant> units;
    for (const auto& [device, settling] : m_settling) units.emplace(device, settling.at);
    for (const auto& start : m_starts)
        if (start.isTold && isOfThisLog(start))
            units.insert_or_assign(start.entry().device, *start.entry().at);
    return units;
}

void EmergencyStarts::takeView(const FleetView& view) {
    std::erase_if(m_settling,
                  [&](const auto& each) { return !view.isBefore(each.second.record); });
}

}  // namespace desktop
