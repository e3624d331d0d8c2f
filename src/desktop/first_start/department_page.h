// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whose logbook it is, what this computer is called in it, and where it lies.
#pragma once

#include "desktop/first_start/founding.h"
#include "desktop/first_start/setup_page.h"
#include "desktop/shell/workplace.h"

class QPushButton;

namespace desktop {

class DepartmentPage : public SetupPage {
    Q_OBJECT
public:
    // `path` is offered for the file.
    DepartmentPage(Workplace& workplace, const QString& path, QWidget* parent = nullptr);

    // A file that is made, there unless another place is chosen.
    void makeFile(const QString& path);
    // The file is there already and stays where it is.
    void keepFile(const QString& path, const QString& station);
    void state(Founding& founding) const;
    [[nodiscard]] QString fault() override;
    void check(Told told) override;
    void enter() override;
    void takeFolder(const QString& folder);

Q_SIGNALS:
    void folderWanted(const QString& path);

private:
    Workplace& m_workplace;
    QLineEdit* m_facility = nullptr;
    QLineEdit* m_department = nullptr;
    QLineEdit* m_station = nullptr;
    QLineEdit* m_path = nullptr;
    QPushButton* m_choose = nullptr;
    bool m_isNew = true;
};

}  // namespace desktop
