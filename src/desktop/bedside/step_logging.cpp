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

}  // namespace

StepLogging::StepLogging(PanelTools tools, QObject* parent) : QObject(parent), m_tools(tools) {
    // What was kept cannot be read: the screen stays as it is, and can be used.
    connect(&workplace(), &Workplace::troubled, this, &StepLogging::goOn);
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
    const bool isOther = std::exchange(m_device, device) != device;
    std::erase_if(m_held, [&](const Held& held) {
        return held.kept && !unit->fleet->isBefore(*held.kept);
    });
    const bool isAnyHeld =
        std::ranges::any_of(m_held, [&](const Held& held) { return held.step.device == device; });
    if (isOther || !isAnyHeld) m_isKeeping = false;
    Q_EMIT heldChanged();
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
    if (isHeld(row.key) || isOpen()) return;
    log(row, press);
}

void StepLogging::log(const report::BedsideRow& row, Press press) {
    const Step step{m_device, row.key};
    if (const auto* check = std::get_if<CheckToLog>(&row.act)) {
        attempt(*check, step, press);
    } else if (const auto* fit = std::get_if<FitToLog>(&row.act)) {
        if (press == Press::PutBack && fit->putBack) {
            keep(station::fitOf(station::statedPart(*fit->putBack)), step);
        } else {
            Q_EMIT fitWanted(shownText(fit->position));
        }
    } else if (const auto* service = std::get_if<report::ServiceToLog>(&row.act)) {
        Q_EMIT serviceWanted(shownText(service->service));
    } else if (const auto act = station::actOf(row.act)) {
        keep(*act, step);
    }
}

void StepLogging::attempt(const CheckToLog& check, const Step& step, Press press) {
    auto* attempt = new CheckAttempt({m_tools, m_device, check}, this);
    connect(attempt, &CheckAttempt::codeRead, this, &StepLogging::codeRead);
    connect(attempt, &CheckAttempt::keepingChanged, this, [this, step](bool isKeeping) {
        if (isKeeping) {
            hold(step);
        } else {
            letGo(step);
        }
    });
    connect(attempt, &QObject::destroyed, this, [this, step] { letGo(step); });
    connect(attempt, &CheckAttempt::kept, this,
            [this, step](const auto& record) { await(step, record); });
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

void StepLogging::keep(const station::Act& act, const Step& step) {
    hold(step);
    keepActs(m_tools, {step.device, {act}}, this, [this, step](const Workplace::Kept& kept) {
        if (kept.isAll()) {
            await(step, kept.written.back().record);
        } else {
            letGo(step);
        }
    });
}

bool StepLogging::isHeld(const std::string& step) const {
    return m_isKeeping || std::ranges::find(m_held, Step{m_device, step}, &Held::step) !=
                              m_held.end();
}

void StepLogging::hold(const Step& step) {
    m_held.push_back({step});
    if (step.device == m_device) m_isKeeping = true;
    Q_EMIT heldChanged();
}

// It was not kept; what was, is held on.
void StepLogging::letGo(const Step& step) {
    const auto isDropped = [&](const Held& held) { return held.step == step && !held.kept; };
    if (std::erase_if(m_held, isDropped) == 0) return;
    if (step.device == m_device) m_isKeeping = false;
    Q_EMIT heldChanged();
}

// What was kept on a unit that is not shown any more bears on nothing here.
void StepLogging::await(const Step& step, const logbook::RecordName& record) {
    m_unkept.erase(step.device);
    for (auto& held : m_held)
        if (held.step == step) held.kept = record;
    if (step.device == m_device) Q_EMIT kept(record);
}

// With other steps, unless one is being kept at this moment.
void StepLogging::goOn() {
    const auto isBeingKept = [this](const Held& held) {
        return held.step.device == m_device && !held.kept;
    };
    if (std::ranges::any_of(m_held, isBeingKept)) return;
    m_isKeeping = false;
    Q_EMIT heldChanged();
}

}  // namespace desktop
