// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What every screen shares: the logbook, read and written beside the thread that paints; who is
// signed in; and what is told to the person. Holds no widget.
#pragma once

#include "desktop/shell/asking_terminal.h"
#include "desktop/shell/background.h"
#include "desktop/shell/fleet_view.h"
#include "desktop/shell/presence.h"
#include "desktop/shell/questions.h"
#include "station/entry.h"

#include <QObject>
#include <QTimer>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace desktop {

// What the program was started with; references must outlive the workplace.
struct Start {
    station::LogbookFile file;
    const station::Clock& clock;
    const words::Words& words;
    std::function<rules::ZoneSource()> zones;  // a source for one thread
    std::string login;
    // Where emergency starts are noted that are not in the log yet; "" nowhere.
    std::filesystem::path notes{};
};

class EmergencyStarts;

class Workplace : public QObject {
    Q_OBJECT
public:
    explicit Workplace(Start start, QObject* parent = nullptr);
    ~Workplace() override;

    [[nodiscard]] const words::Words& words() const { return m_start.words; }
    [[nodiscard]] const station::Clock& clock() const { return m_start.clock; }
    [[nodiscard]] const station::LogbookFile& file() const { return m_start.file; }
    [[nodiscard]] Presence& presence() { return m_presence; }
    // The last one that could be read; null before the first. No unit of which an emergency start
    // stands that is not in the log is ready by it.
    [[nodiscard]] const SharedFleetView& fleet() const { return m_fleet; }
    [[nodiscard]] EmergencyStarts& starts() { return *m_starts; }
    // What tells its log from any other; "" it is not known yet.
    [[nodiscard]] const std::string& logMark() const { return m_logMark; }
    // That it is read-only here, and what to do; "" if it is not.
    [[nodiscard]] QString readOnlySentence() const;
    // Whether a newer one is being read: what was just kept may not be in the last.
    [[nodiscard]] bool isReading() const { return m_isReading; }

    // Where this computer stands, as set at the station; none: nobody is asked about places.
    [[nodiscard]] const std::optional<std::string>& place() const { return m_place; }
    void standAt(std::optional<std::string> place) { m_place = std::move(place); }

    // In which unit values are typed here, by dimension; none named: as the edition says.
    using Units = std::map<std::string, std::string, std::less<>>;
    [[nodiscard]] const Units& units() const { return m_units; }
    void measureIn(Units units) { m_units = std::move(units); }

    // The key of whoever is signed in; "" nobody.
    [[nodiscard]] std::string whoIsHere() const;

    // Whom to ask; until it is set every question is answered with no.
    void askThrough(Questions* questions) { m_questions = questions; }
    void ask(const Question& question, std::function<void(bool)> answered);

    // `work` is given the surroundings and the file, beside the thread that paints; `done` its
    // value here, unless `receiver` is gone.
    template <class Work, class Done>
    void read(Work work, QObject* receiver, Done done,
              Background::Urgency urgency = Background::Urgency::Soon) {
        m_reading.run(
            [this, work = std::move(work), file = m_start.file]() mutable {
                return work(std::as_const(m_reader), file);
            },
            receiver, std::move(done), urgency);
    }
    // For what lies outside the logbook and may take its time, a folder or a printer: nothing else
    // waits for it. `work` is given nothing.
    template <class Work, class Done>
    void runErrand(Work work, QObject* receiver, Done done) {
        m_errands.run(std::move(work), receiver, std::move(done));
    }
    // The same as read for what changes the logbook; afterwards the fleet is read again, and states
    // are kept if need be, whether or not `receiver` is still there. What is asked meanwhile is
    // asked of whoever is signed in now; where somebody else is by then, or nobody, the answer is
    // no.
    template <class Work, class Done>
    void write(Work work, QObject* receiver, Done done) {
        m_writing.run(
            [this, work = std::move(work), file = m_start.file, asker = whoIsHere()]() mutable {
                m_terminal.askFor(asker);
                return work(std::as_const(m_writer), file);
            },
            this,
            [this, receiver = QPointer<QObject>(receiver),
             done = std::move(done)](auto outcome) mutable {
                if (receiver) done(std::move(outcome));
                refresh();
                keepStates();
            });
    }

    // For what is tried by itself, again and again: nobody is asked anything, and the fleet is not
    // read again. `work` is given the surroundings.
    template <class Work, class Done>
    void writeUnasked(Work work, QObject* receiver, Done done, Background::Urgency urgency) {
        m_writing.run(
            [this, work = std::move(work)]() mutable {
                const station::Surroundings unasked{m_writer.clock, m_writer.zones,
                                                    m_writer.words, m_writer.login};
                return work(unasked);
            },
            receiver, std::move(done), urgency);
    }

    // What was kept of the entries of one press: all of them, or none and why. Called off: nobody
    // said who writes. Standing: it was refused, and is tried again by itself.
    struct Kept {
        std::vector<station::Written> written;
        std::optional<station::Problem> refused;
        bool isCalledOff = false;
        bool isStanding = false;
        [[nodiscard]] bool isAll() const { return !refused && !isCalledOff; }
    };
    using TakeKept = std::function<void(const Kept&)>;
    // Keeps entries of whoever is signed in; where nobody is, `writerWanted` is emitted first. What
    // comes of it is told, and handed to `taken`, once.
    // `what` says what is kept, for whoever has to say who writes; "" tells the unit and the
    // entries. What is grave is kept by whoever is signed in once they have typed their PIN again.
    void keep(std::vector<station::Entry> entries, QObject* receiver, TakeKept taken = {},
              QString what = {});

    // Whether one of the entries waits for a PIN; what must never wait does not.
    [[nodiscard]] bool waitsForPin(const std::vector<station::Entry>& entries) const;

    // Why somebody has to say who writes.
    struct WriterWanted {
        bool waits = true;     // false: a name will do
        QString what;          // what is kept then; "" if there is nothing to say
        bool isAgain = false;  // whoever is signed in, by their PIN once more
    };

    // Hands over who writes: whoever is signed in, else whoever says so. `waits` as in the signal.
    template <class Then>
    void asWriter(bool waits, QObject* receiver, Then then) {
        if (const auto& session = m_presence.session()) {
            then(station::Writer(*session));
            return;
        }
        Q_EMIT writerWanted({waits, {}}, [receiver = QPointer<QObject>(receiver),
                                    then](const station::Writer& writer) {
            if (receiver) then(writer);
        });
    }

    // Hands over whoever is signed in, once they have typed their PIN again; where nobody is,
    // whoever signs in. `what` says what it is for.
    template <class Then>
    void asWriterAgain(const QString& what, QObject* receiver, Then then) {
        const bool isAgain = m_presence.session().has_value();
        Q_EMIT writerWanted({true, what, isAgain}, [receiver = QPointer<QObject>(receiver),
                                                    then](const station::Writer& writer) {
            if (receiver) then(writer);
        });
    }

    // Tells what was written elsewhere than in keep; the last of it, or what stood there already.
    void takeWritten(const Kept& kept, const logbook::RecordName& last);

    // Reads the fleet again, now.
    void refresh();
    // Verifies the log on a thread of its own; what is found is told, and known to the fleet then.
    void verify();
    // Another logbook from now on.
    void open(const station::LogbookFile& file);

Q_SIGNALS:
    void fleetChanged();
    // It is the same as read, but other units of it have an emergency start that is not in the log.
    void fleetMarked();
    void readOnlyChanged();
    // Fonts and colours are others now: what took its own of them takes them again.
    void appearanceChanged();
    // The logbook cannot be read; the last fleet stays, and gets older.
    void troubled(const station::Problem& problem);
    // Entries have been kept, of whatever panel; before they are handed to who asked for it.
    void kept(const logbook::RecordName& last);
    // A line for the person: what was kept, or why not.
    void told(const QString& text);
    void refused(const station::Problem& problem);
    // Somebody must say who writes; `then` takes them.
    void writerWanted(const WriterWanted& wanted, std::function<void(station::Writer)> then);

private:
    void keepBy(const station::Writer& writer, std::vector<station::Entry> entries,
                const QPointer<QObject>& receiver, const TakeKept& taken);
    [[nodiscard]] QString whatIsKept(const std::vector<station::Entry>& entries) const;
    [[nodiscard]] QString linesOf(const std::vector<station::Entry>& entries) const;  // of a unit
    void tell(const Kept& kept);
    void takeFleet(SharedFleetView fleet);
    void markFleet();
    void readMark();
    void keepStates();
    void lookIfReadOnly();

    Start m_start;
    AskingTerminal m_terminal;
    station::Surroundings m_reader, m_writer, m_verifier;
    Presence m_presence;
    std::optional<std::string> m_place;
    Units m_units;
    Questions* m_questions = nullptr;
    SharedFleetView m_read;   // as it was read
    SharedFleetView m_fleet;  // as it is shown
    std::unique_ptr<EmergencyStarts> m_starts;
    std::string m_logMark;
    bool m_isReadOnly = false;
    std::shared_ptr<FleetSource> m_source = std::make_shared<FleetSource>();
    QTimer m_minute;
    bool m_isReading = false, m_readAgain = false;
    bool m_keepsStates = false;
    // Last: they end before what they use.
    Background m_reading, m_writing, m_verifying{Background::Pace::GivesWay}, m_errands;
};

}  // namespace desktop
