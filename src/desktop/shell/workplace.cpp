// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What every screen shares; see workplace.h.
#include "desktop/shell/workplace.h"

#include "desktop/shell/emergency_starts.h"
#include "desktop/shell/text.h"
#include "desktop/shell/unrecorded.h"
#include "station/automatic_backup.h"
#include "station/entry_lines.h"
#include "station/entry_permission.h"
#include "station/pin_again.h"
#include "station/read_only.h"
#include "station/snapshots.h"
#include "station/upkeep.h"
#include "words/shown.h"

#include <QStringList>
#include <QTimer>
#include <algorithm>

namespace desktop {

namespace {

// How often the log is looked at again: what others write shows, and time passes.
constexpr std::chrono::seconds lookAgain{15};
constexpr std::chrono::minutes verifyAgain{10};

// Entries that wait for somebody to say who writes. Once nothing refers to it any more and nobody
// has, they are called off.
class Awaited {
public:
    Awaited(QPointer<QObject> receiver, Workplace::TakeKept taken)
        : m_receiver(std::move(receiver)), m_taken(std::move(taken)) {}
    Awaited(const Awaited&) = delete;
    Awaited& operator=(const Awaited&) = delete;
    ~Awaited() {
        if (!m_receiver || !m_taken) return;
        QMetaObject::invokeMethod(
            m_receiver, [taken = std::move(m_taken)] { taken({{}, {}, true}); },
            Qt::QueuedConnection);
    }

    [[nodiscard]] Workplace::TakeKept over() { return std::exchange(m_taken, nullptr); }
    [[nodiscard]] const QPointer<QObject>& receiver() const { return m_receiver; }

private:
    QPointer<QObject> m_receiver;
    Workplace::TakeKept m_taken;
};

}  // namespace

Workplace::Workplace(Start start, QObject* parent)
    : QObject(parent),
      m_start(std::move(start)),
      m_terminal(m_start.words.listed("question.yes").front()),
      m_reader{m_start.clock, m_start.zones(), m_start.words, m_start.login},
      m_writer{m_start.clock, m_start.zones(), m_start.words, m_start.login, &m_terminal},
      m_verifier{m_start.clock, m_start.zones(), m_start.words, m_start.login} {
    connect(&m_terminal, &AskingTerminal::asked, this,
            [this](const QString& text, const std::string& asker,
                   const std::function<void(bool)>& answer) {
                // Nobody answers for another: what they pressed is refused, and told to them.
                if (asker != whoIsHere()) {
                    answer(false);
                } else {
                    ask({text, tr("Yes, keep it"), tr("No, look again")}, answer);
                }
            });
    m_starts = std::make_unique<EmergencyStarts>(*this, m_start.notes);
    connect(m_starts.get(), &EmergencyStarts::changed, this, &Workplace::markFleet);
    m_starts->load();
    m_minute.setInterval(lookAgain);
    connect(&m_minute, &QTimer::timeout, this, &Workplace::refresh);
    m_minute.start();
}

Workplace::~Workplace() {
    m_terminal.callOff();
}

std::string Workplace::whoIsHere() const {
    const auto& session = m_presence.session();
    return session ? session->person() : std::string();
}

void Workplace::ask(const Question& question, std::function<void(bool)> answered) {
    if (m_questions != nullptr) {
        m_questions->ask(question, std::move(answered));
    } else {
        answered(false);
    }
}

void Workplace::refresh() {
    if (m_start.file.path.empty()) return;
    if (std::exchange(m_isReading, true)) {
        m_readAgain = true;
        return;
    }
    const auto path = m_start.file.path;
    const auto reading = [source = m_source](const auto& surroundings, const auto& file) {
        return source->read(surroundings, file);
    };
    read(reading, this, [this, path](station::Result<SharedFleetView> fleet) {
        m_isReading = false;
        if (path != m_start.file.path) {
            m_readAgain = true;  // another logbook has been opened since
        } else if (fleet) {
            takeFleet(std::move(*fleet));
        } else {
            Q_EMIT troubled(fleet.error());
        }
        if (std::exchange(m_readAgain, false)) refresh();
    });
}

void Workplace::takeFleet(SharedFleetView fleet) {
    m_read = std::move(fleet);
    m_starts->takeView(*m_read);
    m_fleet = withUnrecorded(m_read, m_starts->units(), words());
    readMark();  // another file may have taken the place
    lookIfReadOnly();
    Q_EMIT fleetChanged();
}

void Workplace::markFleet() {
    if (!m_fleet || m_fleet->unrecorded == m_starts->units()) return;
    m_fleet = withUnrecorded(m_read, m_starts->units(), words());
    Q_EMIT fleetMarked();
}

void Workplace::readMark() {
    read([](const auto& surroundings, const auto& file) {
             return std::pair(file.path, station::logMark(surroundings, file));
         },
         this,
         [this](const auto& mark) {
             if (mark.first != m_start.file.path) return;
             if (!mark.second.empty()) m_logMark = mark.second;  // else it cannot be read just now
             markFleet();
         },
         Background::Urgency::Later);
}

void Workplace::lookIfReadOnly() {
    read([](const auto&, const auto& file) {
             return std::pair(file.path, station::isReadOnly(file));
         },
         this,
         [this](const auto& found) {
             if (found.first != m_start.file.path) return;  // another one has been opened since
             if (std::exchange(m_isReadOnly, found.second) != found.second)
                 Q_EMIT readOnlyChanged();
         },
         Background::Urgency::Later);
}

QString Workplace::readOnlySentence() const {
    if (!m_isReadOnly) return {};
    return tr("This logbook is read-only here: it can be looked at, and nothing can be entered. "
              "Write down on paper what is done, or open it where it can be written.");
}

void Workplace::verify() {
    m_verifying.run(
        [this, file = m_start.file] {
            auto answer = station::verify(m_verifier, file);
            return std::pair(std::move(answer), station::lastBackupTold(m_verifier, file));
        },
        this, [this, path = m_start.file.path](const auto& found) {
            const auto& [answer, backup] = found;
            // What the disk did not give is noted nowhere: it is asked for again.
            if (answer ? answer->report.diskFailed : answer.error().code == "trouble.not_given")
                QTimer::singleShot(verifyAgain, this, [this, path] {
                    if (path == m_start.file.path) verify();
                });
            if (!answer) {
                Q_EMIT refused(answer.error());
                return;
            }
            QStringList lines;
            for (const auto& line :
                 station::findingsOf(words(), *answer, station::ToldBy::Window))
                lines << shownText(line);
            if (backup) lines << shownText(*backup);
            if (!lines.isEmpty()) Q_EMIT told(lines.join('\n'));
            refresh();
            // One that was restored, or was of an older engine, has none.
            if (path == m_start.file.path) keepStates();
        });
}

// Beside the thread that writes: a start waits for nothing that can wait. What comes in while one
// run has not ended is for the next.
void Workplace::keepStates() {
    if (std::exchange(m_keepsStates, true)) return;
    m_verifying.run(
        [this, file = m_start.file] {
            station::renewSnapshots(m_verifier, file);
            return true;
        },
        this, [this](bool) { m_keepsStates = false; });
}

void Workplace::open(const station::LogbookFile& file) {
    m_presence.lock();
    m_fleet.reset();
    m_read.reset();
    m_logMark.clear();
    m_isReadOnly = false;
    m_start.file = file;
    m_starts->load();
    refresh();
}

void Workplace::keep(std::vector<station::Entry> entries, QObject* receiver, TakeKept taken,
                     QString what) {
    const auto& session = m_presence.session();
    const bool isAgain = session && station::wantsPinAgain(entries);
    if (session && !isAgain) {
        keepBy(*session, std::move(entries), receiver, taken);
        return;
    }
    if (isAgain && m_fleet) {
        // Said before a PIN is typed for nothing.
        if (auto lack = station::lackOfPermission(m_reader, *m_fleet->standing, entries,
                                                  whoIsHere())) {
            const Kept kept{{}, std::move(*lack)};
            tell(kept);
            if (taken) taken(kept);
            return;
        }
    }
    const bool waits = waitsForPin(entries);
    const auto awaited = std::make_shared<Awaited>(receiver, std::move(taken));
    if (what.isEmpty()) what = whatIsKept(entries);
    Q_EMIT writerWanted({waits, what, isAgain},
                        [this, entries, awaited](const station::Writer& writer) {
                            keepBy(writer, entries, awaited->receiver(), awaited->over());
                        });
}

// "For unit KB-0102: Use ended, 13:20"; a line for each unit.
QString Workplace::whatIsKept(const std::vector<station::Entry>& entries) const {
    QStringList units;
    for (auto from = entries.begin(); from != entries.end();) {
        const auto to = std::find_if(from, entries.end(), [&](const station::Entry& entry) {
            return entry.device != from->device;
        });
        if (!from->device.empty()) units << linesOf(std::vector(from, to));
        from = to;
    }
    return units.join(QLatin1Char('\n'));
}

QString Workplace::linesOf(const std::vector<station::Entry>& entries) const {
    const auto unit = shownText(words::shown(entries.front().device));
    QStringList lines;
    if (m_fleet)
        for (const auto& line : station::entryLines(m_reader, *m_fleet->standing, entries))
            lines << shownText(line);
    return lines.isEmpty() ? tr("For unit %1").arg(unit)
                           : tr("For unit %1: %2").arg(unit, lines.join(QStringLiteral("; ")));
}

bool Workplace::waitsForPin(const std::vector<station::Entry>& entries) const {
    return !std::ranges::all_of(entries, [this](const auto& entry) {
        const auto kind = logbook::kindOf(entry.kind);
        return m_fleet && kind &&
               !station::waitsForPin(m_fleet->standing->state, *kind, entry.device);
    });
}

void Workplace::keepBy(const station::Writer& writer, std::vector<station::Entry> entries,
                       const QPointer<QObject>& receiver, const TakeKept& taken) {
    for (auto& entry : entries) entry.by = writer;
    if (std::ranges::any_of(entries, &station::isEmergencyStart)) {
        m_starts->begin(std::move(entries), receiver, taken);
        return;
    }
    write(
        [entries = std::move(entries)](const auto& surroundings, const auto& file) {
            Kept kept;
            auto written = station::writeTogether(surroundings, file, entries);
            if (written) {
                kept.written = std::move(*written);
            } else {
                kept.refused = std::move(written.error());
            }
            return kept;
        },
        this, [this, receiver, taken](const Kept& kept) {
            tell(kept);
            if (!kept.written.empty()) Q_EMIT this->kept(kept.written.back().record);
            if (receiver && taken) taken(kept);
        });
}

void Workplace::takeWritten(const Kept& kept, const logbook::RecordName& last) {
    tell(kept);
    Q_EMIT this->kept(last);
    keepStates();
}

void Workplace::tell(const Kept& kept) {
    if (!kept.written.empty()) {
        QStringList names, lines;
        for (const auto& each : kept.written) {
            names << shownText(toText(each.record));
            for (const auto& line : each.warnings) lines << shownText(line);
        }
        for (const auto& line : kept.written.back().meaning) lines << shownText(line);
        lines.prepend(tr("Kept by %1 as %2.")
                          .arg(shownText(kept.written.back().by), names.join(QLatin1String(", "))));
        Q_EMIT told(lines.join('\n'));
    }
    if (kept.refused) Q_EMIT refused(*kept.refused);
}

}  // namespace desktop
