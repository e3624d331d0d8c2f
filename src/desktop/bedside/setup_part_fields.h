// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a part states that is about to be fitted: what is on the part itself, typed or scanned, and
// what it is like, as proposed. Lot, serial and expiry are never proposed.
#pragma once

#include "station/bedside.h"

#include <QWidget>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace desktop {

class WrapLayout;

// "2027-05-31", "20270531", or as packages have it "270531", where day 00 is the month's last.
[[nodiscard]] std::optional<logbook::Day> typedDay(const QString& text);

class PartFields : public QWidget {
    Q_OBJECT
public:
    // The patient groups that there are, as key and label; none where groups do not matter.
    using Groups = std::vector<std::pair<std::string, QString>>;
    // The words must outlive it.
    PartFields(const words::Words& words, const Groups& groups,
               const std::vector<report::AskedAttribute>& asked, QWidget* parent = nullptr);

    // What was typed of serial, lot and expiry stays, unless the proposal is of that very part.
    void propose(const report::PartProposal& proposal);
    // The same proposal made anew: whatever somebody has changed since stays.
    void renew(const report::PartProposal& proposal);
    // Whether something that somebody typed would give way to it.
    [[nodiscard]] bool losesTyped(const report::PartProposal& proposal) const;
    // Whether another serial is typed than that of the very part that is proposed: its lot and
    // expiry are not stated then.
    [[nodiscard]] bool isOfOtherPart() const;
    // What is still to be said of the part, a sentence each.
    [[nodiscard]] QStringList lacking() const;

    // Tells what is typed by which the part may be known, as leaving the field does: a press need
    // not take the focus.
    void finishTyping();

    [[nodiscard]] station::StatedPart stated(const std::string& position) const;
    [[nodiscard]] std::vector<std::string> chosenGroups() const;
    // What cannot be kept as it is typed; "" if all can.
    [[nodiscard]] QString wrong() const;

    [[nodiscard]] QLineEdit* first() const { return m_lines.front().second; }
    // A code into the line with the focus, if nothing was typed there; whether it is there now.
    bool typeIntoFocused(const QString& text);
    // The same into the line of the lot.
    bool typeLot(const QString& text);

Q_SIGNALS:
    void changed();
    // A serial, a lot or a model, by its attribute, was typed by hand: there may be more that is
    // known of it.
    void named(const std::string& attribute, const QString& text);

private:
    void tellName(const char* key);
    QLineEdit* addLine(const std::string& key, const QString& label);
    [[nodiscard]] QLineEdit* line(std::string_view key) const;
    void addGroups(const Groups& groups);
    void addReuse();
    void addAsked(const report::AskedAttribute& asked);
    [[nodiscard]] static QString shownAs(const std::string& key, const std::string& value);
    [[nodiscard]] static QString textIn(const report::PartProposal& proposal,
                                        const std::string& key);
    [[nodiscard]] std::string chosenReuse() const;  // "" where none is
    void showGroups(const report::PartProposal& proposal);
    void showReuse(const report::PartProposal& proposal);
    void showLikeness(const report::PartProposal& proposal);
    // Whether another model is typed than the one that is proposed: what that one is like says
    // nothing of it, and is not stated.
    [[nodiscard]] bool isOfOtherModel() const;
    void followModel();
    void followSerial();
    [[nodiscard]] std::string wordIn(const std::string& key, const QLineEdit& field) const;

    QVBoxLayout* m_layout = nullptr;
    std::vector<std::pair<std::string, QLineEdit*>> m_lines;  // attribute and line
    report::PartProposal m_proposed;
    const words::Words& m_words;
    std::set<std::string, std::less<>> m_typed;  // in which there is something by hand
    std::vector<std::pair<std::string, QPushButton*>> m_groups;
    QWidget* m_reuse = nullptr;
    std::vector<std::pair<std::string, QPushButton*>> m_reuses;
    bool m_statesGroups = false;
    bool m_hasChosenGroups = false, m_hasChosenReuse = false;  // by hand
    bool m_isOfOther = false;
    std::vector<report::AskedAttribute> m_asked;
};

}  // namespace desktop
