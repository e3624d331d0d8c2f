// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// "When?" and "Who?" of the entries to come: now, or some minutes ago; by whoever is signed in, or
// by another, with a second person. A time is for one press, unless it is pressed to stay: then it
// is marked, and lapses with the unit, with whoever is signed in, and after a quiet while. Knows no
// unit.
#pragma once

#include "desktop/shell/desk.h"
#include "station/bedside.h"

#include <QTimer>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

class QFrame;
class QLabel;
class QPushButton;

namespace desktop {

class Sheet;
class WrappedButton;

// What is chosen there.
struct EntryChoice {
    std::optional<logbook::Instant> at;  // none: now, when it is kept
    int minutesAgo = 0;                  // by which chip; 0: by a time, or now
    std::optional<std::string> doneBy;   // none: who writes it
    QString doneByName;
};

// When and who of the entries of one press, taken out of the strip when it is begun.
struct EntryMaking {
    EntryChoice choice;
    std::optional<station::Session> second;  // who verifies it, for this press alone
    std::string batch;                       // with which other entries it belongs together
    int turn = 0;                            // of the strip: which unit and person it was taken for
};

class EntryStrip : public QWidget {
    Q_OBJECT
public:
    explicit EntryStrip(DeskTools tools, QWidget* parent = nullptr);

    // Entries of one press on that unit.
    [[nodiscard]] std::vector<station::Entry> entriesOf(const std::string& device,
                                                        std::vector<station::Act> acts,
                                                        const EntryMaking& making) const;

    // What is chosen here, for a press that begins now: for the next one "When?" is now again, and
    // nobody verifies any more.
    [[nodiscard]] EntryMaking take();
    // Nothing came of it: what was chosen is chosen again, unless somebody has chosen anew since or
    // another unit is open. Who verified is to sign in again.
    void giveBack(const EntryMaking& making);
    // As chosen there, until it is changed here.
    void continueFrom(const EntryStrip& other);
    // What was chosen there has been kept from here: it is now again there, unless another unit is
    // open or another person is there since.
    void endAt(EntryStrip& other) const;

    // The choice of that sheet: asks when it was done where the sheet comes back as a draft, and
    // no time is chosen.
    void askWhenBack(Sheet& sheet);

    // Keeps entries that were made with `making`, as Workplace::keep.
    void keep(std::vector<station::Entry> entries, const EntryMaking& making, QObject* receiver,
              Workplace::TakeKept taken = {});

    // Somebody who has signed in for it verifies the next entries.
    void verifyBy(station::Session second);

    // The entries that follow belong together under that name, so that they can be struck or moved
    // together; "" to none.
    void setBatch(std::string name) { m_batch = std::move(name); }
    [[nodiscard]] const std::string& batch() const { return m_batch; }

    // How long the time stays after the last entry.
    static constexpr logbook::Duration quiet{120'000};

    [[nodiscard]] const EntryChoice& choice() const { return m_choice; }
    void choose(EntryChoice choice);
    // Now and alone, by whom it was: what was chosen here has been kept. Where it is to stay with a
    // time, that stays.
    void goBackToNow();
    // Now, by me, alone, and no batch: another unit or another person.
    void clear();
    // Who writes it and who did it, by that choice: nobody of them can verify it.
    [[nodiscard]] std::set<std::string> whoDid(const EntryChoice& choice) const;
    // The time that entries have now.
    [[nodiscard]] logbook::Instant instant() const;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QPushButton* addChip(const QString& text, const QString& name);
    void makeChips();
    void makeSummary();
    void makeNotice();
    void stayOrGoBack();
    void lapse();
    void chooseMe();
    void chooseAgo(int minutes);
    void askTime();
    void askWho();
    void askSecond();
    void keepTrue();
    void showChoice();
    void showNote();
    void showWhen();
    [[nodiscard]] QString timeText(logbook::Instant at) const;
    void fit();  // chips, or what is chosen alone where they have no room

    DeskTools m_tools;
    EntryChoice m_choice;
    std::optional<station::Session> m_second;
    std::string m_batch;
    int m_turn = 0;       // counts who and what it was cleared for
    int m_turnThere = 0;  // of the strip from which it continues, then
    QTimer m_ticks;
    QWidget* m_chips = nullptr;
    std::vector<std::pair<int, QPushButton*>> m_ago;  // minutes; 0 for now
    QPushButton* m_time = nullptr;
    QPushButton* m_me = nullptr;
    QPushButton* m_another = nullptr;
    QPushButton* m_verify = nullptr;
    QWidget* m_summary = nullptr;
    QPushButton* m_when = nullptr;
    WrappedButton* m_who = nullptr;
    QFrame* m_notice = nullptr;
    QLabel* m_note = nullptr;
    WrappedButton* m_stay = nullptr;
    bool m_isForOne = false;         // for one entry alone: nothing stays
    bool m_stays = false;            // with the time that is chosen
    logbook::Instant m_lastUsed{};   // then
};

}  // namespace desktop
