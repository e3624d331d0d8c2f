// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see setup_panel.h.
#include "desktop/bedside/setup_panel.h"

#include "desktop/bedside/acts/act_sheet.h"
#include "desktop/bedside/keeping.h"
#include "desktop/bedside/setup_fit_sheet.h"
#include "desktop/bedside/setup_forms.h"
#include "desktop/bedside/setup_row.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

namespace {

// Into which of several positions a scanned part goes.
class PositionSheet : public Sheet {
public:
    using Chosen = std::function<void(const report::PartProposal&)>;
    PositionSheet(const station::Found& found, const Chosen& chosen)
        : Sheet(SetupPanel::tr("Where does it go?")) {
        content()->addWidget(textLabel(shownText(found.sentence)));
        for (const auto& part : found.parts) {
            auto text = shownText(part.label);
            if (!part.summary.empty()) text += QLatin1Char('\n') + shownText(part.summary);
            auto* button = new WrappedButton(text);
            connect(button, &QPushButton::clicked, this, [this, chosen, part] {
                close();
                chosen(part);
            });
            content()->addWidget(button);
        }
        content()->addStretch();
        auto* back = new WrappedButton(SetupPanel::tr("Back, keep nothing"));
        connect(back, &QPushButton::clicked, this, &Sheet::callOff);
        foot()->addWidget(back);
    }
};

}  // namespace

SetupPanel::SetupPanel(PanelTools tools, QWidget* parent) : SheetPanel(tools, parent) {
    auto* inside = new QWidget;
    m_layout = new QVBoxLayout(inside);
    m_layout->setContentsMargins(0, 0, 8, 0);
    m_layout->setSpacing(6);
    m_layout->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(scrollPage(inside));
}

void SetupPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
    std::vector<std::string> keys;
    for (const auto& position : unit->bedside.setup) keys.push_back(position.key);
    if (keys != m_keys) {
        m_keys = std::move(keys);
        makeRows();
    }
    for (std::size_t row = 0; row < m_rows.size(); ++row)
        m_rows[row]->show(unit->bedside.setup[row]);
    std::erase_if(m_puttingBack, [&](const PuttingBack& each) {
        return each.device != unit->bedside.identity.device ||
               (each.kept && !unit->fleet->isBefore(*each.kept));
    });
    showPuttingBack();
}

void SetupPanel::showPuttingBack() {
    for (std::size_t row = 0; row < m_rows.size(); ++row)
        m_rows[row]->holdPutBack(std::ranges::any_of(m_puttingBack, [&](const auto& each) {
            return each.position == m_keys[row];
        }));
}

// The very part that was taken out of there: nothing has to be asked of it.
void SetupPanel::putBack(const std::string& position) {
    const auto* found = positionOf(position);
    if (found == nullptr || !found->putBack) return;
    const auto& device = m_unit->bedside.identity.device;
    m_puttingBack.push_back({device, position, {}});
    showPuttingBack();
    keepActs(tools(), {device, {station::fitOf(station::statedPart(*found->putBack))}}, this,
             [this, device, position](const Workplace::Kept& kept) {
                 const auto is = [&](const PuttingBack& each) {
                     return each.device == device && each.position == position;
                 };
                 for (auto& each : m_puttingBack)
                     if (is(each) && kept.isAll()) each.kept = kept.written.back().record;
                 if (!kept.isAll()) std::erase_if(m_puttingBack, is);
                 showPuttingBack();
             });
}

void SetupPanel::makeRows() {
    for (auto* row : m_rows) row->deleteLater();
    m_rows.clear();
    for (const auto& key : m_keys) {
        auto* row = new SetupRow;
        m_layout->insertWidget(static_cast<int>(m_rows.size()), row);
        m_rows.push_back(row);
        connect(row, &SetupRow::putBackWanted, this, [this, key] { putBack(key); });
        connect(row, &SetupRow::fitWanted, this, [this, key] { fit(key); });
        connect(row, &SetupRow::removeWanted, this, [this, key] { remove(key); });
        connect(row, &SetupRow::reprocessWanted, this, [this, key] { reprocess(key); });
    }
}

bool SetupPanel::takeFound(const station::Found& found) {
    if (!m_unit || found.parts.empty() || !found.isOfParts()) return false;
    if (found.parts.size() == 1) {
        fitProposed(found.parts.front(), found.read);
    } else {
        sheets().put(new PositionSheet(
            found, [this, code = found.read](const report::PartProposal& part) {
                fitProposed(part, code);
            }));
    }
    return true;
}

void SetupPanel::fitProposed(const report::PartProposal& proposal, const std::string& code) {
    const auto serial = proposal.texts.find("serial");
    const auto& fitted = deviceOf(*m_unit).fitted;
    const auto here = fitted.find(proposal.position);
    if (serial != proposal.texts.end() && here != fitted.end() &&
        here->second.attributes.serial() == serial->second) {
        Q_EMIT workplace().told(
            tr("%1 stands in this unit already.").arg(shownText(serial->second)));
        return;
    }
    auto* sheet = new FitSheet(tools(), m_unit,
                               fitFor(*m_unit, workplace().words(), proposal.position));
    sheet->proposeKnown(proposal, code);
    put(sheet);
}

void SetupPanel::fit(const std::string& position) {
    if (m_unit)
        put(new FitSheet(tools(), m_unit, fitFor(*m_unit, workplace().words(), position)));
}

const report::SetupPosition* SetupPanel::positionOf(const std::string& key) const {
    const auto& setup = m_unit->bedside.setup;
    const auto found = std::ranges::find(setup, key, &report::SetupPosition::key);
    return found == setup.end() ? nullptr : &*found;
}

namespace {

// The position as the unit has it now; one that the edition does not name any more as it was.
const report::SetupPosition& asNow(const ActScene& now, const report::SetupPosition& before) {
    const auto& setup = now.unit.bedside.setup;
    const auto found = std::ranges::find(setup, before.key, &report::SetupPosition::key);
    return found == setup.end() ? before : *found;
}

}  // namespace

void SetupPanel::remove(const std::string& position) {
    if (const auto* found = positionOf(position))
        put(new ActSheet(tools(), m_unit, [found = *found](const ActScene& now) {
            return SetupForms::remove(asNow(now, found));
        }));
}

void SetupPanel::reprocess(const std::string& position) {
    if (const auto* found = positionOf(position))
        put(new ActSheet(tools(), m_unit, [found = *found](const ActScene& now) {
            return SetupForms::reprocess(asNow(now, found), now.words);
        }));
}

}  // namespace desktop
