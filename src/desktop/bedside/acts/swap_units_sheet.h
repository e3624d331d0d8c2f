// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit takes over from another: two scans and a reason, kept as the end of the one use, the
// fault if there is one, and the start of the other for the same group at the same place. Where the
// other is in use by the log, that use is over too, if whoever swaps says so.
#pragma once

#include "desktop/bedside/acts/act_scene.h"
#include "desktop/bedside/acts/act_sheet.h"

namespace desktop {

class SwapUnitsSheet : public ActSheet {
    Q_OBJECT
public:
    SwapUnitsSheet(const PanelTools& tools, SharedUnitView unit, QWidget* parent = nullptr);

    // The unit that takes over.
    [[nodiscard]] bool takesCodeAlone() const override { return true; }
    bool takeScan(const QString& text) override;

Q_SIGNALS:
    // The patient is on that unit now, and all entries are kept.
    void tookOver(const QString& serial);

protected:
    [[nodiscard]] QString objection(const Answers& answers) const override;
    // That the unit that takes over is out of service, and why.
    [[nodiscard]] QString remark(const Answers& answers) const override;
    [[nodiscard]] std::vector<station::Act> actsOf(const Answers& answers) const override;
    void keepAll(const Answers& answers, Workplace::TakeKept taken) override;

private:
    // On its way to be kept.
    struct Takeover {
        std::string other;                        // which unit takes over
        std::vector<station::Act> off;            // on the unit that is taken off
        station::Act start;                       // of the other
        Workplace::TakeKept taken;
        std::optional<logbook::RecordName> over{};  // the use of the other that was said to be over
    };
    void giveUp(const Takeover& swap);
    // The use in which that unit is, as last read.
    [[nodiscard]] std::optional<rules::RecordRef> useOf(const std::string& device) const;
    [[nodiscard]] QString holdsOf(const rules::Device& other) const;
    [[nodiscard]] QString placeOfUse(const std::string& device) const;
    [[nodiscard]] bool isStillSo(const Takeover& swap) const;
    void askOfTheUse(Takeover swap);
    void askOfTheTaker(const Takeover& swap);
    void keepBoth(const std::vector<station::Act>& off, const std::vector<station::Act>& on,
                  const std::string& other, const Workplace::TakeKept& taken);
    [[nodiscard]] const FleetView& fleet() const;
};

}  // namespace desktop
