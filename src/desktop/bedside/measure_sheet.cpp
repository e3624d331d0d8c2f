// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The values; see measure_sheet.h.
#include "desktop/bedside/measure_sheet.h"

#include "desktop/bedside/keypad.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "logbook/unit.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QRegularExpressionValidator>
#include <QTimer>
#include <algorithm>
#include <chrono>

namespace desktop {

namespace {

// No question is read faster.
constexpr std::chrono::milliseconds unreadFor{700};

using report::AskedMeasure;
using Standing = report::MeasureJudgement::Standing;

// In which it is typed at this station if nobody says otherwise.
std::string usualUnit(const Workplace::Units& units, const AskedMeasure& measure) {
    for (const auto& [dimension, unit] : units)
        if (logbook::convert(1, unit, measure.unit)) return unit;
    return measure.unit;
}

}  // namespace

MeasureSheet::MeasureSheet(Workplace& workplace, MeasuresAsked asked, TypedTexts typed,
                           QWidget* parent)
    : Sheet(asked.title, parent),
      m_workplace(workplace),
      m_asked(std::move(asked)),
      m_typed(std::move(typed)) {
    makeField();
    makeFeet();
    setFocusProxy(m_field);
    showMeasure(0);
    m_field->selectAll();  // what was left from before is typed over
}

void MeasureSheet::makeField() {
    m_place = textLabel({}, TextRole::Quiet);
    m_label = textLabel({}, TextRole::Large);
    m_limits = textLabel({}, TextRole::Plain);
    m_said = textLabel({}, TextRole::Strong);
    m_said->hide();
    m_field = new QLineEdit;
    m_field->setFont(fontFor(TextRole::Title));
    m_field->setMaxLength(20);
    static const QRegularExpression letters(QStringLiteral("[-+0-9.,]*"));
    m_field->setValidator(new QRegularExpressionValidator(letters, m_field));
    m_units = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, m_units);
    m_keys = new Keypad(m_field, QLocale().decimalPoint().at(0));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(2 * targetGap);
    grid->setVerticalSpacing(8);
    int row = 0;
    overFoot()->addWidget(m_said);
    for (auto* each : std::initializer_list<QWidget*>{m_place, m_label, m_limits, m_field, m_units})
        grid->addWidget(each, row++, 0);
    grid->setRowStretch(row, 1);
    grid->setColumnStretch(0, 1);
    grid->addWidget(m_keys, 0, 1, row + 1, 1, Qt::AlignTop);
    content()->addLayout(grid);
    content()->addStretch();
    connect(m_field, &QLineEdit::textChanged, this, &MeasureSheet::take);
    connect(m_field, &QLineEdit::returnPressed, this, [this] {
        if (m_next->isVisible()) goOn();
        if (m_main->isVisible()) m_main->setFocus();
    });
}

void MeasureSheet::makeFeet() {
    auto* feet = foot();
    const auto add = [&](const QString& text, void (MeasureSheet::*pressed)()) {
        auto* button = new WrappedButton(text);
        feet->addWidget(button);
        connect(button, &QPushButton::clicked, this, pressed);
        return button;
    };
    m_back = add(tr("Back"), &MeasureSheet::goBack);
    m_again = add(tr("Type it again"), &MeasureSheet::goBack);
    m_next = add({}, &MeasureSheet::goOn);
    m_agree = add({}, &MeasureSheet::agree);
    m_main = add({}, &MeasureSheet::finish);
    m_main->setMain(true);
}

const AskedMeasure& MeasureSheet::measure() const {
    return m_asked.check.measures[m_index];
}

TypedText& MeasureSheet::typedOf(const AskedMeasure& measure) {
    auto& typed = m_typed[measure.key];
    if (typed.unit.empty()) typed.unit = usualUnit(m_workplace.units(), measure);
    return typed;
}

// A failure too where a value says so, and that was agreed to.
Ending MeasureSheet::ending() const {
    const auto saysSo = [this](const AskedMeasure& each) {
        const auto typed = m_typed.find(each.key);
        return typed != m_typed.end() && typed->second.isAgreed &&
               judged(each).standing == Standing::Fails;
    };
    return m_asked.ending == Ending::Pass && std::ranges::any_of(m_asked.check.measures, saysSo)
               ? Ending::Fail
               : m_asked.ending;
}

std::vector<station::TypedMeasure> MeasureSheet::measures() const {
    std::vector<station::TypedMeasure> measures;
    for (const auto& [key, typed] : m_typed)
        if (const auto value = report::typedNumber(plainText(typed.text)))
            measures.push_back({key, *value, typed.unit});
    return measures;
}

void MeasureSheet::renew(const report::CheckToLog& check) {
    if (check.measures.size() != m_asked.check.measures.size()) return;
    const auto before = std::exchange(m_asked.check, check);
    for (std::size_t i = 0; i < check.measures.size(); ++i) {
        auto& typed = typedOf(check.measures[i]);
        if (!typed.isAgreed) continue;
        // It was agreed to something else.
        const auto was = judged(before.measures[i]), is = judged(check.measures[i]);
        typed.isAgreed = was.standing == is.standing && was.sentence == is.sentence;
    }
    if (m_inDoubt && judged(measure()).standing != *m_inDoubt) {
        m_inDoubt.reset();
        m_said->hide();
    }
    showLimits();
    showFeet();
}

void MeasureSheet::showMeasure(std::size_t index) {
    m_showsAllUnits = m_showsAllUnits && index == m_index;
    m_index = index;
    m_inDoubt.reset();
    const auto& asked = measure();
    const auto count = m_asked.check.measures.size();
    m_place->setText(tr("Value %1 of %2").arg(index + 1).arg(count));
    m_place->setVisible(count > 1);
    m_label->setText(shownText(asked.label));
    m_field->setAccessibleName(m_label->text());
    showLimits();
    if (m_field->text() != typedOf(asked).text) m_field->setText(typedOf(asked).text);
    m_keys->offerMinus(report::mayBeNegative(asked));
    m_said->hide();
    showUnits(asked);
    showFeet();
    m_field->setFocus();
    m_field->deselect();  // it may have come from a button that is gone
}

// The sheet may lie under another: the focus is left where it is.
void MeasureSheet::showLimits() {
    const auto& asked = measure();
    QStringList limits;
    if (!asked.limits.empty()) limits << shownText(asked.limits);
    const auto& unit = typedOf(asked).unit;
    if (const auto same = report::limitsIn(m_workplace.words(), asked, unit);
        unit != asked.unit && !same.empty())
        limits << shownText(same);
    if (!asked.required || ending() != Ending::Pass) limits << tr("may be left out");
    m_limits->setText(limits.join(QStringLiteral(" · ")));
    m_limits->setVisible(!limits.isEmpty());
    m_field->setAccessibleDescription(m_limits->text());
}

// Those that the department and the edition use; the others of the dimension once they are wanted.
void MeasureSheet::showUnits(const AskedMeasure& measure) {
    auto* flow = m_units->layout();
    while (auto* item = flow->takeAt(0)) {
        item->widget()->deleteLater();
        item->widget()->hide();
        delete item;
    }
    const auto usual = usualUnit(m_workplace.units(), measure);
    const auto all = report::unitsFor(measure, usual);
    const auto isUsual = [&](const std::string& unit) {
        return unit == usual || unit == measure.unit || unit == typedOf(measure).unit;
    };
    for (const auto& unit : all) {
        if (!m_showsAllUnits && !isUsual(unit)) continue;
        auto* button = new QPushButton(shownText(unit));
        button->setCheckable(true);
        button->setAutoExclusive(true);
        button->setChecked(unit == typedOf(measure).unit);
        button->setAccessibleName(tr("In %1").arg(button->text()));
        connect(button, &QPushButton::clicked, this, [this, unit] { chooseUnit(unit); });
        flow->addWidget(button);
    }
    if (m_showsAllUnits || std::ranges::all_of(all, isUsual)) return;
    auto* another = new QPushButton(tr("Another unit"));
    another->setProperty("quiet", true);
    connect(another, &QPushButton::clicked, this, [this] {
        m_showsAllUnits = true;
        showUnits(this->measure());
        m_field->setFocus();
    });
    flow->addWidget(another);
}

// The last one that has to be typed is shown, or one after it.
bool MeasureSheet::isLastWanted() const {
    if (ending() != Ending::Pass) return true;
    const auto& measures = m_asked.check.measures;
    return std::none_of(measures.begin() + static_cast<std::ptrdiff_t>(m_index) + 1,
                        measures.end(), [](const auto& each) { return each.required; });
}

void MeasureSheet::showFeet() {
    const auto& check = m_asked.check;
    const bool hasNext = m_index + 1 < check.measures.size();
    m_back->setVisible(!m_inDoubt);
    m_again->setVisible(m_inDoubt.has_value());
    m_agree->setVisible(m_inDoubt.has_value());
    m_agree->setText(m_inDoubt == Standing::Fails ? tr("Keep it as failed")
                                                  : tr("Keep it all the same"));
    m_next->setVisible(!m_inDoubt && hasNext);
    if (hasNext) m_next->setText(tr("Next: %1").arg(buttonText(check.measures[m_index + 1].label)));
    m_main->setVisible(!m_inDoubt && isLastWanted());
    m_main->setText(ending() == Ending::Pass
                        ? buttonText(check.asserts)
                        : (ending() == Ending::Fail ? buttonText(check.failed)
                                                    : tr("Keep it; it does not count")));
}

void MeasureSheet::take(const QString& text) {
    auto& typed = typedOf(measure());
    if (typed.text == text) return;
    typed.text = text;
    typed.isAgreed = false;
    if (m_inDoubt) showMeasure(m_index);
    m_said->hide();
}

void MeasureSheet::chooseUnit(const std::string& unit) {
    auto& typed = typedOf(measure());
    typed.unit = unit;
    typed.isAgreed = false;
    showMeasure(m_index);
}

void MeasureSheet::goBack() {
    if (m_inDoubt) {
        showMeasure(m_index);
        m_field->selectAll();
    } else if (m_index > 0) {
        showMeasure(m_index - 1);
    } else {
        callOff();
    }
}

MeasureSheet::Judgement MeasureSheet::judged(const AskedMeasure& asked) const {
    const auto typed = m_typed.find(asked.key);
    const auto value = typed == m_typed.end() ? std::nullopt
                                              : report::typedNumber(plainText(typed->second.text));
    return value ? report::judge(m_workplace.words(), asked, *value, typed->second.unit)
                 : Judgement{Standing::NotANumber};
}

bool MeasureSheet::isSettled(std::size_t index) {
    const auto& asked = m_asked.check.measures[index];
    const auto& typed = typedOf(asked);
    if (typed.text.isEmpty() && (!asked.required || ending() != Ending::Pass)) return true;
    const auto judged = this->judged(asked);
    if (judged.standing == Standing::Within || typed.isAgreed) return true;
    if (judged.standing == Standing::Fails && ending() == Ending::Fail && !judged.isImpossible)
        return true;
    if (index != m_index) showMeasure(index);
    if (typed.text.isEmpty()) {
        say(tr("%1 is wanted. Type it first.").arg(shownText(asked.label)));
    } else if (judged.standing == Standing::NotANumber) {
        say(tr("%1 is no number. Type it again.").arg(typed.text));
    } else if (judged.standing == Standing::OtherDimension) {
        say(shownText(judged.sentence));
    } else {
        askAbout(judged);
    }
    return false;
}

void MeasureSheet::askAbout(const Judgement& judged) {
    m_inDoubt = judged.standing;
    say(shownText(judged.sentence));
    showFeet();
    // It lies where the press was that led here: the second half of a double press answers nothing.
    m_agree->setEnabled(false);
    QTimer::singleShot(unreadFor, this, [this] { m_agree->setEnabled(!m_field->isReadOnly()); });
}

void MeasureSheet::goOn() {
    if (isSettled(m_index)) showMeasure(m_index + 1);
}

void MeasureSheet::finish() {
    for (std::size_t i = 0; i < m_asked.check.measures.size(); ++i)
        if (!isSettled(i)) return;
    Q_EMIT finished(ending());
}

bool MeasureSheet::isKnownUncounted() const {
    return std::ranges::any_of(m_asked.check.measures, [this](const AskedMeasure& each) {
        const auto typed = m_typed.find(each.key);
        return typed != m_typed.end() && typed->second.isAgreed &&
               judged(each).standing == Standing::DoesNotCount;
    });
}

// With a failure the rest need not be typed; what is typed of it is a number, or asked about.
void MeasureSheet::agree() {
    typedOf(measure()).isAgreed = true;
    m_inDoubt.reset();
    if (isLastWanted()) {
        finish();
    } else {
        goOn();
    }
}

bool MeasureSheet::isDraft() const {
    return m_isKeeping || std::ranges::any_of(m_typed, [](const auto& each) {
        return !each.second.text.isEmpty();
    });
}

void MeasureSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    for (auto* each : {m_back, m_again, m_next, m_agree, m_main}) each->setEnabled(!isKeeping);
    m_field->setReadOnly(isKeeping);
    setHeld(isKeeping);
}

void MeasureSheet::say(const QString& text) {
    m_said->setText(text);
    m_said->show();
    bringUp(*m_field);
}

bool MeasureSheet::takeScan(const QString& text) {
    Q_EMIT codeRead(text);
    return true;
}

}  // namespace desktop
