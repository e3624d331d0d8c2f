// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The forms of the entries, by what they are about. Each asks only for what its record needs.
#pragma once

#include "desktop/bedside/acts/act_scene.h"

#include <QCoreApplication>

namespace desktop {

class UseForms {
    Q_DECLARE_TR_FUNCTIONS(desktop::UseForms)
public:
    [[nodiscard]] static ActForm start(const ActScene& scene);
    [[nodiscard]] static ActForm emergency(const ActScene& scene);
    [[nodiscard]] static ActForm pause(const ActScene& scene);
    [[nodiscard]] static ActForm resume(const ActScene& scene);
    [[nodiscard]] static ActForm end(const ActScene& scene);

private:
    // The use that goes on: one that began since is another patient's, perhaps.
    [[nodiscard]] static std::optional<logbook::RecordName> useOf(const ActScene& scene);
    [[nodiscard]] static QString standsAgainst(const ActScene& scene);
    [[nodiscard]] static QString placed(const QString& says, const Answers& answers);
};

class UnitForms {
    Q_DECLARE_TR_FUNCTIONS(desktop::UnitForms)
public:
    [[nodiscard]] static ActForm group(const ActScene& scene);
    [[nodiscard]] static ActForm powerOn(const ActScene& scene);
    [[nodiscard]] static ActForm powerOff(const ActScene& scene);
    [[nodiscard]] static ActForm soil(const ActScene& scene);
    [[nodiscard]] static ActForm place(const ActScene& scene);
    [[nodiscard]] static ActForm note(const ActScene& scene);
};

class TroubleForms {
    Q_DECLARE_TR_FUNCTIONS(desktop::TroubleForms)
public:
    [[nodiscard]] static ActForm alarm(const ActScene& scene);
    [[nodiscard]] static ActForm fault(const ActScene& scene);
    [[nodiscard]] static ActForm clear(const ActScene& scene);
    [[nodiscard]] static ActForm withdraw(const ActScene& scene);
    [[nodiscard]] static ActForm release(const ActScene& scene);

    // The faults that the edition names, and one for any other.
    [[nodiscard]] static std::vector<ActChoice> faults(const ActScene& scene);
};

class DepartmentForms {
    Q_DECLARE_TR_FUNCTIONS(desktop::DepartmentForms)
public:
    [[nodiscard]] static ActForm service(const ActScene& scene);
    [[nodiscard]] static ActForm waive(const ActScene& scene);
    [[nodiscard]] static ActForm noticeDone(const ActScene& scene);

    // The findings on the unit that may be permitted for a time, as "finding subject".
    [[nodiscard]] static std::vector<ActChoice> waivable(const ActScene& scene);
    // The notices that are found on the unit.
    [[nodiscard]] static std::vector<ActChoice> notices(const ActScene& scene);
};

}  // namespace desktop
