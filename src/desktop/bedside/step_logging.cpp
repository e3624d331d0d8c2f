// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Presses on steps; see step_logging.h.
#include "desktop/bedside/step_logging.h"

#include "desktop/bedside/keeping.h"
#include "desktop/shell/text.h"

#include <algorithm>
#include <utility>

namespace desktop {

namespace {

using report::CheckToLog;
using report::FitToLog;

const CheckToLog* checkNamed(const report::Bedside& bedside, const std::string& key) {
    for (const auto& row : bedside.rows)
        if (const auto* check = std::get_if<CheckToLog>(&row.act); check && check->check == key)
            return check;
    return nullptr;
}

bool hasRead(const FleetView& fleet, const logbook::RecordName& name) {
    const auto& heads = fleet.standing->facts.heads;
    const auto head = heads.find(name.station);
    return head != heads.end() && head->second.head.seq >= name.seq;
}

}  // namespace

StepLogging::StepLogging(PanelTools tools, QObject* parent) : QObject(parent), m_tools(tools) {
    // What was kept cannot be read: the screen stays as it is, and can be used.
    connect(&workplace(), &Workplace::troubled, this, [this] {
        if (std::exchange(m_awaited, std::nullopt)) setKeeping(false);
    });
    // What somebody typed is offered to nobody else, also where they were not signed in.
    connect(&workplace().presence(), &Presence::left, this, [this] { m_unkept.clear(); });
    connect(&workplace().presence(), &Presence::came, this, [this] { m_unkept.clear(); });
}

std::vector<CheckAttempt*> StepLogging::attempts() const {
    std::vector<CheckAttempt*> attempts;
    for (auto* each : findChildren<CheckAttempt*>(QString(), Qt::FindDirectChildrenOnly))
        attempts.push_back(each);
    return attempts;
}

void StepLogging::show(const SharedUnitView& unit) {
    m_unit = unit;
    const auto& device = unit->bedside.identity.device;
    if (std::exchange(m_device, device) != device) {
        m_awaited.reset();
        setKeeping(false);
    }
    if (m_awaited && hasRead(*unit->fleet, *m_awaited)) {
        m_awaited.reset();
        setKeeping(false);
    }
    for (auto* attempt : attempts()) {
        if (attempt->device() != device) continue;
        if (const auto* check = checkNamed(unit->bedside, attempt->check()))
            attempt->renew(*check);
    }
}

bool StepLogging::isOpen() const {
    return std::ranges::any_of(attempts(),
                               [](const auto* each) { return each->isBeingEntered(); });
}

void StepLogging::giveUp() {
    for (auto* attempt : attempts())
        if (attempt->isBeingEntered()) attempt->giveUp();
}

void StepLogging::press(const report::BedsideRow& row, Press press) {
    if (m_isKeeping || isOpen()) return;
    log(row, press);
}

void StepLogging::log(const report::BedsideRow& row, Press press) {
    if (const auto* check = std::get_if<CheckToLog>(&row.act)) {
        attempt(*check, press);
    } else if (const auto* fit = std::get_if<FitToLog>(&row.act)) {
        if (press == Press::PutBack && fit->putBack) {
            keep(station::fitOf(station::statedPart(*fit->putBack)));
        } else {
            Q_EMIT fitWanted(shownText(fit->position));
        }
    } else if (const auto* service = std::get_if<report::ServiceToLog>(&row.act)) {
        Q_EMIT serviceWanted(shownText(service->service));
    } else if (const auto act = station::actOf(row.act)) {
        keep(*act);
    }
}

void StepLogging::attempt(const CheckToLog& check, Press press) {
    auto* attempt = new CheckAttempt({m_tools, m_device, check}, this);
    connect(attempt, &CheckAttempt::codeRead, this, &StepLogging::codeRead);
    connect(attempt, &CheckAttempt::keepingChanged, this,
            [this, device = m_device](bool isKeeping) {
                if (device == m_device) setKeeping(isKeeping);
            });
    connect(attempt, &CheckAttempt::kept, this,
            [this, device = m_device](const auto& record) { await(device, record); });
    connect(attempt, &CheckAttempt::typedUnkept, this,
            [this, device = m_device](const std::string& key, const TypedTexts& typed) {
                auto& unkept = m_unkept[device][key] = typed;
                for (auto& [measure, text] : unkept) text.isAgreed = false;
            });
    const auto& unkept = m_unkept[m_device];
    const auto typed = unkept.find(check.check);
    const auto texts = typed == unkept.end() ? TypedTexts{} : typed->second;
    switch (press) {
        case Press::NotSo: attempt->askNotSo(); return;
        case Press::Failed: attempt->endAs(Ending::Fail, true, texts); return;
        default: attempt->pass(press == Press::Values, texts);
    }
}

void StepLogging::keep(const station::Act& act) {
    setKeeping(true);
    keepActs(m_tools, {m_device, {act}}, this,
             [this, device = m_device](const Workplace::Kept& kept) {
                 if (kept.isAll()) {
                     await(device, kept.written.back().record);
                 } else if (device == m_device) {
                     setKeeping(false);
                 }
             });
}

// What was kept on a unit that is not shown any more bears on nothing here.
void StepLogging::await(const std::string& device, const logbook::RecordName& record) {
    m_unkept.erase(device);
    if (device != m_device) return;
    m_awaited = record;
    Q_EMIT kept(record);
}

void StepLogging::setKeeping(bool isKeeping) {
    if (std::exchange(m_isKeeping, isKeeping) != isKeeping) Q_EMIT keepingChanged();
}

}  // namespace desktop
