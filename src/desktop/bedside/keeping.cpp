// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The questions before; see keeping.h.
#include "desktop/bedside/keeping.h"

#include "desktop/bedside/entry_strip.h"
#include "desktop/shell/text.h"
#include "words/shown.h"

#include <QCoreApplication>
#include <QPointer>
#include <algorithm>

namespace desktop {

namespace {

// An emergency start is never delayed by a question.
bool isEmergency(const station::Act& act) {
    return std::ranges::any_of(act.body, [](const auto& member) {
        return member.first == "emergency" && member.second == logbook::json::Value(true);
    });
}

bool mayDisturb(const station::Act& act) {
    const auto kind = logbook::kindOf(act.kind);
    return kind && report::disturbsEvidence(*kind) && !isEmergency(act);
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

void askIfUncounted(Workplace& workplace, const std::vector<station::Entry>& entries,
                    const station::StillToCome& toCome, QObject* receiver,
                    std::function<void(CountAnswer)> then) {
    const auto fleet = workplace.fleet();
    if (!fleet || !workplace.waitsForPin(entries)) {  // what must never wait is not tried out
        then({});
        return;
    }
    workplace.read(
        [fleet, entries, toCome](const auto& surroundings, const auto& file) {
            const auto whole = withLog(*fleet, surroundings, file);
            return whole ? station::whyUncounted(surroundings, **whole, entries, toCome)
                         : std::vector<std::string>();
        },
        receiver,
        [&workplace, receiver = QPointer<QObject>(receiver), device = entries.front().device,
         then = std::move(then)](const std::vector<std::string>& why) {
            if (why.empty()) {
                then({});
                return;
            }
            workplace.ask(KeepingQuestions::ofUncounted(device, why),
                          [receiver, then](bool isYes) {
                              if (receiver) then({isYes, true});
                          });
        });
}

std::string writerNow(Workplace& workplace) {
    const auto& session = workplace.presence().session();
    return session ? session->person() : std::string();
}

bool isStillTheirs(Workplace& workplace, const std::string& device, const std::string& writer) {
    if (writer.empty() || writer == writerNow(workplace)) return true;
    Q_EMIT workplace.told(KeepingQuestions::gone(device));
    return false;
}

// When and who are those of the press, whatever becomes of the strip while it is asked.
void keepActs(const PanelTools& tools, const std::string& device, std::vector<station::Act> acts,
              QObject* receiver, Workplace::TakeKept taken) {
    auto& workplace = tools.desk.workplace;
    auto& strip = tools.strip;
    const auto making = strip.take();
    const auto entries = strip.entriesOf(device, acts, making);
    const auto callOff = [&strip, making, taken] {
        strip.giveBack(making);
        if (taken) taken({{}, {}, true});
    };
    const auto keep = [&workplace, &strip, making, entries, device,
                       writer = writerNow(workplace), receiver = QPointer<QObject>(receiver),
                       taken, callOff](const CountAnswer& answer) {
        if (answer.isToBeKept && isStillTheirs(workplace, device, writer)) {
            strip.keep(entries, making, receiver, taken);
        } else {
            callOff();
        }
    };
    askForHold(workplace, device, acts, receiver,
               [&workplace, entries, receiver, keep, callOff](bool isYes) {
                   if (isYes) {
                       askIfUncounted(workplace, entries, {}, receiver, keep);
                   } else {
                       callOff();
                   }
               });
}

}  // namespace desktop
