// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see acts_panel.h.
#include "desktop/bedside/acts_panel.h"

#include "desktop/bedside/acts/act_sheet.h"
#include "desktop/bedside/acts/swap_units_sheet.h"
#include "desktop/bedside/entry_strip.h"
#include "desktop/bedside/keeping.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QStyle>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

ActsPanel::ActsPanel(PanelTools tools, QWidget* parent) : SheetPanel(tools, parent) {
    auto* inside = new QWidget;
    auto* groups = new QVBoxLayout(inside);
    groups->setContentsMargins(0, 6, 8, 6);
    groups->setSpacing(targetGap);
    for (const auto& group : actGroups()) addGroup(group, groups);
    groups->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(scrollPage(inside));
}

void ActsPanel::addGroup(const ActGroup& group, QVBoxLayout* layout) {
    auto* title = new QLabel(group.title);
    title->setFont(fontFor(TextRole::Strong));
    layout->addWidget(title);
    auto* buttons = new QWidget;
    buttons->setAccessibleName(group.title);
    auto* flow = new WrapLayout(WrapLayout::Manner::Packed, buttons);
    for (const auto& entry : group.entries) {
        auto* button = new WrappedButton(entry.label);
        connect(button, &QPushButton::clicked, this, [this, kind = entry.kind] { press(kind); });
        flow->addWidget(button);
        m_shown.push_back({entry.kind, button});
    }
    layout->addWidget(buttons);
}

void ActsPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
    const ActScene scene{*unit, workplace().words(), workplace().clock().now()};
    for (const auto& [kind, button] : m_shown) {
        const auto why = whyNot(kind, scene);
        button->setAccessibleDescription(why);
        if (button->property("off").toBool() == !why.isEmpty()) continue;
        button->setProperty("off", !why.isEmpty());
        button->style()->unpolish(button);
        button->style()->polish(button);
    }
}

void ActsPanel::press(ActKind kind) {
    if (!m_unit) return;
    const ActScene scene{*m_unit, workplace().words(), workplace().clock().now()};
    if (const auto why = whyNot(kind, scene); !why.isEmpty()) {
        Q_EMIT workplace().told(why);
    } else if (kind == ActKind::SwapUnits) {
        auto* sheet = new SwapUnitsSheet(tools(), m_unit);
        // Once the sheet is gone.
        connect(sheet, &SwapUnitsSheet::tookOver, this, &UnitPanel::unitWanted,
                Qt::QueuedConnection);
        put(sheet);
    } else if (kind == ActKind::Emergency && !workplace().presence().session()) {
        startNow();
    } else {
        put(new ActSheet(tools(), m_unit, [kind](const ActScene& now) {
            auto form = formOf(kind, now);
            form.told.prepend(whyNot(kind, now));  // since it was put aside
            return form;
        }));
    }
}

void ActsPanel::recordService(const std::string& service) {
    if (!m_unit) return;
    put(new ActSheet(tools(), m_unit, [service](const ActScene& now) {
        auto form = formOf(ActKind::Service, now);
        form.fields.front().value = service;
        return form;
    }));
}

// From the locked screen one press more, the name, is all that an emergency start waits for: it is
// for the group selected, where this computer stands, if that is set.
void ActsPanel::startNow() {
    const ActScene scene{*m_unit, workplace().words(), workplace().clock().now(),
                         workplace().place()};
    const auto form = formOf(ActKind::Emergency, scene);
    Answers answers;
    for (const auto& field : form.fields)
        if (!field.value.empty()) answers.emplace(field.key, field.value);
    const auto& device = m_unit->bedside.identity.device;
    keepActs(tools(), {device, form.acts(answers), {}, scene.now}, this, {});
}

}  // namespace desktop
