// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The hint; see waiting_hint.h.
#include "desktop/shell/waiting_hint.h"

#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <algorithm>
#include <utility>

namespace desktop {

namespace {

std::string personOf(Workplace& workplace) {
    const auto& session = workplace.presence().session();
    return session ? session->person() : std::string();
}

}  // namespace

WaitingHint::WaitingHint(DeskTools tools, QWidget* parent) : QWidget(parent), m_tools(tools) {
    auto* row = new WrapLayout(WrapLayout::Manner::Packed, this);
    m_look = new WrappedButton(QString());
    auto* later = new WrappedButton(tr("Later"));
    later->setProperty("quiet", true);
    later->setAccessibleName(tr("Put off what waits for your name"));
    row->addWidget(m_look);
    row->addWidget(later);
    hide();
    connect(m_look, &QPushButton::clicked, this, &WaitingHint::open);
    connect(later, &QPushButton::clicked, this, [this] {
        for (const auto& entry : m_entries) m_putOff.insert(entry.record);
        hide();
    });
    connect(&tools.workplace.presence(), &Presence::changed, this, [this] {
        m_putOff.clear();
        m_entries.clear();
        hide();
        read();
    });
    connect(&tools.workplace, &Workplace::fleetChanged, this, &WaitingHint::read);
}

void WaitingHint::read() {
    const auto person = personOf(m_tools.workplace);
    if (person.empty()) return;
    readFor(person, [this, person](const station::Result<station::Waiting>& waiting) {
        if (waiting && person == personOf(m_tools.workplace)) show(waiting->entries);
    });
}

void WaitingHint::readFor(const std::string& person, TakeWaiting taken) {
    const auto fleet = m_tools.workplace.fleet();
    if (!fleet) return;
    m_tools.workplace.read(
        [fleet, person, log = m_log](const auto& surroundings, const auto& file) {
            return log->of(surroundings, file, *fleet->standing, person);
        },
        this, std::move(taken), Background::Urgency::Later);
}

void WaitingHint::show(const WaitingEntries& entries) {
    m_entries = entries;
    m_look->setText(tr("Entries that wait for your name: %1 …").arg(entries.size()));
    setVisible(std::ranges::any_of(entries, [this](const auto& entry) {
        return !m_putOff.contains(entry.record);
    }));
}

void WaitingHint::open() {
    if (!m_tools.sheets.isEmpty()) return;
    m_tools.workplace.asWriter(true, this, [this](const station::Writer&) {
        openFor(personOf(m_tools.workplace));
    });
}

void WaitingHint::openFor(const std::string& person) {
    readFor(person, [this, person](const station::Result<station::Waiting>& waiting) {
        if (person != personOf(m_tools.workplace) || !m_tools.sheets.isEmpty()) return;
        if (!waiting) {
            Q_EMIT m_tools.workplace.refused(waiting.error());
        } else if (waiting->entries.empty()) {
            Q_EMIT m_tools.workplace.told(
                waiting->doubts.empty()
                    ? tr("No entry waits for your name.")
                    : tr("No entry that can be read waits for your name. There may be others "
                         "among what cannot be read."));
        } else {
            m_tools.sheets.put(new ConfirmSheet(m_tools, waiting->entries));
        }
    });
}

}  // namespace desktop
