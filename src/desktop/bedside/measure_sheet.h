// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The values of one attempt at a check, one after another, typed on keys that gloved fingers hit or
// on the keyboard. A value out of limits is said to be so before it is kept. Keeps nothing itself.
#pragma once

#include "desktop/shell/sheet.h"
#include "report/bedside_acts.h"
#include "station/bedside.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;

namespace desktop {

class WrapLayout;
class Keypad;
class WrappedButton;
class Workplace;

// How the attempt at a check ended.
enum class Ending {
    Pass,
    NotSo,  // carried out, but some conditions did not hold
    Fail,
};

struct MeasuresAsked {
    QString title;  // unit and check
    report::CheckToLog check;
    Ending ending = Ending::Pass;
    std::optional<std::vector<std::string>> notSo{};  // the conditions; none: nobody was asked
};

// As far as it was typed, also if it is no number yet.
struct TypedText {
    QString text;
    std::string unit;
    bool isAgreed = false;  // that it does not count, or is out of limits
};
using TypedTexts = std::map<std::string, TypedText>;  // by measure

class MeasureSheet : public Sheet {
    Q_OBJECT
public:
    MeasureSheet(Workplace& workplace, MeasuresAsked asked, TypedTexts typed = {},
                 QWidget* parent = nullptr);

    [[nodiscard]] const MeasuresAsked& asked() const { return m_asked; }
    [[nodiscard]] const TypedTexts& typed() const { return m_typed; }
    [[nodiscard]] std::vector<station::TypedMeasure> measures() const;

    // Somebody agreed that by a value the attempt does not count.
    [[nodiscard]] bool isKnownUncounted() const;

    // The check as it is now: its limits may have changed. What is typed stays.
    void renew(const report::CheckToLog& check);
    // While it is being kept nothing can be pressed; afterwards, if it was refused, everything is
    // as it was, with the reason.
    void setKeeping(bool isKeeping);
    void say(const QString& text);

    bool takeScan(const QString& text) override;
    [[nodiscard]] bool isDraft() const override;
    using Sheet::close;

Q_SIGNALS:
    // All that is wanted is typed; the ending is a failure where a value says so.
    void finished(desktop::Ending ending);
    void codeRead(const QString& text);

private:
    using Judgement = report::MeasureJudgement;

    void makeField();
    void makeFeet();
    void showMeasure(std::size_t index);
    void showLimits();
    void showUnits(const report::AskedMeasure& measure);
    void showFeet();
    void take(const QString& text);  // from the field
    void chooseUnit(const std::string& unit);
    void goBack();
    void goOn();
    void finish();
    void agree();
    bool isSettled(std::size_t index);  // says why, if it is not
    void askAbout(const Judgement& judged);
    [[nodiscard]] Ending ending() const;
    [[nodiscard]] const report::AskedMeasure& measure() const;
    [[nodiscard]] TypedText& typedOf(const report::AskedMeasure& measure);
    [[nodiscard]] bool isLastWanted() const;
    [[nodiscard]] Judgement judged(const report::AskedMeasure& measure) const;

    Workplace& m_workplace;
    MeasuresAsked m_asked;
    TypedTexts m_typed;
    bool m_showsAllUnits = false;  // not only those that are used here
    std::size_t m_index = 0;
    bool m_isKeeping = false;
    std::optional<Judgement::Standing> m_inDoubt;  // of the value shown, while it is asked about
    QLabel* m_place = nullptr;
    QLabel* m_label = nullptr;
    QLabel* m_limits = nullptr;
    QLabel* m_said = nullptr;
    QLineEdit* m_field = nullptr;
    QWidget* m_units = nullptr;
    Keypad* m_keys = nullptr;
    WrappedButton* m_back = nullptr;
    WrappedButton* m_next = nullptr;
    WrappedButton* m_again = nullptr;
    WrappedButton* m_agree = nullptr;
    WrappedButton* m_main = nullptr;
};

}  // namespace desktop
