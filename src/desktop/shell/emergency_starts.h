// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts from the press of who starts until they are in the log. Each is noted on this
// computer, beside its first attempt, and tried again by itself until it is kept or somebody says
// that it is not to be recorded; a note that was left by a program that ended is taken up again.
// Knows no widget.
#pragma once

#include "desktop/shell/workplace.h"
#include "station/start_notes.h"

#include <QTimer>
#include <filesystem>
#include <list>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace desktop {

// One that is not known to be in the log.
struct StandingStart {
    int number = 0;
    station::PressedStart start;
    station::LogbookFile file;        // for which it was pressed
    std::filesystem::path note{};     // where it is noted; "" it is not, or not yet
    std::filesystem::path noteBefore{};  // by another name, until it is noted by this one
    std::optional<station::Problem> refused{};  // why it was not kept at the last attempt
    bool isTold = false;              // it stands for longer than a moment
    bool isTried = false;             // just now
    bool isBeingNoted = false;
    bool isPressedAgain = false;      // by somebody who waits for it
    bool isToBeDropped = false;       // once it is known what came of the attempt

    [[nodiscard]] const station::Entry& entry() const;  // of the start itself
};

class EmergencyStarts : public QObject {
    Q_OBJECT
public:
    // The folder is for the notes; "": there are none, and what stands ends with the program.
    EmergencyStarts(Workplace& workplace, std::filesystem::path folder);
    ~EmergencyStarts() override;

    // Entries of one press by their writer, one of them an emergency start. `taken` is told what
    // came of the first attempt, unless `receiver` is gone.
    void begin(std::vector<station::Entry> entries, const QPointer<QObject>& receiver,
               Workplace::TakeKept taken);
    // Takes up what was noted for the logbook that is opened now, and tells of other notes.
    void load();

    [[nodiscard]] const std::list<StandingStart>& all() const { return m_starts; }
    // Notes that cannot be read; until somebody has seen that.
    [[nodiscard]] const std::vector<station::Problem>& damaged() const { return m_damaged; }
    void endDamaged();
    [[nodiscard]] bool isHere(const StandingStart& start) const;
    // Pressed for a logbook that lay elsewhere, and whose entries this one holds.
    [[nodiscard]] bool isOfThisLog(const StandingStart& start) const;
    // Now, and by somebody who waits for it; by the name that was pressed first.
    void tryAgain(int number);
    // Somebody said that it is not to be recorded; if it has been by then, they are told.
    void drop(int number, const std::string& device);

    // The units of this logbook that have one, with its time: also one that was kept and is in no
    // view of the fleet that was read yet.
    [[nodiscard]] std::map<std::string, logbook::Instant> units() const;
    // A newer one was read.
    void takeView(const FleetView& view);

    static constexpr std::chrono::milliseconds againAfter{5000};

Q_SIGNALS:
    void changed();
    // It was kept at a later attempt.
    void kept(const std::string& device, const logbook::RecordName& record);

private:
    using Taken = std::pair<QPointer<QObject>, Workplace::TakeKept>;
    struct Attempt {
        station::Result<station::StartKept> kept;
        bool isDropped = false;  // in another window
    };

    [[nodiscard]] StandingStart* find(int number);
    void note(int number);
    void attempt(int number, Background::Urgency urgency);
    void attemptAll();
    void take(int number, const Attempt& attempt);
    void takeKept(const StandingStart& start, const station::StartKept& kept);
    void takeRefused(StandingStart& start, const station::Problem& problem, bool isWaitedFor);
    void askWhoStarts(int number);
    void takeNotes(const station::StartNotes& notes);
    void takeNote(const station::NotedStart& noted);
    void answer(int number, const Workplace::Kept& kept);
    void end(int number);
    void forget(const std::filesystem::path& note);
    void tellRecorded(const std::string& device);

    Workplace& m_workplace;
    const std::filesystem::path m_folder;
    std::list<StandingStart> m_starts;
    std::vector<station::Problem> m_damaged;
    std::map<int, Taken> m_waiting;  // for the first attempt, by number
    struct Settling {
        logbook::RecordName record;
        logbook::Instant at{};
    };
    std::map<std::string, Settling> m_settling;  // kept, and in no view yet; by unit
    int m_last = 0;
    QTimer m_again;
};

}  // namespace desktop
