// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When and who; see entry_strip.h.
#include "desktop/bedside/entry_strip.h"

#include <utility>

namespace desktop {

EntryStrip::EntryStrip(DeskTools tools, QWidget* parent) : QWidget(parent), m_tools(tools) {}

std::vector<station::Entry> EntryStrip::entriesOf(const std::string& device,
                                                  std::vector<station::Act> acts) {
    station::Doing doing{station::Writer(""), device};
    doing.at = m_at;
    doing.doneBy = m_doneBy;
    return station::entriesOf(doing, std::move(acts));
}

void EntryStrip::keep(const std::string& device, std::vector<station::Act> acts, QObject* receiver,
                      Workplace::TakeKept taken) {
    m_tools.workplace.keep(entriesOf(device, std::move(acts)), receiver, std::move(taken));
}

}  // namespace desktop
