// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whose logbook it is; see department_page.h.
#include "desktop/first_start/department_page.h"

#include "desktop/shell/text.h"
#include "logbook/text.h"
#include "station/system.h"

#include <QDir>
#include <QFileInfo>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

DepartmentPage::DepartmentPage(Workplace& workplace, const QString& path, QWidget* parent)
    : SetupPage(tr("Your department"), tr("Go on"), parent), m_workplace(workplace) {
    m_facility = addField(tr("Hospital"));
    m_department = addField(tr("Department"));
    m_station = addField(tr("Name of this computer in the log"),
                         tr("small letters, figures and hyphens: icu-1"));
    m_station->setText(QStringLiteral("desk-1"));
    m_path = addField(tr("Where the logbook lies"));
    m_path->setText(QDir::toNativeSeparators(path));
    m_choose = new QPushButton(tr("Choose another folder …"));
    rows().addWidget(m_choose);
    rows().addStretch();
    connect(m_choose, &QPushButton::clicked, this,
            [this] { Q_EMIT folderWanted(m_path->text()); });
}

void DepartmentPage::makeFile(const QString& path) {
    if (std::exchange(m_isNew, true)) return;  // what was chosen stays
    m_path->setText(QDir::toNativeSeparators(path));
    m_path->setReadOnly(false);
    m_station->setReadOnly(false);
    m_choose->show();
}

void DepartmentPage::keepFile(const QString& path, const QString& station) {
    m_isNew = false;
    m_path->setText(QDir::toNativeSeparators(path));
    m_path->setReadOnly(true);
    m_choose->hide();
    if (!station.isEmpty()) {
        m_station->setText(station);
        m_station->setReadOnly(true);
    }
}

void DepartmentPage::takeFolder(const QString& folder) {
    const auto name = QFileInfo(m_path->text()).fileName();
    m_path->setText(QDir::toNativeSeparators(QDir(folder).filePath(name)));
}

void DepartmentPage::state(Founding& founding) const {
    founding.facility = plainText(m_facility->text().trimmed());
    founding.department = plainText(m_department->text().trimmed());
    founding.station = plainText(m_station->text().trimmed());
    founding.path = plainText(QDir::fromNativeSeparators(m_path->text().trimmed()));
    founding.isNew = m_isNew;
}

QString DepartmentPage::fault() {
    if (m_facility->text().trimmed().isEmpty()) {
        m_facility->setFocus();
        return tr("The hospital has no name yet. It stands at the head of every report: type it.");
    }
    if (m_department->text().trimmed().isEmpty()) {
        m_department->setFocus();
        return tr("The department has no name yet. Type it.");
    }
    if (!logbook::isStationName(plainText(m_station->text().trimmed()))) {
        m_station->setFocus();
        return tr("This computer's name may have small letters, figures and hyphens only, at most "
                  "32: icu-1. Change it.");
    }
    const QFileInfo file(m_path->text().trimmed());
    if (!file.fileName().isEmpty() && file.isAbsolute()) return {};
    m_path->setFocus();
    return tr("Where the logbook lies is not told in full. Choose a folder.");
}

void DepartmentPage::check(Told told) {
    const auto typed = fault();
    if (!typed.isEmpty() || !m_isNew) {
        told(typed);
        return;
    }
    m_workplace.runErrand(
        [path = plainText(m_path->text().trimmed())] { return station::system::exists(path); },
        this, [this, told = std::move(told)](bool isTaken) {
            if (isTaken) m_path->setFocus();
            told(isTaken ? tr("There is a file of that name already; nothing was done to it. Take "
                              "another name, or go back to the beginning and open it.")
                         : QString());
        });
}

void DepartmentPage::enter() {
    m_facility->setFocus();
}

}  // namespace desktop
