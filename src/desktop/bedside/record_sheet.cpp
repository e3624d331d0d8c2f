// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An entry, and its correction; see record_sheet.h.
#include "desktop/bedside/record_sheet.h"

#include "desktop/bedside/keeping.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "station/bedside.h"
#include "station/units_log.h"
#include "words/shown.h"
#include "words/times.h"

#include <QFormLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

namespace {

QString titleOf(const CorrectionSheet::Wanted& wanted) {
    if (wanted.moves)
        return wanted.withBatch ? CorrectionSheet::tr("Move the session to another unit")
                                : CorrectionSheet::tr("Move this entry to another unit");
    return wanted.withBatch ? CorrectionSheet::tr("Strike the session through")
                            : CorrectionSheet::tr("Strike this entry through");
}

}  // namespace

RecordSheet::RecordSheet(DeskTools tools, ShownEntry entry, QWidget* parent)
    : Sheet(shownText(entry.line.says), parent), m_tools(tools), m_entry(std::move(entry)) {
    content()->addWidget(textLabel(m_entry.unit, TextRole::Strong));
    if (m_entry.line.struck)
        content()->addWidget(textLabel(shownText(m_entry.line.strike), TextRole::Strong));
    auto* form = new QFormLayout;
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    for (const auto& [label, text] : m_entry.line.details) {
        auto* value = textLabel(shownText(text));
        value->setTextInteractionFlags(Qt::TextSelectableByMouse);
        form->addRow(textLabel(shownText(label), TextRole::Quiet), value);
    }
    content()->addLayout(form);
    if (!m_entry.line.struck) addCorrections();
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
}

void RecordSheet::addCorrections() {
    addCorrection(tr("Strike it through …"), false, false);
    addCorrection(tr("It was another unit: move it …"), true, false);
    if (m_entry.line.inBatch < 2) return;
    const auto count = m_entry.line.inBatch;
    addCorrection(tr("Strike all %1 entries of this session through …").arg(count), false, true);
    addCorrection(tr("It was another unit: move all %1 entries of this session …").arg(count),
                  true, true);
}

void RecordSheet::addCorrection(const QString& says, bool moves, bool withBatch) {
    auto* button = new WrappedButton(says);
    connect(button, &QPushButton::clicked, this, [this, moves, withBatch] {
        auto& sheets = m_tools.sheets;
        auto* next = new CorrectionSheet(m_tools, {m_entry, moves, withBatch});
        close();
        sheets.put(next);
    });
    content()->addWidget(button);
}

CorrectionSheet::CorrectionSheet(DeskTools tools, Wanted wanted, QWidget* parent)
    : Sheet(titleOf(wanted), parent), m_tools(tools), m_wanted(std::move(wanted)) {
    content()->addWidget(textLabel(m_wanted.entry.unit, TextRole::Strong));
    m_entries = textLabel(shownText(m_wanted.entry.line.says), TextRole::Strong);
    content()->addWidget(m_entries);
    readEntries();
    if (m_wanted.moves) {
        addTarget();
    }
    addReasons();
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why nothing was changed"));
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back, change nothing"));
    m_keep = new WrappedButton(m_wanted.moves ? tr("Move it, and keep both to be read")
                                              : tr("Strike it through"));
    m_keep->setProperty("main", true);
    m_hasRead = !m_wanted.withBatch || !m_tools.workplace.fleet();
    showKeep();
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_keep, &QPushButton::clicked, this, &CorrectionSheet::correct);
    foot()->addWidget(back);
    foot()->addWidget(m_keep);
    setFocusProxy(m_unit != nullptr ? m_unit : m_reason);
}

// Of a session too each of them is seen before it is pressed away.
void CorrectionSheet::readEntries() {
    const auto fleet = m_tools.workplace.fleet();
    if (!fleet) return;
    const station::Correction asked{station::Writer(""), m_wanted.entry.line.record,
                                    m_wanted.withBatch};
    m_tools.workplace.read(
        [fleet, asked, moves = m_wanted.moves](const auto& surroundings, const auto& file) {
            return station::linesToCorrect(surroundings, file, *fleet->standing, asked, moves);
        },
        this, [this](const station::Result<std::vector<station::CorrectionLine>>& lines) {
            if (lines) {
                showEntries(*lines);
            } else {
                sayTrouble(problemText(lines.error()));
            }
        });
}

void CorrectionSheet::addTarget() {
    m_unit = new QLineEdit;
    m_unit->setAccessibleName(tr("Unit that was meant: scan it, or type its serial"));
    m_target = textLabel({}, TextRole::Strong);
    m_target->hide();
    content()->addWidget(textLabel(m_unit->accessibleName()));
    content()->addWidget(m_unit);
    content()->addWidget(m_target);
    connect(m_unit, &QLineEdit::textChanged, this, &CorrectionSheet::readTarget);
}

// An asset number will do as well.
void CorrectionSheet::readTarget() {
    m_device.clear();
    m_target->hide();
    const auto typed = m_unit->text().trimmed();
    const auto fleet = m_tools.workplace.fleet();
    m_isLooking = fleet && !typed.isEmpty();
    showKeep();
    if (!m_isLooking) return;
    m_tools.workplace.read(
        [fleet, text = plainText(typed)](const auto& surroundings, const auto& file) {
            const auto found = findNamed(*fleet, surroundings, file, text);
            const auto device = found.what == station::Found::What::Unit ? found.device : text;
            return std::pair(
                found.what,
                station::withLogOf(surroundings, file, *fleet->standing, device)
                    .and_then([&](const station::WholeStanding& standing) {
                        return station::bedside(surroundings, standing, device);
                    }));
        },
        this, [this, typed](const auto& found) {
            if (m_unit->text().trimmed() != typed) return;
            m_isLooking = false;
            showKeep();
            if (found.second) {
                showTarget(*found.second);
            } else {
                sayTarget(found.first == station::Found::What::Units
                              ? tr("Several units go by %1. Type the serial.").arg(typed)
                              : tr("No unit goes by %1.").arg(typed));
            }
        });
}

void CorrectionSheet::sayTarget(const QString& text) {
    m_target->setText(text);
    m_target->show();
}

// A serial alone does not show that it is the wrong unit.
void CorrectionSheet::showTarget(const report::Bedside& unit) {
    const auto& identity = unit.identity;
    QStringList parts;
    for (const auto* each : {&identity.serial, &identity.label, &identity.asset, &identity.model,
                             &identity.place})
        if (!each->empty()) parts << shownText(*each);
    QString use = tr("Not in use");
    if (identity.inUseSince) {
        const words::Times times(m_tools.workplace.words(), *unit.zone, unit.asked);
        use = tr("In use since %1").arg(shownText(times.time(*identity.inUseSince)));
    }
    const auto verdict = words::capitalized(identity.verdictText);
    sayTarget(parts.join(QStringLiteral(" · ")) + QLatin1Char('\n') + shownText(verdict) +
              QStringLiteral(". ") + use + QLatin1Char('.'));
    m_device = identity.device;
    showKeep();
}

void CorrectionSheet::showKeep() {
    if (m_keep == nullptr) return;
    m_keep->setEnabled(m_hasRead && !m_isLooking && !m_isKeeping);
    if (m_wanted.moves)
        m_keep->setText(m_device.empty()
                            ? tr("Move it, and keep both to be read")
                            : tr("Move it to %1, and keep both to be read")
                                  .arg(shownText(words::shown(m_device))));
}

void CorrectionSheet::showEntries(const std::vector<station::CorrectionLine>& lines) {
    m_hasRead = true;
    m_shown.clear();
    for (const auto& line : lines) m_shown.push_back(line.record);
    showKeep();
    if (lines.empty()) return;  // somebody has struck it through since
    QStringList shown;
    if (m_wanted.withBatch)
        shown << shownText(m_tools.workplace.words().say(
            m_wanted.moves ? "history.moves" : "history.strikes",
            {{"count", std::to_string(lines.size())}}));
    for (const auto& line : lines) shown << shownText(line.says);
    m_entries->setText(shown.join(QLatin1Char('\n')));
}

// What can be so of an entry that stands on another unit, and of one that does not stand at all.
QStringList CorrectionSheet::reasons() const {
    if (m_wanted.moves)
        return {tr("Wrong unit"), tr("The unit before was still open"), tr("Serial mistyped")};
    return {tr("Wrong unit"), tr("Entered twice"), tr("Typing error"), tr("It was not done")};
}

void CorrectionSheet::addReasons() {
    m_reason = new QLineEdit;
    m_reason->setAccessibleName(tr("Reason"));
    content()->addWidget(textLabel(tr("Reason: one of these, or in your words")));
    auto* grid = new QGridLayout;
    grid->setSpacing(targetGap);
    int count = 0;
    for (const auto& reason : reasons()) {
        auto* button = new WrappedButton(reason);
        connect(button, &QPushButton::clicked, this, [this, reason] {
            if (!m_isKeeping) m_reason->setText(reason);
        });
        grid->addWidget(button, count / 2, count % 2);
        ++count;
    }
    content()->addLayout(grid);
    content()->addWidget(m_reason);
}

bool CorrectionSheet::takeScan(const QString& text) {
    if (m_unit == nullptr || m_isKeeping) return false;
    if (!isUnitCode(*m_tools.workplace.fleet(), text)) return false;
    m_unit->setText(text.trimmed());
    return true;
}

bool CorrectionSheet::isDraft() const {
    return m_isKeeping || !m_reason->text().isEmpty() ||
           (m_unit != nullptr && !m_unit->text().isEmpty());
}

void CorrectionSheet::sayTrouble(const QString& text) {
    m_trouble->setText(text);
    m_trouble->show();
}

void CorrectionSheet::refuse(const QString& text, QWidget& lacking) {
    sayTrouble(text);
    bringUp(lacking);
}

// For whoever puts their name to it.
QString CorrectionSheet::whatIsCorrected() const {
    const auto act = m_unit == nullptr
                         ? tr("To be struck through:")
                         : tr("To be moved to %1:").arg(shownText(words::shown(m_device)));
    return act + QLatin1Char('\n') + m_wanted.entry.unit + QLatin1Char('\n') + m_entries->text();
}

void CorrectionSheet::correct() {
    if (m_isKeeping) return;
    if (m_reason->text().trimmed().isEmpty()) {
        refuse(tr("Nothing was changed. Say why first: press a reason or type one."), *m_reason);
        return;
    }
    if (m_unit != nullptr && m_device.empty()) {
        refuse(tr("Nothing was changed. Scan the unit that was meant first."), *m_unit);
        return;
    }
    m_presser = m_tools.workplace.whoIsHere();
    m_unit == nullptr ? sign() : askOfMove();
}

station::Correction CorrectionSheet::correctionBy(const station::Writer& writer) const {
    station::Correction correction{writer, m_wanted.entry.line.record, m_wanted.withBatch,
                                   plainText(m_reason->text().trimmed())};
    if (m_wanted.withBatch) correction.shown = m_shown;
    return correction;
}

// On the other unit they are what somebody would enter there now: asked is what that would be, and
// told what becomes of both units.
void CorrectionSheet::askOfMove() {
    const auto fleet = m_tools.workplace.fleet();
    if (!fleet) return;
    setKeeping(true);
    m_tools.workplace.read(
        [fleet, correction = correctionBy(station::Writer("")),
         device = m_device](const auto& surroundings, const auto& file) {
            return station::moveOutlook(surroundings, file, *fleet->standing, correction, device);
        },
        this, [this](const station::Result<station::MoveOutlook>& outlook) {
            setKeeping(false);
            if (!isStillTheirs(m_tools.workplace, m_device, m_presser)) return;
            outlook ? askOfHold(*outlook) : takeProblem(outlook.error());
        });
}

void CorrectionSheet::askOfHold(const station::MoveOutlook& outlook) {
    std::vector<station::Act> acts;
    for (const auto& entry : outlook.entries) acts.push_back({entry.kind, entry.body});
    auto& workplace = m_tools.workplace;
    askForHold(workplace, m_device, acts, this, [this, &workplace, outlook](bool isYes) {
        if (!isYes) return;
        askForEnd(workplace, outlook.entries, this, [this, told = outlook.told](bool isOver) {
            if (isOver) askOfOutlook(told);
        });
    });
}

void CorrectionSheet::askOfOutlook(const std::vector<std::string>& told) {
    if (told.empty()) {
        sign();
        return;
    }
    const auto device = shownText(words::shown(m_device));
    QStringList lines{tr("Moved to %1:").arg(device)};
    for (const auto& each : told) lines << shownText(each);
    m_tools.workplace.ask(
        {lines.join(QLatin1Char('\n')), tr("Move it to %1 all the same").arg(device),
         tr("Do not move it")},
        [self = QPointer<CorrectionSheet>(this)](bool isYes) {
            if (self && isYes &&
                isStillTheirs(self->m_tools.workplace, self->m_device, self->m_presser))
                self->sign();
        });
}

void CorrectionSheet::sign() {
    m_tools.workplace.asWriterAgain(
        whatIsCorrected(), this, [this](const station::Writer& writer) { correctBy(writer); });
}

void CorrectionSheet::correctBy(const station::Writer& writer) {
    const auto correction = correctionBy(writer);
    setKeeping(true);
    m_tools.workplace.write(
        [correction, unit = m_device](const auto& surroundings, const auto& file) {
            return unit.empty() ? station::strikeTogether(surroundings, file, correction)
                                : station::moveToUnit(surroundings, file, correction, unit);
        },
        this,
        [this](const station::Result<station::Corrected>& corrected) { take(corrected); });
}

void CorrectionSheet::setKeeping(bool isKeeping) {
    m_isKeeping = isKeeping;
    setHeld(isKeeping);
    for (auto* line : {m_unit, m_reason})
        if (line != nullptr) line->setReadOnly(isKeeping);
    showKeep();
}

void CorrectionSheet::takeProblem(const station::Problem& problem) {
    sayTrouble(problemText(problem));
    if (problem.code != "correction.not_shown") return;
    m_hasRead = false;
    showKeep();
    readEntries();
}

void CorrectionSheet::take(const station::Result<station::Corrected>& corrected) {
    setKeeping(false);
    if (!corrected) {
        takeProblem(corrected.error());
        return;
    }
    QStringList lines;
    lines << tr("Struck through: %1.").arg(corrected->struck.size());
    if (!corrected->reentered.empty())
        lines << tr("Moved to %1, entered anew there: %2.")
                     .arg(shownText(words::shown(corrected->device)))
                     .arg(corrected->reentered.size());
    for (const auto& line : corrected->warnings) lines << shownText(line);
    for (const auto& line : corrected->meaning) lines << shownText(line);
    Q_EMIT m_tools.workplace.told(lines.join('\n'));
    Q_EMIT this->corrected();
    close();
}

}  // namespace desktop
