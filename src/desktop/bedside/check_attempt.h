// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One attempt at a check that is being logged: its values, its second person, what was not so,
// until it is kept or given up. Lives on while its sheet is put aside; knows no row of the screen.
#pragma once

#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/measure_sheet.h"
#include "desktop/bedside/unit_panel.h"

#include <QPointer>
#include <optional>

namespace desktop {

class NotSoSheet;

// What is typed and not kept, by check: so that it need not be typed again.
using UnkeptTexts = std::map<std::string, TypedTexts>;

class CheckAttempt : public QObject {
    Q_OBJECT
public:
    struct Asked {
        PanelTools tools;
        std::string device;
        report::CheckToLog check;
    };
    // Deletes itself once it is over.
    explicit CheckAttempt(Asked asked, QObject* parent);

    [[nodiscard]] const std::string& device() const { return m_asked.device; }
    [[nodiscard]] const std::string& check() const { return m_asked.check.check; }
    // Whether somebody is at it on the screen, and it is not kept yet.
    [[nodiscard]] bool isBeingEntered() const;

    // Passed; where it is known that this would not count, that is asked about first. The values
    // are asked for where they are wanted, or `withValues`.
    void pass(bool withValues, const TypedTexts& typed);
    // The same of another ending, without that question.
    void endAs(Ending ending, bool withValues, const TypedTexts& typed);
    void askNotSo();
    void renew(const report::CheckToLog& check);
    void giveUp();

Q_SIGNALS:
    void keepingChanged(bool isKeeping);
    void kept(const logbook::RecordName& record);
    // Typed, and not kept.
    void typedUnkept(const std::string& check, const desktop::TypedTexts& typed);
    void codeRead(const QString& text);

private:
    [[nodiscard]] Workplace& workplace() const { return m_asked.tools.desk.workplace; }
    [[nodiscard]] QString title() const;
    void askMeasures(const TypedTexts& typed);
    void finish(Ending ending);
    void askWhen(Sheet& sheet);
    void askSecond(const station::Act& act);
    void keep(const station::Act& act);
    void keepIfCounted(const station::Act& act);
    void keepNow(const station::Act& act);
    [[nodiscard]] std::vector<station::Entry> entriesOf(const station::Act& act) const;
    void takeKept(const Workplace::Kept& kept);
    void say(const station::Problem& problem);
    void setKeeping(bool isKeeping);
    void endSheets();
    void end();
    void endUnkept();

    Asked m_asked;
    EntryMaking m_making;  // when and who, as chosen when it was begun
    logbook::Instant m_begun;
    Ending m_ending{};
    std::string m_writer;             // who pressed; "" nobody was signed in
    bool m_isOver = false;            // an answer that comes now is too late
    bool m_isAsking = false;          // whether it is to be kept at all
    bool m_isKnownUncounted = false;  // and is to be kept all the same
    std::optional<std::vector<std::string>> m_notSo;  // none: nobody was asked
    QPointer<MeasureSheet> m_measures;
    QPointer<NotSoSheet> m_conditions;
};

}  // namespace desktop
