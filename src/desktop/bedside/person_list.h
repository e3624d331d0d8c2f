// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The people of the department to choose from, by a press on a name, by typing some letters of it,
// or by the badge. Knows nothing of PINs.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QWidget>
#include <set>
#include <string>
#include <vector>

class QLabel;
class QLineEdit;

namespace desktop {

class WrapLayout;
class Workplace;

struct Somebody {
    std::string person;  // their key
    QString name;
};

// Who may be named today, by name.
[[nodiscard]] std::vector<Somebody> peopleOf(const FleetView& fleet);

class PersonList : public QWidget {
    Q_OBJECT
public:
    // But those who have their part in it already.
    PersonList(Workplace& workplace, const std::set<std::string>& notOffered,
               QWidget* parent = nullptr);

    [[nodiscard]] QLineEdit* field() const { return m_field; }
    void readBadge(const QString& text);

Q_SIGNALS:
    void chosen(const desktop::Somebody& somebody);

private:
    void show(const QString& letters);

    Workplace& m_workplace;
    std::vector<Somebody> m_people;
    std::vector<Somebody> m_notOffered;  // who are not offered
    QLineEdit* m_field = nullptr;
    QLabel* m_said = nullptr;
    QWidget* m_names = nullptr;
};

}  // namespace desktop
