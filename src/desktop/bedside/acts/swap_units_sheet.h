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
    bool takeScan(const QString& text) override;

Q_SIGNALS:
    // The patient is on that unit now, and all entries are kept.
    void tookOver(const QString& serial);

protected:
    [[nodiscard]] QString objection(const Answers& answers) const override;
    [[nodiscard]] std::vector<station::Act> actsOf(const Answers& answers) const override;
    void keepAll(const Answers& answers, Workplace::TakeKept taken) override;

private:
    void askOfTheUse(const std::string& other, std::function<void(bool)> then);
    void keepBoth(const std::vector<station::Act>& off, const std::vector<station::Act>& on,
                  const std::string& other, const Workplace::TakeKept& taken);
    [[nodiscard]] const FleetView& fleet() const;
};

}  // namespace desktop
