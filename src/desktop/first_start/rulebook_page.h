// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By which rules: one of the example rulebooks or the department's own file, with what there is to
// think about in it.
#pragma once

#include "desktop/first_start/founding.h"
#include "desktop/first_start/setup_page.h"
#include "desktop/shell/workplace.h"

#include <vector>

namespace desktop {

class PressRow;

class RulebookPage : public SetupPage {
    Q_OBJECT
public:
    explicit RulebookPage(Workplace& workplace, QWidget* parent = nullptr);

    void state(Founding& founding) const;
    [[nodiscard]] QString fault() override;
    void enter() override;
    void takeFile(const QString& path);

Q_SIGNALS:
    void fileWanted();
    void chosen();

private:
    struct Offer {
        PressRow* row = nullptr;
        std::string shipped, file;  // one of the two
    };
    struct Look {
        QString title, groups;
        QString text;       // faults or warnings, a line each
        bool isUsable = false;
    };

    PressRow* addOffer(Offer offer);
    void choose(std::size_t index);
    void lookAt(std::size_t index);
    [[nodiscard]] static Look lookOf(const station::Surroundings& surroundings,
                                     const Offer& offer);

    Workplace& m_workplace;
    std::vector<Offer> m_offers;  // the last one is the department's own
    std::vector<Look> m_looks;    // of the offers
    std::size_t m_chosen = SIZE_MAX;
    QLabel* m_warnings = nullptr;
};

}  // namespace desktop
