// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What every screen shares; see workplace.h.
#include "desktop/shell/workplace.h"

#include "desktop/shell/text.h"

namespace desktop {

namespace {

// How often the log is looked at again: what others write shows, and time passes.
constexpr std::chrono::seconds lookAgain{15};

}  // namespace

Workplace::Workplace(Start start, QObject* parent)
    : QObject(parent),
      m_start(std::move(start)),
      m_terminal(m_start.words.say("question.yes")),
      m_reader{m_start.clock, m_start.zones(), m_start.words, m_start.login},
      m_writer{m_start.clock, m_start.zones(), m_start.words, m_start.login, &m_terminal} {
    connect(&m_terminal, &AskingTerminal::asked, this,
            [this](const QString& text, const std::function<void(bool)>& answer) {
                ask({text, tr("Yes, keep it"), tr("No, look again")}, answer);
            });
    m_minute.setInterval(lookAgain);
    connect(&m_minute, &QTimer::timeout, this, &Workplace::refresh);
    m_minute.start();
}

Workplace::~Workplace() {
    m_terminal.callOff();
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
    read(&readFleet, this, [this, path](station::Result<SharedFleetView> fleet) {
        m_isReading = false;
        if (path != m_start.file.path) {
            m_readAgain = true;  // another logbook has been opened since
        } else if (fleet) {
            m_fleet = std::move(*fleet);
            Q_EMIT fleetChanged();
        } else {
            Q_EMIT troubled(fleet.error());
        }
        if (std::exchange(m_readAgain, false)) refresh();
    });
}

void Workplace::open(const station::LogbookFile& file) {
    m_presence.lock();
    m_fleet.reset();
    m_start.file = file;
    refresh();
}

void Workplace::keep(station::Entry entry, QObject* receiver, Kept kept) {
    if (const auto& session = m_presence.session()) {
        keepBy(*session, std::move(entry), receiver, std::move(kept));
        return;
    }
    Q_EMIT writerWanted(shownText(entry.kind),
                        [this, entry, receiver = QPointer<QObject>(receiver),
                         kept](station::Writer writer) { keepBy(writer, entry, receiver, kept); });
}

void Workplace::keepBy(station::Writer writer, station::Entry entry, QPointer<QObject> receiver,
                       Kept kept) {
    entry.by = std::move(writer);
    write(
        [entry = std::move(entry)](const auto& surroundings, const auto& file) {
            return station::writeEntry(surroundings, file, entry);
        },
        this, [this, receiver, kept](const station::Result<station::Written>& written) {
            if (!written) {
                Q_EMIT refused(written.error());
            } else {
                auto text = tr("Kept as %1.").arg(shownText(toText(written->record)));
                for (const auto& line : written->warnings) text += '\n' + shownText(line);
                for (const auto& line : written->meaning) text += '\n' + shownText(line);
                Q_EMIT told(text);
            }
            if (receiver && kept) kept(written);
        });
}

}  // namespace desktop
