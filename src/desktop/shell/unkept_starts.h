// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts that were pressed and could not be kept: which unit and when, across the desk
// until they are kept or somebody says that they are not to be. The time stays that of the first
// press. Knows nothing of how a start is pressed.
#pragma once

#include "desktop/shell/workplace.h"

#include <QWidget>
#include <list>
#include <string>

class QLabel;
class QVBoxLayout;

namespace desktop {

struct StartPress {
    logbook::Instant at{};
    std::string by;  // whoever was signed in; "" nobody
};

class UnkeptStarts : public QWidget {
    Q_OBJECT
public:
    explicit UnkeptStarts(Workplace& workplace, QWidget* parent = nullptr);

    // A start of one unit, pressed at that time, that was refused.
    void add(std::vector<station::Entry> entries, const StartPress& press,
             const station::Problem& problem);
    [[nodiscard]] bool has(const std::string& device) const;
    // A line for each, for whoever closes the window; "" for none.
    [[nodiscard]] QString lostIfClosed() const;

    // "NOT recorded: emergency start of KB-0102, 04:31." and why, with no word of what is safe.
    [[nodiscard]] static QString sentence(const Workplace& workplace, const std::string& device,
                                          logbook::Instant pressed,
                                          const station::Problem& problem);

Q_SIGNALS:
    void changed();  // which units have one
    // It is being kept again, and what came of it.
    void begun(const std::string& device);
    void ended(const std::string& device, const desktop::Workplace::Kept& kept);

private:
    struct Start {
        std::vector<station::Entry> entries;
        StartPress press;
        QWidget* row = nullptr;
        QLabel* text = nullptr;
    };
    using Starts = std::list<Start>;

    void addRow(Start& start);
    [[nodiscard]] Starts::iterator find(const QWidget* row);
    void tryAgain(const QWidget* row);
    void take(const QWidget* row, const Workplace::Kept& kept);
    void askToDrop(const QWidget* row);
    void drop(Starts::iterator start);
    void say(const Start& start, const station::Problem& problem) const;
    [[nodiscard]] QString unitOf(const Start& start) const;

    Workplace& m_workplace;
    Starts m_starts;
    QVBoxLayout* m_rows = nullptr;
};

}  // namespace desktop
