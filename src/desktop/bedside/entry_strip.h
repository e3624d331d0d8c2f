// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// "When?" and "Who?" of the entries to come: now, or some minutes ago; by whoever is signed in, or
// by another, with a second person. Knows no unit.
#pragma once

#include "desktop/shell/desk.h"
#include "station/bedside.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

class QLabel;
class QPushButton;

namespace desktop {

// What is chosen there.
struct EntryChoice {
    std::optional<logbook::Instant> at;  // none: now, when it is kept
    int minutesAgo = 0;                  // by which chip; 0: by a time, or now
    std::optional<std::string> doneBy;   // none: who writes it
    QString doneByName;
};

class EntryStrip : public QWidget {
    Q_OBJECT
public:
    explicit EntryStrip(DeskTools tools, QWidget* parent = nullptr);

    // Entries of one press on that unit, with what is chosen here.
    [[nodiscard]] std::vector<station::Entry> entriesOf(const std::string& device,
                                                        std::vector<station::Act> acts) const;

    // Keeps them, as Workplace::keep. Once they are kept "When?" is now again and nobody verifies
    // any more; if they are refused, all stays as it is.
    void keep(const std::string& device, std::vector<station::Act> acts, QObject* receiver,
              Workplace::TakeKept taken = {});

    // Somebody who has signed in for it verifies the next entries.
    void verifyBy(station::Session second);
    [[nodiscard]] bool isVerified() const { return m_second.has_value(); }

    [[nodiscard]] const EntryChoice& choice() const { return m_choice; }
    void choose(EntryChoice choice);
    // Now, by me, alone.
    void clear();
    // The time that entries have now.
    [[nodiscard]] logbook::Instant instant() const;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    QPushButton* addChip(const QString& text, const QString& name);
    void makeChips();
    void makeSummary();
    void chooseAgo(int minutes);
    void askTime();
    void askWho();
    void askSecond();
    void goBackToNow();
    void showChoice();
    void showNote();
    void fit();  // chips, or what is chosen alone where they have no room

    DeskTools m_tools;
    EntryChoice m_choice;
    std::optional<station::Session> m_second;
    QWidget* m_chips = nullptr;
    std::vector<std::pair<int, QPushButton*>> m_ago;  // minutes; 0 for now
    QPushButton* m_time = nullptr;
    QPushButton* m_me = nullptr;
    QPushButton* m_another = nullptr;
    QPushButton* m_verify = nullptr;
    QWidget* m_summary = nullptr;
    QPushButton* m_when = nullptr;
    QPushButton* m_who = nullptr;
    QLabel* m_note = nullptr;
};

}  // namespace desktop
