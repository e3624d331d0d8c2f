// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The questions before; see keeping.h.
#include "desktop/bedside/keeping.h"

#include "desktop/bedside/entry_strip.h"
#include "desktop/shell/text.h"
#include "station/doubts.h"
#include "station/later_in_use.h"
#include "station/units_log.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <QPointer>
#include <algorithm>
#include <memory>
#include <utility>

namespace desktop {

namespace {

bool mayDisturb(const station::Act& act) {
    return report::isAskedForHold(act.kind, act.body);
}

std::vector<report::HoldSheet> sheetsOn(const Workplace& workplace, const std::string& device) {
    const auto& fleet = workplace.fleet();
    const auto* known = fleet ? fleet->standing->state.device(device) : nullptr;
    if (known == nullptr) return {};
    const auto& standing = *fleet->standing;
    return report::holdSheets(
        {workplace.words(), standing.state, known, standing.at, {}, standing.lookup});
}

struct KeepingQuestions {
    Q_DECLARE_TR_FUNCTIONS(desktop::Keeping)
public:
    static Question ofHolds(const std::string& device,
                            const std::vector<report::HoldSheet>& sheets) {
        QStringList lines{unitOf(device)};
        for (const auto& sheet : sheets) {
            lines << tr("%1, since %2:").arg(shownText(sheet.label), shownText(sheet.since));
            for (const auto& line : sheet.lines) lines << shownText(line);
            if (!sheet.lifters.empty()) lines << shownText(sheet.lifters);
        }
        lines << QString() << tr("This entry may change what has to stay as it is.");
        return {lines.join(QLatin1Char('\n')), tr("It was done: keep the entry"),
                tr("Leave the unit as it is")};
    }

    static Question ofUncounted(const std::string& device, const std::vector<std::string>& why) {
        QStringList lines{unitOf(device)};
        for (const auto& each : why) lines << shownText(each);
        return {lines.join(QLatin1Char('\n')), tr("Keep it all the same"), tr("Do not keep it")};
    }

    static Question ofEnd(const std::string& device, const std::vector<std::string>& later) {
        QStringList lines{unitOf(device)};
        for (const auto& each : later) lines << shownText(each);
        return {lines.join(QLatin1Char('\n')), tr("It was over by then: keep it"),
                tr("No, look again")};
    }

    static Question ofTexts(const std::string& device, const std::string& question) {
        return {unitOf(device) + QLatin1Char('\n') + shownText(question), tr("Yes, keep it"),
                tr("No, look again")};
    }

    static QString gone(const std::string& device) {
        return unitOf(device) + QLatin1Char(' ') +
               tr("Nothing was kept: whoever pressed it is not signed in any more.");
    }

private:
    // The question lies over the unit's bar.
    static QString unitOf(const std::string& device) {
        return tr("Unit %1.").arg(shownText(words::shown(device)));
    }
};

}  // namespace

void askForHold(Workplace& workplace, const std::string& device,
                const std::vector<station::Act>& acts, QObject* receiver,
                std::function<void(bool)> then) {
    const auto sheets = sheetsOn(workplace, device);
    if (sheets.empty() || std::ranges::none_of(acts, mayDisturb)) {
        then(true);
        return;
    }
    workplace.ask(KeepingQuestions::ofHolds(device, sheets),
                  [receiver = QPointer<QObject>(receiver), then = std::move(then)](bool isYes) {
                      if (receiver) then(isYes);
                  });
}

namespace {

// Ends a use in the past.
bool isEarlyEnd(const station::Entry& entry) {
    return entry.at && logbook::kindOf(entry.kind) == logbook::Kind::UseEnd;
}

}  // namespace

void askForEnd(Workplace& workplace, const std::vector<station::Entry>& entries, QObject* receiver,
               std::function<void(bool)> then) {
    const auto end = std::ranges::find_if(entries, isEarlyEnd);
    const auto fleet = workplace.fleet();
    if (end == entries.end() || !fleet) {
        then(true);
        return;
    }
    workplace.read(
        [fleet, end = *end](const auto& surroundings, const auto& file) {
            const auto whole =
                station::withLogOf(surroundings, file, *fleet->standing, end.device);
            return whole ? station::laterInUse(surroundings, *whole, {end})
                         : std::vector<std::string>();
        },
        receiver,
        [&workplace, receiver = QPointer<QObject>(receiver), device = end->device,
         then = std::move(then)](const std::vector<std::string>& later) {
            if (later.empty()) {
                then(true);
                return;
            }
            workplace.ask(KeepingQuestions::ofEnd(device, later), [receiver, then](bool isYes) {
                if (receiver) then(isYes);
            });
        });
}

namespace {

struct Outlook {
    std::vector<station::Entry> entries;
    station::StillToCome toCome{};
    std::vector<std::string> remarks{};
};

void askOf(Workplace& workplace, Outlook outlook, QObject* receiver,
           std::function<void(CountAnswer)> then) {
    const auto fleet = workplace.fleet();
    // What must never wait is not tried out.
    if (!fleet || !workplace.waitsForPin(outlook.entries)) {
        then({});
        return;
    }
    const auto device = outlook.entries.front().device;
    const auto writer = workplace.whoIsHere();
    workplace.read(
        [fleet, outlook = std::move(outlook)](const auto& surroundings, const auto& file) {
            auto told = outlook.remarks;
            const auto why = station::entryOutlook(surroundings, file, *fleet->standing,
                                                   outlook.entries, outlook.toCome);
            told.insert(told.end(), why.begin(), why.end());
            return told;
        },
        receiver,
        [&workplace, receiver = QPointer<QObject>(receiver), device, writer,
         then = std::move(then)](const std::vector<std::string>& told) {
            if (told.empty()) {
                then({});
                return;
            }
            if (!isStillTheirs(workplace, device, writer)) {
                then({false});
                return;
            }
            workplace.ask(KeepingQuestions::ofUncounted(device, told),
                          [receiver, then](bool isYes) {
                              if (receiver) then({isYes, true});
                          });
        });
}

// Hands on the entries, of which somebody may have said that they name no patient; none: they are
// not to be kept.
void askForTexts(Workplace& workplace, std::vector<station::Entry> entries, QObject* receiver,
                 std::function<void(std::vector<station::Entry>)> then) {
    const auto question = station::patientQuestion(workplace.words(), entries);
    if (question.empty()) {
        then(std::move(entries));
        return;
    }
    workplace.ask(KeepingQuestions::ofTexts(entries.front().device, question),
                  [entries, receiver = QPointer<QObject>(receiver),
                   then = std::move(then)](bool isYes) mutable {
                      if (!receiver) return;
                      for (auto& entry : entries) entry.namesNoPatient = true;
                      then(isYes ? std::move(entries) : std::vector<station::Entry>{});
                  });
}

}  // namespace

void askIfUncounted(Workplace& workplace, const std::vector<station::Entry>& entries,
                    const station::StillToCome& toCome, QObject* receiver,
                    std::function<void(CountAnswer)> then) {
    askOf(workplace, {entries, toCome, {}}, receiver, std::move(then));
}

bool isStillTheirs(Workplace& workplace, const std::string& device, const std::string& writer) {
    if (writer.empty() || writer == workplace.whoIsHere()) return true;
    Q_EMIT workplace.told(KeepingQuestions::gone(device));
    return false;
}

namespace {

// One press on its way: first what is asked, then it is kept. When and who are those of the press,
// whatever becomes of the strip while it is asked. Lives as long as somebody is still asked.
class Keeping : public std::enable_shared_from_this<Keeping> {
public:
    Keeping(const PanelTools& tools, Pressed pressed, QObject* receiver,
            Workplace::TakeKept taken)
        : m_workplace(tools.desk.workplace), m_strip(tools.strip), m_pressed(std::move(pressed)),
          m_making(tools.strip.take()), m_writer(tools.desk.workplace.whoIsHere()),
          m_receiver(receiver), m_taken(std::move(taken)) {}

    void begin() {
        askForHold(m_workplace, m_pressed.device, m_pressed.acts, m_receiver,
                   [self = shared_from_this()](bool isYes) {
                       isYes ? self->askTexts() : self->callOff();
                   });
    }

private:
    void askTexts() {
        auto stated = m_strip.entriesOf(m_pressed.device, m_pressed.acts, m_making);
        for (auto& entry : stated)
            if (!entry.at) entry.at = m_pressed.at;
        askForTexts(m_workplace, std::move(stated), m_receiver,
                    [self = shared_from_this()](std::vector<station::Entry> entries) {
                        entries.empty() ? self->callOff() : self->askEnd(std::move(entries));
                    });
    }

    void askEnd(std::vector<station::Entry> entries) {
        askForEnd(m_workplace, entries, m_receiver,
                  [self = shared_from_this(), entries](bool isYes) {
                      isYes ? self->askOutlook(entries) : self->callOff();
                  });
    }

    void askOutlook(std::vector<station::Entry> entries) {
        askOf(m_workplace, {entries, {}, m_pressed.remarks}, m_receiver,
              [self = shared_from_this(), entries](const CountAnswer& answer) {
                  answer.isToBeKept ? self->keep(entries) : self->callOff();
              });
    }

    void keep(std::vector<station::Entry> entries) {
        if (isStillTheirs(m_workplace, m_pressed.device, m_writer)) {
            m_strip.keep(std::move(entries), m_making, m_receiver, m_taken);
        } else {
            callOff();
        }
    }

    void callOff() {
        m_strip.giveBack(m_making);
        if (m_taken) m_taken({{}, {}, true});
    }

    Workplace& m_workplace;
    EntryStrip& m_strip;
    Pressed m_pressed;
    EntryMaking m_making;
    std::string m_writer;
    QPointer<QObject> m_receiver;
    Workplace::TakeKept m_taken;
};

}  // namespace

void keepActs(const PanelTools& tools, Pressed pressed, QObject* receiver,
              Workplace::TakeKept taken) {
    std::make_shared<Keeping>(tools, std::move(pressed), receiver, std::move(taken))->begin();
}

}  // namespace desktop
