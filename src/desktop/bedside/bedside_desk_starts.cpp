// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts from the list of units that are ready, and those that could not be kept; see
// bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/bedside/unkept_starts.h"
#include "desktop/shell/text.h"

namespace desktop {

namespace {

std::optional<logbook::RecordName> startOf(const Workplace::Kept& kept) {
    return kept.isAll() ? std::optional(kept.written.back().record) : std::nullopt;
}

// By what can be read on it and beside it, so that it is the one at hand.
QString named(const Workplace& workplace, const QString& serial) {
    const auto& fleet = workplace.fleet();
    return fleet ? describedUnit(fleet->standing->state, plainText(serial)) : serial;
}

}  // namespace

// A start that could not be kept stands across the desk, and its unit is not offered meanwhile.
void BedsideDesk::makeUnkept() {
    m_unkept = new UnkeptStarts(workplace());
    connect(m_unkept, &UnkeptStarts::changed, this, [this] {
        m_ready->leaveOut([this](const std::string& device) { return m_unkept->has(device); });
    });
    connect(m_unkept, &UnkeptStarts::begun, m_ready, &ReadyList::beginStart);
    connect(m_unkept, &UnkeptStarts::ended, this,
            [this](const std::string& device, const Workplace::Kept& kept) {
                m_ready->endStart(device, startOf(kept));
            });
}

QString BedsideDesk::lostIfClosed() const {
    return m_unkept->lostIfClosed();
}

// Two presses: who is signed in stands by it in words, anybody else presses a name. Where the
// station stands is where it was started; what is still to be told is added afterwards.
void BedsideDesk::startInEmergency(const QString& serial) {
    const StartPress press{workplace().clock().now(), personHere()};
    if (!workplace().presence().session()) {
        keepStart(serial, press);
        return;
    }
    workplace().ask({tr("Record that unit %1 was started now, in an emergency?")
                         .arg(named(workplace(), serial)),
                     tr("Started now, emergency"), tr("Back, record nothing")},
                    [this, serial, press](bool isYes) {
                        if (isYes) keepStart(serial, press);
                    });
}

void BedsideDesk::keepStart(const QString& serial, const StartPress& press) {
    station::Entry entry{station::Writer(""), "use_start"};
    entry.device = plainText(serial);
    entry.body = {{"emergency", true}};
    if (const auto& place = workplace().place()) entry.body.emplace_back("location", *place);
    m_ready->beginStart(entry.device);
    workplace().keep(
        {entry}, this,
        [this, entry, press](const Workplace::Kept& kept) {
            if (kept.refused) m_unkept->add({entry}, press, *kept.refused);
            m_ready->endStart(entry.device, startOf(kept));
        },
        tr("Emergency start of unit %1, now").arg(named(workplace(), serial)));
}

}  // namespace desktop
