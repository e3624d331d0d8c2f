// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units; see units_page.h.
#include "desktop/first_start/units_page.h"

#include "desktop/bedside/setup_part_fields.h"
#include "desktop/first_start/known_models.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "rules/features.h"
#include "words/attribute_text.h"

#include <QEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

namespace desktop {

namespace {

std::optional<std::string> statedIn(const QLineEdit& field) {
    auto text = plainText(field.text().trimmed());
    return text.empty() ? std::nullopt : std::optional(std::move(text));
}

}  // namespace

UnitsPage::UnitsPage(DeskTools tools, QWidget* parent)
    : SetupPage(tr("The units"), tr("Go on to the first check"), parent), m_tools(tools) {
    m_told = addText(tr("Scan a unit, or type what stands on its plate."));
    m_told->setFont(fontFor(TextRole::Strong));
    m_serial = addField(tr("Serial number"), tr("scan or type"));
    m_model = addField(tr("Model"));
    m_models = new KnownModels;
    rows().addWidget(m_models);
    connect(m_models, &KnownModels::chosen, this, &UnitsPage::takeModel);
    m_groups = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, m_groups);
    addNamed(tr("For whom it may be used"), m_groups);
    m_featuresHead = textLabel(tr("What it has"), TextRole::Strong);
    m_features = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, m_features);
    for (auto* each : {static_cast<QWidget*>(m_featuresHead), m_features}) {
        each->hide();
        rows().addWidget(each);
    }
    m_asset = addField(tr("Asset number, if it has one"));
    const auto beside = addFields({{tr("Place where it stands"), {}},
                                   {tr("In service since"), tr("as 2026-11-28 or 261128")}});
    m_place = beside.front();
    m_commissioned = beside.back();
    m_add = new QPushButton(tr("Enrol this unit"));
    m_add->setEnabled(false);  // before the edition has been read nothing can be
    m_list = new QPushButton(tr("Enrol a fleet list …"));
    m_presses = new QWidget;
    auto* row = new WrapLayout(WrapLayout::Manner::Spread, m_presses);
    row->addWidget(m_add);
    row->addWidget(m_list);
    rows().addWidget(m_presses);
    rows().addStretch();
    for (auto* field : {m_serial, m_model, m_asset, m_place, m_commissioned})
        connect(field, &QLineEdit::textEdited, this, [this] { Q_EMIT troubled({}); });
    connect(m_add, &QPushButton::clicked, this, &UnitsPage::add);
    connect(m_list, &QPushButton::clicked, this, &UnitsPage::chooseList);
    connect(&m_tools.workplace, &Workplace::fleetChanged, this, &UnitsPage::showChoices);
    setFocusProxy(m_serial);
}

void UnitsPage::enter() {
    showChoices();
    m_serial->setFocus();
}

void UnitsPage::putPresses(QBoxLayout& under) {
    if (isTextLarge()) return;  // there what is typed needs the room
    rows().removeWidget(m_presses);
    under.addWidget(m_presses);
}

// Wherever its presses stand, they are dead with it.
void UnitsPage::changeEvent(QEvent* event) {
    SetupPage::changeEvent(event);
    if (event->type() == QEvent::EnabledChange) m_presses->setEnabled(isEnabled());
}

void UnitsPage::beginWith(const QString& serial) {
    m_serial->setText(serial);
    setFocusProxy(m_model);
}

bool UnitsPage::isDraft() const {
    const auto isTyped = [](const QLineEdit* field) { return !field->text().trimmed().isEmpty(); };
    const auto isPressed = [](const auto& press) { return press.second->isChecked(); };
    // A group that is the only one is pressed already.
    const bool isGrouped = m_groupPresses.size() == 1
                               ? !isPressed(m_groupPresses.front())
                               : std::ranges::any_of(m_groupPresses, isPressed);
    return m_isKeeping || isGrouped || std::ranges::any_of(m_featurePresses, isPressed) ||
           std::ranges::any_of(std::array{m_serial, m_model, m_asset, m_place}, isTyped);
}

bool UnitsPage::holdsUnit() const {
    return m_isKeeping || !m_serial->text().trimmed().isEmpty();
}

// A unit that is not enrolled yet is not lost to the next one that is scanned.
bool UnitsPage::takeScan(const QString& text) {
    if (m_isKeeping) return false;
    auto* field = m_asset->hasFocus() ? m_asset : m_serial;
    if (!field->text().isEmpty() && field->text() != text) {
        Q_EMIT troubled(tr("Read %1, but %2 is not enrolled yet. Enrol it first, or empty the "
                           "field and scan again.")
                            .arg(text, field->text()));
        return true;
    }
    field->setText(text);
    (field == m_serial ? m_model : m_place)->setFocus();
    return true;
}

void UnitsPage::addPress(QWidget& row, Presses& presses, const std::string& key,
                         const std::string& label) {
    auto* press = new WrappedButton(buttonText(label));
    press->setCheckable(true);
    row.layout()->addWidget(press);
    presses.emplace_back(key, press);
    connect(press, &QPushButton::clicked, this, [this] { Q_EMIT troubled({}); });
}

// In the order in which they are seen; presses that came later would come last.
void UnitsPage::putInTabOrder() {
    QWidget* before = m_model;
    const auto follow = [&before](QWidget* next) {
        setTabOrder(before, next);
        before = next;
    };
    for (auto* press : m_models->findChildren<QPushButton*>()) follow(press);
    for (const auto* presses : {&m_groupPresses, &m_featurePresses})
        for (const auto& [key, press] : *presses) follow(press);
    for (auto* each : std::initializer_list<QWidget*>{m_asset, m_place, m_commissioned, m_add,
                                                      m_list})
        follow(each);
}

// Those of the edition in force; what is pressed stays pressed. Which checks a unit has to pass
// depends on its features: they are asked for wherever the edition looks at one.
void UnitsPage::showChoices() {
    const auto& fleet = m_tools.workplace.fleet();
    if (!fleet) return;
    m_models->show(*fleet);
    if (m_groupPresses.empty()) showEdition(*fleet);
    putInTabOrder();
}

void UnitsPage::showEdition(const FleetView& fleet) {
    m_add->setEnabled(true);
    m_commissioned->setText(shownText(logbook::toText(today())));
    const auto& words = m_tools.workplace.words();
    const auto context = fleet.board.context(words);
    const auto& rulebook = *fleet.board.state.rulebook;
    for (const auto& group : rulebook.groups)
        addPress(*m_groups, m_groupPresses, group.key, words::groupLabel(context, group.key));
    if (rulebook.groups.size() == 1) m_groupPresses.front().second->setChecked(true);
    const auto features = rules::featuresOf(rulebook);
    if (features.empty()) return;
    for (const auto& feature : features)
        addPress(*m_features, m_featurePresses, feature, words::featureLabel(context, feature));
    m_featuresHead->show();
    m_features->show();
}

// On to what comes next.
void UnitsPage::takeModel(const QString& model) {
    m_model->setText(model);
    if (!m_groupPresses.empty()) m_groupPresses.front().second->setFocus();
}

std::vector<std::string> UnitsPage::pressedOf(const Presses& presses) {
    std::vector<std::string> keys;
    for (const auto& [key, press] : presses)
        if (press->isChecked()) keys.push_back(key);
    std::sort(keys.begin(), keys.end());
    return keys;
}

QString UnitsPage::lacking() {
    if (m_serial->text().trimmed().isEmpty()) {
        m_serial->setFocus();
        return tr("The unit has no serial number yet. Scan it, or type what stands on its plate.");
    }
    if (m_model->text().trimmed().isEmpty()) {
        m_model->setFocus();
        return tr("The unit's model is not told yet. Type it.");
    }
    if (pressedOf(m_groupPresses).empty()) {
        m_groupPresses.front().second->setFocus();
        return tr("No group is chosen yet. Press each one for which the unit may be used.");
    }
    if (const auto since = typedDay(m_commissioned->text()); since && *since <= today()) return {};
    m_commissioned->setFocus();
    return tr("Since when the unit is in service is no day, or one to come. Type it as "
              "2026-11-28.");
}

// By the department's clock on the wall.
logbook::Day UnitsPage::today() const {
    const auto& rulebook = *m_tools.workplace.fleet()->board.state.rulebook;
    return rulebook.zone->dayOf(m_tools.workplace.clock().now());
}

void UnitsPage::add() {
    if (const auto text = lacking(); !text.isEmpty()) {
        Q_EMIT troubled(text);
        return;
    }
    m_tools.workplace.asWriter(true, this,
                               [this](const station::Writer& writer) { addBy(writer); });
}

void UnitsPage::addBy(const station::Writer& writer) {
    const auto since = typedDay(m_commissioned->text());
    if (!since) return;
    station::NewUnit unit{plainText(m_serial->text().trimmed())};
    unit.unit.model = plainText(m_model->text().trimmed());
    unit.unit.groups = pressedOf(m_groupPresses);
    unit.unit.features = pressedOf(m_featurePresses);
    unit.unit.asset = statedIn(*m_asset);
    unit.unit.location = statedIn(*m_place);
    unit.unit.commissioned = *since;
    enrol(writer, unit);
}

// What somebody pressed is enrolled by them or not at all.
bool UnitsPage::isStillThere(const station::Writer& writer, const QString& serial) {
    if (writer.who == m_tools.workplace.whoIsHere()) return true;
    refuse(tr("%1 was not enrolled: whoever pressed it is not signed in any more.").arg(serial));
    return false;
}

void UnitsPage::setKeeping(bool isKeeping) {
    if (m_isKeeping == isKeeping) return;
    m_isKeeping = isKeeping;
    for (auto* each :
         std::initializer_list<QWidget*>{m_serial, m_model, m_models, m_groups, m_features,
                                         m_asset, m_place, m_commissioned, m_add, m_list})
        each->setEnabled(!isKeeping);
    Q_EMIT keepingChanged(isKeeping);
}

void UnitsPage::refuse(const QString& text) {
    setKeeping(false);
    if (isVisible()) m_add->setFocus();
    Q_EMIT troubled(text);
}

void UnitsPage::enrol(const station::Writer& writer, const station::NewUnit& unit) {
    setKeeping(true);
    m_tools.workplace.write(
        [unit, writer](const auto& surroundings, const auto& file) {
            return station::enrolUnit(surroundings, file, writer, unit);
        },
        this,
        [this, writer, unit](const station::Result<station::Written>& written) {
            if (!written) {
                askAboutNames(writer, unit, written.error());
                return;
            }
            setKeeping(false);
            tellAdded({shownText(unit.serial)});
            m_serial->clear();
            m_asset->clear();
            m_serial->setFocus();
        });
}

// Where nothing speaks against it but a text that looks like a patient's name, the person says.
void UnitsPage::askAboutNames(const station::Writer& writer, const station::NewUnit& unit,
                              const station::Problem& refused) {
    const auto text = problemText(refused);
    auto looked = unit;
    looked.namesNoPatient = true;
    m_tools.workplace.read(
        [looked](const auto& surroundings, const auto& file) {
            return station::lookOver(surroundings, file, looked);
        },
        this,
        [this, writer, looked, text, isAsked = refused.code == "fleet.bad_unit" &&
                                                !unit.namesNoPatient](const auto& reasons) {
            const auto serial = shownText(looked.serial);
            if (!isAsked || !reasons || !reasons->empty()) {
                refuse(text);
                return;
            }
            if (!isStillThere(writer, serial)) return;
            m_tools.workplace.ask(
                {text, tr("It names no patient: enrol it"), tr("Back")},
                [self = QPointer<UnitsPage>(this), writer, looked, serial](bool isYes) {
                    if (!self) return;
                    if (!isYes) {
                        self->setKeeping(false);
                    } else if (self->isStillThere(writer, serial)) {
                        self->enrol(writer, looked);
                    }
                });
        });
}

void UnitsPage::tellAdded(const QStringList& serials) {
    if (m_first.isEmpty() && !serials.isEmpty()) m_first = serials.front();
    m_count += static_cast<int>(serials.size());
    m_told->setText(serials.size() == 1
                        ? tr("%1 is enrolled. Units so far: %2. Scan the next one, or go on.")
                              .arg(serials.front())
                              .arg(m_count)
                        : tr("Enrolled from the list: %1. Units so far: %2.")
                              .arg(serials.size())
                              .arg(m_count));
    Q_EMIT troubled({});
    Q_EMIT changed();
    showTold();
}

// That it was enrolled is seen, wherever the page was scrolled to; once everything has its place.
void UnitsPage::showTold() {
    QTimer::singleShot(std::chrono::milliseconds(100), this, [this] {
        for (auto* around = parentWidget(); around != nullptr; around = around->parentWidget())
            if (auto* scroll = qobject_cast<QScrollArea*>(around))
                scroll->ensureWidgetVisible(m_told);
    });
}

QString UnitsPage::fault() {
    if (const auto typed = m_serial->text().trimmed(); m_count > 0 && !typed.isEmpty()) {
        m_serial->setFocus();
        return tr("%1 is typed and not enrolled yet. Enrol it, or empty the field.").arg(typed);
    }
    return m_count == 0 ? tr("No unit is enrolled yet. Enrol one, or finish without.") : QString();
}

}  // namespace desktop
