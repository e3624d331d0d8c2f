// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a code that was scanned or typed leads to on the bedside desk; see bedside_desk.h.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/bedside/known_part_sheet.h"
#include "desktop/bedside/setup_panel.h"
#include "desktop/bedside/unit_choice_sheet.h"
#include "desktop/bedside/unknown_code_sheet.h"
#include "desktop/fleet/enrol_sheet.h"
#include "desktop/shell/text.h"
#include "station/bedside.h"

#include <QStackedWidget>
#include <algorithm>

namespace desktop {

bool BedsideDesk::takeScan(const QString& text) {
    readCode(text, Origin::Scanned);
    return true;
}

bool BedsideDesk::takeTyped(const QString& text) {
    readCode(text, Origin::Typed);
    return true;
}

void BedsideDesk::readCode(const QString& text, Origin origin) {
    const auto fleet = workplace().fleet();
    if (!fleet) {
        m_early = [this, text, origin] { readCode(text, origin); };
        Q_EMIT workplace().told(tr("Read %1. The logbook is still being read.").arg(text));
        return;
    }
    Q_EMIT workplace().told({});  // it was of the unit before
    workplace().read(
        [fleet, text = plainText(text), open = plainText(m_serial)](const auto& surroundings,
                                                                    const auto& file) {
            return findNamed(*fleet, surroundings, file, text, open);
        },
        this, [this, origin](const station::Found& found) { takeFound(found, origin); });
}

void BedsideDesk::takeFound(const station::Found& found, Origin origin) {
    if (found.what == station::Found::What::Unit) {
        openAsked(shownText(found.device), origin);
    } else if (found.what == station::Found::What::Units && workplace().fleet()) {
        askWhich(found, origin);
    } else if (found.isOfParts()) {
        takePart(found);
    } else {
        takeUnknown(found, origin);
    }
}

// Fitted where it belongs on the unit that is open, or else what is known of it.
void BedsideDesk::takePart(const station::Found& found) {
    if (isShown() && m_setup->takeFound(found)) return;
    const auto fleet = workplace().fleet();
    if (!fleet) return;
    auto* sheet = new KnownPartSheet(found, *fleet, !m_serial.isEmpty());
    connect(sheet, &KnownPartSheet::unitWanted, this, &BedsideDesk::showUnit);
    connect(sheet, &KnownPartSheet::codeRead, this,
            [this](const QString& text) { readCode(text, Origin::Scanned); });
    sheets().put(sheet);
}

// A PIN that was typed where none is asked for is not shown to whoever passes by.
void BedsideDesk::takeUnknown(const station::Found& found, Origin origin) {
    const bool mayBePin =
        origin == Origin::Typed && std::ranges::all_of(found.read, [](const char letter) {
            return '0' <= letter && letter <= '9';
        });
    if (mayBePin) {
        Q_EMIT workplace().told(tr("No unit, part or model of parts is known here by the number "
                                   "that was typed."));
    } else if (found.read.empty()) {
        Q_EMIT workplace().told(shownText(found.sentence));
    } else {
        offerEnrolment(found);
    }
}

void BedsideDesk::askWhich(const station::Found& found, Origin origin) {
    auto* sheet = new UnitChoiceSheet(found, *workplace().fleet());
    connect(sheet, &UnitChoiceSheet::chosen, this,
            [this, origin](const QString& serial) { openAsked(serial, origin); });
    connect(sheet, &UnitChoiceSheet::codeRead, this,
            [this](const QString& text) { readCode(text, Origin::Scanned); });
    sheets().put(sheet);
}

void BedsideDesk::offerEnrolment(const station::Found& found) {
    auto* sheet = new UnknownCodeSheet(found, !m_serial.isEmpty());
    connect(sheet, &UnknownCodeSheet::codeRead, this,
            [this](const QString& text) { readCode(text, Origin::Scanned); });
    connect(sheet, &UnknownCodeSheet::enrolmentWanted, this, &BedsideDesk::enrolUnits);
    sheets().put(sheet);
}

void BedsideDesk::enrolUnits(const QString& serial) {
    auto* enrol = new EnrolSheet(tools(), serial);
    connect(enrol, &EnrolSheet::unitWanted, this, &BedsideDesk::showUnit);
    sheets().put(enrol);
}

}  // namespace desktop
