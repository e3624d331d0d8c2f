// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet desk; see fleet_desk.h.
#include "desktop/fleet/fleet_desk.h"

#include "desktop/fleet/enrol_sheet.h"
#include "desktop/fleet/fleet_filter.h"
#include "desktop/fleet/fleet_overview.h"
#include "desktop/fleet/horizon_sheet.h"
#include "desktop/fleet/muster_sheet.h"
#include "desktop/fleet/soonest_ready.h"
#include "desktop/fleet/unit_table.h"
#include "desktop/shell/sheet.h"
#include "desktop/shell/shortcuts.h"
#include "desktop/shell/first_focus.h"
#include "desktop/shell/text.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"

#include <QButtonGroup>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

namespace {

// Wide enough for its hint, with room for the button that clears it, whatever the size of text.
class FindField : public QLineEdit {
public:
    [[nodiscard]] QSize sizeHint() const override {
        auto size = QLineEdit::sizeHint();
        const int hint = fontMetrics().horizontalAdvance(placeholderText());
        size.setWidth(hint + 2 * size.height());
        return size;
    }
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
};

}  // namespace

FleetDesk::FleetDesk(DeskTools tools, QWidget* parent) : Desk(tools, parent) {
    m_soonest = new SoonestReady(this);
    auto* inside = new QWidget;
    auto* layout = new QVBoxLayout(inside);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(10);
    makeHead(*layout);
    makeFilters(*layout);
    makeTable(*layout);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->addWidget(scrollPage(inside));
    m_overview->showNothing(tr("Reading the logbook."));
    for (const auto changed : {&Workplace::fleetChanged, &Workplace::fleetMarked})
        connect(&workplace(), changed, this, &FleetDesk::makeTexts);
    connect(&workplace(), &Workplace::readOnlyChanged, this, &FleetDesk::showTexts);
    connect(m_soonest, &SoonestReady::changed, this, &FleetDesk::showTexts);
    connect(&m_second, &QTimer::timeout, this, &FleetDesk::showTexts);
    m_second.start(std::chrono::seconds(1));
}

FleetDesk::~FleetDesk() = default;

void FleetDesk::makeHead(QVBoxLayout& layout) {
    m_overview = new FleetOverview(workplace().words());
    layout.addWidget(m_overview);
    connect(m_overview, &FleetOverview::groupPressed, this, &FleetDesk::chooseGroup);
    connect(m_overview, &FleetOverview::unitPressed, this, &FleetDesk::unitWanted);
}

void FleetDesk::makeFilters(QVBoxLayout& layout) {
    m_choices = new QWidget;
    auto* row = new WrapLayout(WrapLayout::Manner::Packed, m_choices);
    m_find = new FindField;
    m_find->setPlaceholderText(tr("Find in the table"));
    m_find->setAccessibleName(tr("Find units by any word of their row"));
    m_find->setClearButtonEnabled(true);
    row->addWidget(m_find);
    auto* group = new QButtonGroup(this);
    for (const auto verdict :
         {std::optional<rules::Verdict>(), std::optional(rules::Verdict::Ready),
          std::optional(rules::Verdict::NotReady), std::optional(rules::Verdict::InUse),
          std::optional(rules::Verdict::Withdrawn)}) {
        auto* button = new QPushButton;
        button->setCheckable(true);
        group->addButton(button);
        connect(button, &QPushButton::clicked, this, [this, verdict] {
            m_units->showVerdict(verdict);
            showFound();
        });
        row->addWidget(button);
        m_verdicts.push_back({verdict, button});
    }
    m_verdicts.front().button->setChecked(true);
    m_muster = new QPushButton(tr("Muster …"));
    m_horizon = new QPushButton(tr("Look ahead …"));
    m_enrol = new QPushButton(tr("Enrol units …"));
    for (auto* each : {m_muster, m_horizon, m_enrol}) row->addWidget(each);
    layout.addWidget(m_choices);
    connect(m_enrol, &QPushButton::clicked, this, &FleetDesk::enrolUnits);
    connect(m_muster, &QPushButton::clicked, this,
            [this] { sheets().put(new MusterSheet({m_view, workplace().words(), m_forecasts})); });
    connect(m_horizon, &QPushButton::clicked, this,
            [this] { sheets().put(new HorizonSheet({m_view, workplace().words(), m_forecasts})); });
}

void FleetDesk::enrolUnits() {
    auto* sheet = new EnrolSheet(tools());
    connect(sheet, &EnrolSheet::unitWanted, this, &FleetDesk::unitWanted);
    sheets().put(sheet);
}

void FleetDesk::makeTable(QVBoxLayout& layout) {
    m_model = new FleetModel(this);
    m_units = new FleetFilter(m_model, this);
    m_table = new UnitTable(m_units);
    m_found = new QLabel;
    m_found->setWordWrap(true);
    m_marked = new QLabel;
    m_marked->setWordWrap(true);
    m_marked->setTextFormat(Qt::PlainText);
    layout.addWidget(m_found);
    layout.addWidget(m_table, 1);
    layout.addWidget(m_marked);
    m_found->hide();
    m_marked->hide();
    connect(m_table, &UnitTable::unitPressed, this, &FleetDesk::unitWanted);
    connect(m_table, &UnitTable::unitMarked, this, &FleetDesk::markUnit);
    connect(m_find, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_units->findWords(typed);
        showFound();
    });
    makeShortcuts();
    showCounts();
}

void FleetDesk::makeShortcuts() {
    addShortcut(this, Command::ShowFigures, [this] { focusFirst(*m_overview); });
    addShortcut(this, Command::FindUnits, [this] { m_find->setFocus(Qt::ShortcutFocusReason); });
    addShortcut(this, Command::ShowTable, [this] {
        m_table->setFocus(Qt::ShortcutFocusReason);
        if (!m_table->currentIndex().isValid()) m_table->setCurrentIndex(m_units->index(0, 0));
    });
    addShortcut(this, Command::SortByNext, [this] { m_table->sortByNext(); });
    addShortcut(this, Command::SortOtherWay, [this] { m_table->sortOtherWay(); });
    addShortcut(this, Command::ShowMuster, [this] { m_muster->click(); });
    addShortcut(this, Command::LookAhead, [this] { m_horizon->click(); });
    addShortcut(this, Command::EnrolUnits, [this] { m_enrol->click(); });
}

void FleetDesk::showEvent(QShowEvent* event) {
    Desk::showEvent(event);
    showTable();
    showTexts();
}

// Not where the logbook is read: that may be waited for, and what changed is shown all the same.
void FleetDesk::makeTexts() {
    if (workplace().fleet() == m_asked) return;
    m_asked = workplace().fleet();
    m_making.run(
        [view = workplace().fleet(), &words = workplace().words()] {
            return makeFleetTable(*view, words);
        },
        this, [this, view = workplace().fleet()](const SharedFleetTable& table) {
            take(view, table);
        });
}

void FleetDesk::take(const SharedFleetView& view, const SharedFleetTable& table) {
    if (view != m_asked) return;  // a newer one is under way
    if (m_path != workplace().file().path) {
        m_path = workplace().file().path;
        m_soonest->clear();
        chooseGroup({});
        m_table->forgetWidths();
    }
    m_view = view;
    m_texts = table;
    m_isOld = true;
    m_soonest->show(view);
    if (isVisible()) showTable();
}

// Of a thousand units it takes its time, which is not taken from whoever is at another desk.
void FleetDesk::showTable() {
    if (!std::exchange(m_isOld, false)) return;
    m_model->show(m_texts);
    m_table->measureColumns();
    showCounts();
    showTexts();
    showFound();
    const auto marked = m_table->currentIndex();
    markUnit(marked.isValid() ? m_units->rowAt(marked).serial : QString());
}

void FleetDesk::showTexts() {
    if (!m_view || !isVisible()) return;
    m_overview->show({*m_view, *m_texts, *m_soonest, workplace().clock().now(),
                      workplace().readOnlySentence()});
}

void FleetDesk::showCounts() {
    for (const auto& [verdict, button] : m_verdicts) {
        int count = m_model->rowCount();
        auto text = tr("All");
        if (verdict) {
            count = m_texts ? m_texts->facts.counts[static_cast<std::size_t>(*verdict)] : 0;
            text = shownText(words::capitalized(words::verdictWord(workplace().words(), *verdict)));
        }
        button->setText(m_texts ? tr("%1  %2").arg(text).arg(count) : text);
    }
    m_muster->setEnabled(m_view != nullptr);
    m_horizon->setEnabled(m_view != nullptr);
    m_enrol->setEnabled(m_view != nullptr);
}

void FleetDesk::showFound() {
    const int shown = m_units->rowCount();
    const int all = m_model->rowCount();
    m_found->setVisible(m_view && (shown < all || all == 0));
    m_found->setText(all == 0     ? shownText(workplace().words().say("board.no_units"))
                     : shown == 0 ? tr("No unit of %1 is like that.").arg(all)
                                  : tr("%1 of %2 units are shown.").arg(shown).arg(all));
}

void FleetDesk::chooseGroup(const QString& key) {
    m_units->showGroup(key);
    m_overview->chooseGroup(key);
    showFound();
}

// A row of the table is one line; what does not fit there is told below it in full.
void FleetDesk::markUnit(const QString& serial) {
    const auto index = serial.isEmpty() ? QModelIndex() : m_units->indexOf(serial);
    const auto missing = index.isValid() ? m_units->rowAt(index).texts[FleetRow::Missing]
                                         : QString();
    m_marked->setText(!missing.isEmpty() ? tr("%1: %2").arg(serial, missing)
                      : m_texts          ? m_texts->facts.atEachStart
                                         : QString());
    m_marked->setVisible(!m_marked->text().isEmpty());
}

}  // namespace desktop
