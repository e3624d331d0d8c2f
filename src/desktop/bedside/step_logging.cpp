// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Presses on steps; see step_logging.h.
#include "desktop/bedside/step_logging.h"

#include "desktop/bedside/keeping.h"
#include "desktop/shell/text.h"
#include "words/times.h"

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
    connect(&workplace(), &Workplace::troubled, this, [this] {
        if (std::exchange(m_awaited, std::nullopt)) setKeeping(false);
    });
    connect(&workplace().presence(), &Presence::left, this, [this] { m_left.clear(); });
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
        m_left.clear();
        m_awaited.reset();
        setKeeping(false);
    }
    if (m_awaited && unit->fleet->standing->log->log.find(*m_awaited)) {
        m_awaited.reset();
        setKeeping(false);
    }
    for (auto* attempt : attempts()) {
        if (attempt->device() != device) continue;
        attempt->renewUnit(unit->bedside.identity);
        if (const auto* check = checkNamed(unit->bedside, attempt->check()))
            attempt->renew(*check);
    }
}

bool StepLogging::isOpen() const {
    return m_isAsking ||
           std::ranges::any_of(attempts(), [](const auto* each) { return each->isInSight(); });
}

void StepLogging::giveUp() {
    m_left.clear();
    for (auto* attempt : attempts())
        if (attempt->isInSight()) attempt->giveUp();
}

void StepLogging::press(const report::BedsideRow& row, Press press) {
    if (m_isKeeping || isOpen()) return;
    const bool isEarly = row.notBefore && m_tools.strip.instant() < *row.notBefore &&
                         press != Press::Failed && std::holds_alternative<CheckToLog>(row.act);
    if (!isEarly) {
        log(row, press);
        return;
    }
    askEarly(row, press);
}

// The unit is named: the question lies over its bar.
void StepLogging::askEarly(const report::BedsideRow& row, Press press) {
    const words::Times times(workplace().words(), *m_unit->bedside.zone,
                             workplace().clock().now());
    m_isAsking = true;
    workplace().ask({tr("Unit %1: by the policy edition this does not count before %2.")
                         .arg(shownText(m_unit->bedside.identity.serial),
                              shownText(times.time(words::wholeMinute(*row.notBefore)))),
                     tr("Keep it; it does not count"), tr("Wait")},
                    [self = QPointer<StepLogging>(this), row, press,
                     device = m_device](bool isYes) {
                        if (!self) return;
                        self->m_isAsking = false;
                        if (isYes && device == self->m_device) self->log(row, press);
                    });
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
    } else if (const auto act = station::actOf(row.act)) {
        keep(*act);
    }
}

void StepLogging::attempt(const CheckToLog& check, Press press) {
    auto* attempt = new CheckAttempt({m_tools, m_unit->bedside.identity, check}, this);
    connect(attempt, &CheckAttempt::codeRead, this, &StepLogging::codeRead);
    connect(attempt, &CheckAttempt::keepingChanged, this,
            [this, device = m_device](bool isKeeping) {
                if (device == m_device) setKeeping(isKeeping);
            });
    connect(attempt, &CheckAttempt::kept, this,
            [this, device = m_device](const auto& record) { await(device, record); });
    connect(attempt, &CheckAttempt::left, this,
            [this, device = m_device](const std::string& key, const TypedTexts& typed) {
                if (device == m_device) m_left[key] = typed;
            });
    const auto typed = m_left.find(check.check);
    const auto texts = typed == m_left.end() ? TypedTexts{} : typed->second;
    switch (press) {
        case Press::NotSo: attempt->askNotSo(); return;
        case Press::Failed: attempt->log(Ending::Fail, true, texts); return;
        default: attempt->log(Ending::Pass, press == Press::Values, texts);
    }
}

void StepLogging::keep(const station::Act& act) {
    setKeeping(true);
    keepActs(m_tools, m_unit->bedside.identity, {act}, this,
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
    if (device != m_device) return;
    m_left.clear();
    m_awaited = record;
    Q_EMIT kept(record);
}

void StepLogging::setKeeping(bool isKeeping) {
    if (std::exchange(m_isKeeping, isKeeping) != isKeeping) Q_EMIT keepingChanged();
}

}  // namespace desktop
