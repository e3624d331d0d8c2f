// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts from the list of units that are ready; see bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/emergency_starts.h"
#include "desktop/shell/text.h"

namespace desktop {

namespace {

std::optional<logbook::RecordName> startOf(const Workplace::Kept& kept) {
    const bool isWritten = kept.isAll() && !kept.written.empty();
    return isWritten ? std::optional(kept.written.back().record) : std::nullopt;
}

// By what can be read on it and beside it, so that it is the one at hand.
QString named(const Workplace& workplace, const QString& serial) {
    const auto& fleet = workplace.fleet();
    return fleet ? describedUnit(fleet->standing->state, plainText(serial)) : serial;
}

}  // namespace

// One that could not be kept at first has been by now.
void BedsideDesk::takeStarts() {
    connect(&workplace().starts(), &EmergencyStarts::kept, m_ready,
            [this](const std::string& device, const logbook::RecordName& record) {
                m_ready->endStart(device, record);
            });
}

// Two presses: who is signed in stands by it in words, anybody else presses a name. Where the
// station stands is where it was started; what is still to be told is added afterwards.
void BedsideDesk::startInEmergency(const QString& serial) {
    const auto pressed = workplace().clock().now();
    if (!workplace().presence().session()) {
        keepStart(serial, pressed);
        return;
    }
    workplace().ask({tr("Record that unit %1 was started now, in an emergency?")
                         .arg(named(workplace(), serial)),
                     tr("Started now, emergency"), tr("Back, record nothing")},
                    [this, serial, pressed](bool isYes) {
                        if (isYes) keepStart(serial, pressed);
                    });
}

// The time is that of the first press, however long it takes until a name is pressed.
void BedsideDesk::keepStart(const QString& serial, logbook::Instant pressed) {
    station::Entry entry{station::Writer(""), "use_start"};
    entry.device = plainText(serial);
    entry.body = {{"emergency", true}};
    entry.at = pressed;
    if (const auto& place = workplace().place()) entry.body.emplace_back("location", *place);
    m_ready->beginStart(entry.device);
    workplace().keep(
        {entry}, this,
        [this, device = entry.device](const Workplace::Kept& kept) {
            m_ready->endStart(device, startOf(kept));
        },
        tr("Emergency start of unit %1, now").arg(named(workplace(), serial)));
}

}  // namespace desktop
