// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see act_sheet.h.
#include "desktop/bedside/acts/act_sheet.h"

#include "desktop/bedside/acts/choice_field.h"
#include "desktop/bedside/keeping.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "station/doubts.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

ActScene sceneOf(const PanelTools& tools, const UnitView& unit) {
    const auto& workplace = tools.desk.workplace;
    return {unit, workplace.words(), workplace.clock().now(), workplace.place()};
}

}  // namespace

ActSheet::ActSheet(const PanelTools& tools, SharedUnitView unit, MakeForm makeForm,
                   QWidget* parent)
    : Sheet(makeForm(sceneOf(tools, *unit)).title, parent),
      m_tools(tools),
      m_unit(std::move(unit)),
      m_makeForm(std::move(makeForm)),
      m_form(m_makeForm(sceneOf(tools, *m_unit))) {
    m_before = new QWidget;
    m_before->setFocusPolicy(Qt::TabFocus);
    m_before->hide();
    content()->addWidget(m_before);
    addAsked();
    m_strip = new EntryStrip(m_tools.desk);
    m_strip->continueFrom(m_tools.strip);
    m_begunWith = m_strip->choice();
    m_strip->askWhenBack(*this);
    content()->addWidget(m_strip);
    content()->addStretch();
    addFoot();
    connect(&workplace(), &Workplace::fleetChanged, this, [this] {
        if (!m_isKeeping && isVisible()) readUnit({});
        endReading();
    });
    connect(&workplace(), &Workplace::troubled, this, &ActSheet::endReading);
    // What a kind of sheet objects to is asked once that is there.
    QMetaObject::invokeMethod(this, &ActSheet::showAnswers, Qt::QueuedConnection);
    m_keep->setEnabled(false);
}

void ActSheet::addAsked() {
    m_asked = new QWidget;
    auto* layout = new QVBoxLayout(m_asked);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    layout->addWidget(textLabel(unitLine(m_unit->bedside.identity), TextRole::Strong));
    // With large text what is chosen from is in sight first.
    if (!isTextLarge()) addTold();
    addFields();
    if (isTextLarge()) addTold();
    content()->insertWidget(1, m_asked);
    auto* before = m_before;
    for (auto* each : m_asked->findChildren<QWidget*>()) {
        if ((each->focusPolicy() & Qt::TabFocus) == 0) continue;
        setTabOrder(before, each);
        before = each;
    }
}

void ActSheet::addTold() {
    for (const auto& line : m_form.told)
        if (!line.isEmpty()) m_asked->layout()->addWidget(textLabel(line));
}

void ActSheet::addFields() {
    for (const auto& field : m_form.fields) {
        auto* widget = new ActFieldWidget(field);
        m_asked->layout()->addWidget(widget);
        connect(widget, &ActFieldWidget::changed, this, [this] {
            m_isTouched = true;
            showAnswers();
        });
        m_fields.push_back(widget);
        if (widget->line() != nullptr && focusProxy() == nullptr) setFocusProxy(widget->line());
    }
}

bool ActSheet::isDraft() const {
    const auto& choice = m_strip->choice();
    return m_isKeeping || m_isTouched || choice.at != m_begunWith.at ||
           choice.doneBy != m_begunWith.doneBy;
}

void ActSheet::comeBack() {
    readUnit({});
}

// The unit by the fleet as it was last read; `then` also where it cannot be read.
void ActSheet::readUnit(std::function<void()> then) {
    const auto fleet = workplace().fleet();
    if (!fleet) {
        if (then) then();
        return;
    }
    workplace().read(
        [fleet, device = m_unit->bedside.identity.device](const auto& surroundings,
                                                          const auto& file) {
            return readUnitView(fleet, surroundings, file, device);
        },
        this,
        [this, then = std::move(then)](const station::Result<SharedUnitView>& unit) {
            const bool isOther = unit && takeUnit(*unit);
            if (isOther && m_isWaiting) {
                lookAgain();
            } else if (then) {
                then();
            }
        });
}

namespace {

// Whether they tell and ask the same, whatever was answered.
bool isAlike(const ActForm& form, const ActForm& other) {
    const auto isSameChoice = [](const ActChoice& a, const ActChoice& b) {
        return a.value == b.value && a.label == b.label && a.note == b.note;
    };
    const auto isSameField = [&](const ActField& a, const ActField& b) {
        return a.key == b.key && a.label == b.label && a.isWanted == b.isWanted &&
               std::ranges::equal(a.choices, b.choices, isSameChoice);
    };
    return form.use == other.use && form.told == other.told &&
           std::ranges::equal(form.fields, other.fields, isSameField);
}

}  // namespace

// Whether the form is another by it. While it is being kept nothing is changed.
bool ActSheet::takeUnit(const SharedUnitView& unit) {
    if (m_isKeeping && !m_isWaiting) return false;
    auto form = m_makeForm(sceneOf(m_tools, *unit));
    if (!isAlike(form, m_form)) {
        renew(unit, std::move(form));
        return true;
    }
    m_unit = unit;
    m_form = std::move(form);
    showAnswers();
    return false;
}

// What was answered stays, unless it is not to be chosen any more.
void ActSheet::renew(const SharedUnitView& unit, ActForm form) {
    const auto given = answers();
    const bool hadFocus = m_asked->isAncestorOf(focusWidget()) || hasFocus();
    m_unit = unit;
    m_form = std::move(form);
    for (auto& field : m_form.fields) field.value = answer(given, field.key);
    m_fields.clear();
    setFocusProxy(nullptr);
    m_asked->hide();
    m_asked->deleteLater();
    addAsked();
    for (auto* widget : m_fields) {
        if (auto* line = widget->line()) line->setModified(!line->text().isEmpty());
        widget->setEnabled(!m_isKeeping);
    }
    if (hadFocus && focusProxy() != nullptr) focusProxy()->setFocus();
    showAnswers();
}

void ActSheet::addFoot() {
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why it was not kept"));
    m_trouble->hide();
    auto* back = new WrappedButton(tr("Back, keep nothing"));
    m_keep = new WrappedButton;
    m_keep->setMain(true);
    m_remark = textLabel({}, TextRole::Strong);
    m_hint = textLabel({}, TextRole::Strong);
    for (auto* each : {m_remark, m_hint}) each->hide();
    overFoot()->addWidget(m_remark);
    overFoot()->addWidget(m_hint);
    overFoot()->addWidget(m_trouble);
    foot()->addWidget(back);
    foot()->addWidget(m_keep);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_keep, &QPushButton::clicked, this, &ActSheet::keep);
}

Answers ActSheet::answers() const {
    Answers answers;
    for (const auto* widget : m_fields)
        if (auto value = widget->value(); !value.empty())
            answers.emplace(widget->field().key, std::move(value));
    return answers;
}

void ActSheet::showAnswers() {
    if (m_isKeeping) return;
    const auto given = answers();
    m_hint->hide();
    const auto known = remark(given);
    m_remark->setText(known);
    m_remark->setVisible(!known.isEmpty());
    for (const auto* widget : m_fields) {
        const auto& field = widget->field();
        if (!field.isWanted || given.contains(field.key)) continue;
        auto label = field.label;
        m_keep->setText(tr("First: %1").arg(label.remove(QLatin1Char('&'))));
        m_keep->setEnabled(false);
        return;
    }
    const auto wrong = objection(given);
    m_keep->setText(wrong.isEmpty() ? m_form.says(given) : wrong);
    m_keep->setEnabled(wrong.isEmpty());
    if (wrong.isEmpty()) showHint(given);
}

void ActSheet::showHint(const Answers& given) {
    std::vector<station::Entry> entries;
    for (auto& act : actsOf(given))
        entries.push_back({station::Writer(""), act.kind, {}, std::move(act.body)});
    const auto hint = station::patientHint(workplace().words(), entries);
    m_hint->setText(shownText(hint));
    m_hint->setVisible(!hint.empty());
}

std::vector<station::Act> ActSheet::actsOf(const Answers& given) const {
    return m_form.acts(given);
}

QString ActSheet::objection(const Answers&) const {
    return {};
}

QString ActSheet::remark(const Answers&) const {
    return {};
}

void ActSheet::keepAll(const Answers& given, Workplace::TakeKept taken) {
    keepActs({m_tools.desk, *m_strip},
             {m_unit->bedside.identity.device, actsOf(given), {},
              m_form.isUrgent ? std::optional(m_pressed) : std::nullopt},
             this, std::move(taken));
}

void ActSheet::setField(const std::string& key, const QString& text) {
    for (auto* widget : m_fields)
        if (widget->field().key == key) widget->setText(text);
}

// What is on the button is what is kept: until it is told what came of it nothing can be changed.
void ActSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    setHeld(isKeeping);
    for (auto* widget : m_fields) widget->setEnabled(!isKeeping);
    m_strip->setEnabled(!isKeeping);
    m_keep->setEnabled(false);
    if (!isKeeping) showAnswers();
}

// What the form says and asks by the log as it is now is what is agreed to: it is looked up again.
void ActSheet::keep() {
    if (!objection(answers()).isEmpty()) {
        showAnswers();
        return;
    }
    m_trouble->hide();
    m_presser = workplace().whoIsHere();
    m_pressed = workplace().clock().now();
    setKeeping(true);
    m_isWaiting = true;
    if (m_form.isUrgent) {
        keepPressed();
        return;
    }
    // A reading that is under way began before the press.
    m_readings = workplace().isReading() ? 2 : 1;
    workplace().refresh();
}

// Of those that the press waits for.
void ActSheet::endReading() {
    if (m_readings == 0 || --m_readings > 0) return;
    readUnit([this] { keepPressed(); });
}

// Once for each press.
void ActSheet::keepPressed() {
    if (!std::exchange(m_isWaiting, false)) return;
    if (!isStillTheirs(workplace(), m_unit->bedside.identity.device, m_presser) ||
        !objection(answers()).isEmpty()) {
        setKeeping(false);
        return;
    }
    keepAll(answers(), [this](const Workplace::Kept& kept) { take(kept); });
}

void ActSheet::lookAgain() {
    m_isWaiting = false;
    setKeeping(false);
    sayTrouble(tr("Not kept yet: by the log this unit stands otherwise than when this was opened. "
                  "Look at it again, then press."));
}

// What stands until it is kept needs no sheet any more.
void ActSheet::take(const Workplace::Kept& kept) {
    if (kept.isAll() || kept.isStanding) {
        m_strip->endAt(m_tools.strip);
        Q_EMIT this->kept();
        close();
        return;
    }
    setKeeping(false);
    if (kept.refused) sayTrouble(problemText(*kept.refused));
}

void ActSheet::sayTrouble(const QString& text) {
    m_trouble->setText(text);
    m_trouble->show();
}

bool ActSheet::takeScan(const QString& text) {
    if (isUnitCode(*m_unit->fleet, text)) {
        Q_EMIT codeRead(text);
        return true;
    }
    for (auto* widget : m_fields) {
        const auto* line = widget->line();
        if (line == nullptr || !line->hasFocus()) continue;
        // What somebody typed stays.
        if (line->isModified() && !line->text().isEmpty()) return false;
        widget->setText(text.trimmed());
        return true;
    }
    return false;
}

}  // namespace desktop
