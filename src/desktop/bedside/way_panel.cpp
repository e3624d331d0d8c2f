// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see way_panel.h.
#include "desktop/bedside/way_panel.h"

#include "desktop/bedside/record_sheet.h"
#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "words/record_words.h"
#include "words/times.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

namespace desktop {

namespace {

using report::BedsideRow;
using report::RowPart;
using Press = StepLogging::Press;

bool canBeLogged(const BedsideRow& row) {
    return !std::holds_alternative<std::monostate>(row.act);
}

// What a row says and offers, but for the time to go.
std::vector<std::string> textsOf(const BedsideRow& row) {
    std::vector<std::string> texts{row.key, row.title, row.statusWord, row.mark,
                                   row.why, row.who,   row.whenDone,   row.lifters,
                                   row.order};
    texts.insert(texts.end(), row.remarks.begin(), row.remarks.end());
    if (const auto* check = std::get_if<report::CheckToLog>(&row.act)) {
        texts.push_back(check->asserts);
        for (const auto& measure : check->measures) texts.push_back(measure.limits);
    }
    if (const auto* fit = std::get_if<report::FitToLog>(&row.act)) {
        texts.push_back(fit->label);
        texts.push_back(fit->putBack ? fit->putBack->summary : "");
        texts.push_back(fit->occupied ? "swap" : "fit");
    }
    texts.push_back(std::to_string(row.act.index()));
    return texts;
}

}  // namespace

WayPanel::WayPanel(PanelTools tools, QWidget* parent)
    : UnitPanel(tools, parent), m_logging(new StepLogging(tools, this)) {
    m_scroll = scrollPage();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    makeHead();
    layout->addWidget(m_scroll, 1);
    offerKey(Command::StepDone, Press::Done);
    offerKey(Command::StepNotSo, Press::NotSo);
    offerKey(Command::StepFailed, Press::Failed);
    connect(&workplace(), &Workplace::appearanceChanged, this, [this] {
        if (m_unit) showRows();
        // Last, since where it was put it took the letters that it had there.
        m_headline->setFont(fontFor(TextRole::Strong));
    });
    connect(m_logging, &StepLogging::fitWanted, this, &WayPanel::fitWanted);
    connect(m_logging, &StepLogging::serviceWanted, this, &WayPanel::serviceWanted);
    connect(m_logging, &StepLogging::codeRead, this, &UnitPanel::codeRead);
    connect(m_logging, &StepLogging::heldChanged, this, [this] {
        if (m_card != nullptr) m_card->setEnabled(!m_logging->isHeld(m_card->row().key));
    });
    m_second.setInterval(std::chrono::seconds(1));
    connect(&m_second, &QTimer::timeout, this, &WayPanel::countDown);
    m_second.start();
}

void WayPanel::makeHead() {
    m_headline = textLabel({}, TextRole::Strong);
    m_undo = new WrappedButton;
    m_head = new QWidget;
    auto* head = new QHBoxLayout(m_head);
    head->setContentsMargins(0, 0, 0, 0);
    head->setSpacing(targetGap);
    head->addWidget(m_headline, 1);
    head->addWidget(m_undo);
    layout()->addWidget(m_head);
    m_undo->hide();
    connect(m_undo, &QPushButton::clicked, this, &WayPanel::undo);
    connect(&workplace(), &Workplace::kept, m_undo, &QWidget::hide);  // it was not the last
    connect(m_logging, &StepLogging::kept, this, &WayPanel::offerUndo);
    connect(&workplace().presence(), &Presence::left, m_undo, &QWidget::hide);
}

void WayPanel::offerUndo(const logbook::RecordName& record) {
    m_kept = record;
    nameUndo();
    m_undo->show();
}

// What is struck through is named by what it was, as soon as that has been read.
void WayPanel::nameUndo() {
    const auto line = keptLine();
    m_undo->setText(line.isEmpty() ? tr("Strike through what was entered last")
                                   : tr("Strike through: %1").arg(line));
}

QString WayPanel::keptLine() const {
    if (!m_unit) return {};
    const auto* record = m_unit->lookup(m_kept);
    if (record == nullptr) return {};
    const auto& standing = *m_unit->fleet->standing;
    const auto context = contextOf(*m_unit, workplace().words());
    const words::Times times(workplace().words(), *standing.state.rulebook->zone, standing.at);
    return shownText(words::recordLine(context, *record) + ", " + times.time(record->at));
}

// Whoever kept it, and with a reason.
void WayPanel::undo() {
    CorrectionSheet::Wanted wanted;
    wanted.entry.line.record = m_kept;
    wanted.entry.line.says = plainText(keptLine());
    if (wanted.entry.line.says.empty())
        wanted.entry.line.says = plainText(tr("Entry %1").arg(shownText(toText(m_kept))));
    wanted.entry.unit = unitLine(m_unit->bedside.identity);
    auto* sheet = new CorrectionSheet(tools().desk, wanted);
    connect(sheet, &CorrectionSheet::corrected, m_undo, &QWidget::hide);
    sheets().put(sheet);
}

void WayPanel::offerKey(Command command, Press press) {
    addShortcut(this, command, [this, press] {
        auto* button = m_card != nullptr ? m_card->button(press) : nullptr;
        if (button != nullptr && sheets().isEmpty()) button->click();
    });
}

void WayPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
    m_logging->show(unit);
    const auto& device = unit->bedside.identity.device;
    const bool isAnother = std::exchange(m_shown, device) != device;
    if (isAnother) {
        m_first.clear();
        m_undo->hide();
    }
    nameUndo();
    showHead();
    std::vector<std::string> texts{m_first};
    for (const auto& row : unit->bedside.rows)
        for (auto& text : textsOf(row)) texts.push_back(std::move(text));
    for (const auto& text : unit->bedside.runsOut) texts.push_back(text);
    if (isAnother || std::exchange(m_texts, texts) != texts) showRows();
    m_texts = std::move(texts);
    if (isAnother) m_scroll->verticalScrollBar()->setValue(0);
    countDown();
}

bool WayPanel::focusWork() {
    auto* button = m_card != nullptr ? m_card->button(Press::Done) : nullptr;
    if (button == nullptr) return false;
    button->setFocus();
    return true;
}

void WayPanel::showHead() {
    const auto& bedside = m_unit->bedside;
    m_headline->setText(shownText(bedside.headline));
    m_headline->setVisible(std::ranges::find(bedside.rows, bedside.headline, &BedsideRow::title) ==
                           bedside.rows.end());
}

void WayPanel::await() {
    if (m_headline->isHidden()) return;
    m_headline->setText(tr("One moment: it is being worked out anew."));
}

// Above the rows; with large text the next step goes first, so that its button is in sight.
void WayPanel::placeHead() {
    if (m_card != nullptr && isTextLarge()) {
        m_list->addWidget(m_head);
    } else {
        static_cast<QVBoxLayout*>(layout())->insertWidget(0, m_head);
    }
}

// What is done next: what somebody wants first, the next step, or else what can be logged.
const BedsideRow* WayPanel::first() const {
    const auto& bedside = m_unit->bedside;
    const auto wanted = std::ranges::find_if(bedside.rows, [&](const auto& row) {
        return !m_first.empty() && row.key == m_first && canBeLogged(row);
    });
    if (wanted != bedside.rows.end()) return &*wanted;
    if (bedside.next) return &bedside.rows[*bedside.next];
    const auto any = std::ranges::find_if(bedside.rows, [](const auto& row) {
        return row.part != RowPart::Done && canBeLogged(row);
    });
    return any == bedside.rows.end() ? nullptr : &*any;
}

const BedsideRow* WayPanel::rowNamed(const std::string& key) const {
    const auto& rows = m_unit->bedside.rows;
    const auto found =
        std::ranges::find_if(rows, [&](const auto& row) { return row.key == key; });
    return found == rows.end() ? nullptr : &*found;
}

void WayPanel::showRows() {
    const bool hadFocus = m_card != nullptr && (m_card->isAncestorOf(QApplication::focusWidget()) ||
                                                !m_card->isEnabled());
    const int scrolled = m_scroll->verticalScrollBar()->value();
    m_card = nullptr;
    m_rows.clear();
    placeHead();  // out of the rows, which go away
    m_inside = new QWidget;
    m_list = new QVBoxLayout(m_inside);
    m_list->setContentsMargins(0, 0, 8, 0);
    m_list->setSpacing(8);
    const auto* next = first();
    std::vector<const BedsideRow*> blockers, later, atStart, done;
    for (const auto& row : m_unit->bedside.rows) {
        if (&row == next || isToldAbove(row)) continue;
        switch (row.part) {
            case RowPart::Blocker: blockers.push_back(&row); break;
            case RowPart::Done: done.insert(done.begin(), &row); break;
            case RowPart::AtStart: atStart.push_back(&row); break;
            case RowPart::Step:
            case RowPart::Finding: later.push_back(&row); break;
        }
    }
    addHolds();
    addRows(tr("What stands in the way"), blockers);
    const auto startHead = tr("Before a patient is connected");
    const bool isAtStart = next != nullptr && next->part == RowPart::AtStart;
    if (isAtStart) m_list->addWidget(textLabel(startHead, TextRole::Quiet));
    if (next != nullptr) addCard(*next);
    placeHead();
    if (isAtStart) addRows({}, atStart);
    addRows(m_unit->bedside.next ? tr("Then") : tr("What stands"), later);
    if (!isAtStart) addRows(startHead, atStart);
    addRows(tr("Done"), done);
    m_list->addStretch(1);
    m_scroll->setWidget(m_inside);
    m_scroll->verticalScrollBar()->setValue(scrolled);
    if (hadFocus) focusWork();
}

// A hold whose sheet is told in full.
bool WayPanel::isToldAbove(const BedsideRow& row) const {
    const auto& bedside = m_unit->bedside;
    const auto isOf = [&](const auto& sheet) { return row.key == "withdrawn " + sheet.hold; };
    return row.part == RowPart::Blocker && std::ranges::any_of(bedside.identity.sheets, isOf);
}

void WayPanel::addHolds() {
    const auto& bedside = m_unit->bedside;
    for (const auto& sheet : bedside.identity.sheets) {
        auto* head = textLabel({}, TextRole::Large);
        head->setText(tr("%1, %2, by %3")
                          .arg(shownText(sheet.label), shownText(sheet.since),
                               shownText(sheet.by)));
        m_list->addWidget(head);
        for (const auto& line : sheet.lines)
            m_list->addWidget(textLabel(shownText(line), TextRole::Strong));
        if (!sheet.lifters.empty()) m_list->addWidget(textLabel(shownText(sheet.lifters)));
    }
    QStringList more;
    for (const auto& each : bedside.runsOut) more << shownText(each);
    if (!bedside.notProved.empty()) more << shownText(bedside.notProved);
    if (more.isEmpty()) return;
    auto* label = textLabel({}, TextRole::Plain);
    label->setText(more.join('\n'));
    m_list->addWidget(label);
}

void WayPanel::addCard(const BedsideRow& row) {
    m_card = new StepCard(row, startText());
    m_card->setEnabled(!m_logging->isHeld(row.key));
    connect(m_card, &StepCard::pressed, this, [this, key = row.key](Press press) {
        if (const auto* now = rowNamed(key)) m_logging->press(*now, press);
    });
    m_list->addWidget(m_card);
}

void WayPanel::addRows(const QString& head, const std::vector<const BedsideRow*>& rows) {
    if (rows.empty()) return;
    if (!head.isEmpty()) m_list->addWidget(textLabel(head, TextRole::Quiet));
    for (const auto* row : rows) addRow(*row);
}

void WayPanel::addRow(const BedsideRow& row) {
    auto* widget = new WayRow(row, startText());
    connect(widget, &WayRow::firstWanted, this, [this, key = row.key] { takeFirst(key); });
    m_list->addWidget(widget);
    m_rows.push_back(widget);
}

// After the press that asked for it: the row with the button goes away.
void WayPanel::takeFirst(const std::string& key) {
    m_first = key;
    QMetaObject::invokeMethod(
        this,
        [this] {
            showRows();
            m_scroll->verticalScrollBar()->setValue(0);
            focusWork();
        },
        Qt::QueuedConnection);
}

// Counts down to what has to be waited for; what only follows upon other steps is as the log was
// read.
StartText WayPanel::startText() const {
    return [this](const BedsideRow& shown) {
        const auto* read = rowNamed(shown.key);
        const auto& row = read != nullptr ? *read : shown;
        const auto now = workplace().clock().now();
        if (row.part == RowPart::Step && row.start && row.notBefore && *row.start > now)
            return shownText(report::countdown(workplace().words(), *m_unit->bedside.zone,
                                               *row.start, now));
        return shownText(row.startText);
    };
}

void WayPanel::countDown() {
    if (m_card != nullptr) m_card->showStart(startText());
    for (auto* row : m_rows) row->showStart(startText());
}

}  // namespace desktop
