// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The models; see known_models.h.
#include "desktop/first_start/known_models.h"

#include "desktop/shell/text.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "words/shown.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace desktop {

namespace {

// More are found more quickly by typing.
constexpr std::size_t most = 6;

QStringList modelsOf(const FleetView& fleet) {
    std::map<std::string, int> units;
    for (const auto& [serial, device] : fleet.standing->state.devices)
        if (!device->retired) ++units[device->enrolment.model];
    std::vector<std::pair<int, std::string>> byUnits;
    for (const auto& [model, count] : units) byUnits.emplace_back(-count, model);
    std::ranges::sort(byUnits);
    byUnits.resize(std::min(byUnits.size(), most));
    QStringList models;
    for (const auto& each : byUnits) models << shownText(words::shown(each.second));
    return models;
}

}  // namespace

KnownModels::KnownModels(QWidget* parent) : QWidget(parent) {
    new WrapLayout(WrapLayout::Manner::Packed, this);
    hide();
}

void KnownModels::show(const FleetView& fleet) {
    auto models = modelsOf(fleet);
    if (m_models == models) return;
    m_models = std::move(models);
    qDeleteAll(findChildren<QPushButton*>());
    for (const auto& model : std::as_const(m_models)) {
        auto* press = new WrappedButton(buttonText(plainText(model)));
        press->setAccessibleName(tr("Model: %1").arg(model));
        layout()->addWidget(press);
        connect(press, &QPushButton::clicked, this, [this, model] { Q_EMIT chosen(model); });
    }
    setVisible(!m_models.isEmpty());
}

}  // namespace desktop
