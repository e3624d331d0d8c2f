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

namespace desktop {

class EntryStrip : public QWidget {
    Q_OBJECT
public:
    explicit EntryStrip(DeskTools tools, QWidget* parent = nullptr);

    // Entries of one press on that unit, with what is chosen here. Afterwards "When?" is now again.
    [[nodiscard]] std::vector<station::Entry> entriesOf(const std::string& device,
                                                        std::vector<station::Act> acts);

    // Keeps them, as Workplace::keep.
    void keep(const std::string& device, std::vector<station::Act> acts, QObject* receiver,
              Workplace::TakeKept taken = {});

private:
    DeskTools m_tools;
    std::optional<logbook::Instant> m_at;
    std::optional<std::string> m_doneBy;
};

}  // namespace desktop
