// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When and who; see entry_strip.h.
#include "desktop/bedside/entry_strip.h"

#include "desktop/bedside/person_sheet.h"
#include "desktop/bedside/time_sheet.h"
#include "desktop/bedside/when_done_sheet.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"
#include "words/times.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace desktop {

namespace {

QLabel* makeQuestion(const QString& text) {
    auto* label = new QLabel(text);
    label->setFont(fontFor(TextRole::Strong));
    return label;
}

QHBoxLayout* makeRow(QWidget* widget) {
    auto* row = new QHBoxLayout(widget);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(targetGap);
    return row;
}

}  // namespace

EntryStrip::EntryStrip(DeskTools tools, QWidget* parent) : QWidget(parent), m_tools(tools) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    makeNotice();
    makeChips();
    makeSummary();
    for (auto* each : {static_cast<QWidget*>(m_notice), m_chips, m_summary})
        layout->addWidget(each);
    showChoice();
    fit();
    m_ticks.setInterval(std::chrono::seconds(1));
    connect(&m_ticks, &QTimer::timeout, this, &EntryStrip::keepTrue);
    m_ticks.start();
    // Whoever verified did so before this window, with whoever was signed in there.
    connect(&m_tools.workplace.presence(), &Presence::left, this, [this] { m_second.reset(); });
    connect(&m_tools.workplace.presence(), &Presence::changed, this, &EntryStrip::showChoice);
}

void EntryStrip::makeNotice() {
    m_notice = new QFrame;
    m_notice->setLineWidth(3);
    auto* row = makeRow(m_notice);
    m_note = new QLabel;
    m_note->setWordWrap(true);
    m_note->setAccessibleName(tr("What the entries will say of when and who"));
    m_stay = new WrappedButton;
    row->addWidget(m_note, 1);
    row->addWidget(m_stay);
    connect(m_stay, &QPushButton::clicked, this, &EntryStrip::stayOrGoBack);
}

QPushButton* EntryStrip::addChip(const QString& text, const QString& name) {
    auto* chip = new QPushButton(text);
    chip->setCheckable(true);
    chip->setAccessibleName(name);
    m_chips->layout()->addWidget(chip);
    return chip;
}

void EntryStrip::makeChips() {
    m_chips = new QWidget;
    auto* row = makeRow(m_chips);
    row->addWidget(makeQuestion(tr("When?")));
    m_ago.emplace_back(0, addChip(tr("Now"), tr("When: now")));
    for (const int minutes : minutesAgo)
        m_ago.emplace_back(minutes, addChip(QString::number(minutes),
                                            tr("When: %n min ago", nullptr, minutes)));
    row->addWidget(new QLabel(tr("min ago")));
    for (const auto& [minutes, chip] : m_ago)
        connect(chip, &QPushButton::clicked, this, [this, minutes = minutes] {
            chooseAgo(minutes);
        });
    m_time = addChip(tr("A time"), tr("When: a time"));
    row->addStretch(1);
    row->addWidget(makeQuestion(tr("Who?")));
    m_me = addChip(tr("Me"), tr("Who: me"));
    m_another = addChip(tr("Another"), tr("Who: another"));
    m_verify = addChip(tr("With a second"), tr("Who: with a second person"));
    connect(m_time, &QPushButton::clicked, this, &EntryStrip::askTime);
    connect(m_me, &QPushButton::clicked, this, &EntryStrip::chooseMe);
    connect(m_another, &QPushButton::clicked, this, &EntryStrip::askWho);
    connect(m_verify, &QPushButton::clicked, this, &EntryStrip::askSecond);
}

void EntryStrip::makeSummary() {
    m_summary = new QWidget;
    auto* row = makeRow(m_summary);
    m_when = new QPushButton;
    m_who = new WrappedButton(QString());
    row->addWidget(m_when, 1);
    row->addWidget(m_who, 1);
    connect(m_when, &QPushButton::clicked, this, &EntryStrip::askTime);
    connect(m_who, &QPushButton::clicked, this, &EntryStrip::askWho);
}

std::vector<station::Entry> EntryStrip::entriesOf(const std::string& device,
                                                  std::vector<station::Act> acts,
                                                  const EntryMaking& making) const {
    station::Doing doing{station::Writer(""), device};
    doing.at = making.choice.at;
    doing.doneBy = making.choice.doneBy;
    if (making.second) doing.witness = station::Writer(*making.second);
    if (!making.batch.empty()) doing.batch = making.batch;
    return station::entriesOf(doing, std::move(acts));
}

EntryMaking EntryStrip::take() {
    EntryMaking taken{m_choice, m_second, m_batch, m_turn};
    goBackToNow();
    return taken;
}

void EntryStrip::giveBack(const EntryMaking& making) {
    if (making.turn == m_turn && !m_choice.at) choose(making.choice);
}

void EntryStrip::continueFrom(const EntryStrip& other) {
    m_isForOne = true;
    m_second = other.m_second;
    m_batch = other.m_batch;
    m_turnThere = other.m_turn;
    choose(other.m_choice);
}

void EntryStrip::endAt(EntryStrip& other) const {
    if (m_turnThere == other.m_turn) other.goBackToNow();
}

void EntryStrip::keep(std::vector<station::Entry> entries, const EntryMaking& making,
                      QObject* receiver, Workplace::TakeKept taken) {
    m_tools.workplace.keep(
        std::move(entries), this,
        [this, making, receiver = QPointer<QObject>(receiver),
         taken = std::move(taken)](const Workplace::Kept& kept) {
            if (!kept.isAll() && !kept.isStanding) giveBack(making);
            if (receiver && taken) taken(kept);
        });
}

void EntryStrip::verifyBy(station::Session second) {
    m_second = std::move(second);
    showChoice();
}

void EntryStrip::choose(EntryChoice choice) {
    if (choice.at != m_choice.at) m_stays = false;
    m_choice = std::move(choice);
    showChoice();
    keepTrue();
}

void EntryStrip::clear() {
    ++m_turn;
    m_batch.clear();
    m_second.reset();
    choose({});
}

std::set<std::string> EntryStrip::whoDid(const EntryChoice& choice) const {
    std::set<std::string> people;
    if (const auto& session = m_tools.workplace.presence().session())
        people.insert(session->person());
    if (choice.doneBy) people.insert(*choice.doneBy);
    return people;
}

logbook::Instant EntryStrip::instant() const {
    return m_choice.at.value_or(m_tools.workplace.clock().now());
}

void EntryStrip::goBackToNow() {
    m_second.reset();
    if (m_stays) {
        m_lastUsed = m_tools.workplace.clock().now();
        showChoice();
        return;
    }
    choose({std::nullopt, 0, m_choice.doneBy, m_choice.doneByName});
}

void EntryStrip::stayOrGoBack() {
    if (m_stays) {
        choose({std::nullopt, 0, m_choice.doneBy, m_choice.doneByName});
        return;
    }
    m_stays = true;
    m_lastUsed = m_tools.workplace.clock().now();
    showChoice();
}

void EntryStrip::askWhenBack(Sheet& sheet) {
    connect(
        &sheet, &Sheet::cameBack, this,
        [this, &sheet, begun = m_tools.workplace.clock().now()] {
            askWhenDone(m_tools, {sheet, begun, [this] { return m_choice.at.has_value(); }},
                        [this](std::optional<logbook::Instant> at) {
                            if (at) choose({at, 0, m_choice.doneBy, m_choice.doneByName});
                        });
        },
        Qt::QueuedConnection);
}

// Whoever comes back after a while finds "now". A clock that was set back is no reason to stay.
void EntryStrip::lapse() {
    const auto since = m_tools.workplace.clock().now() - m_lastUsed;
    if (!m_stays || (since.ms >= 0 && since < quiet)) return;
    ++m_turn;  // nothing brings the time back
    choose({std::nullopt, 0, m_choice.doneBy, m_choice.doneByName});
    Q_EMIT m_tools.workplace.told(
        tr("\"When?\" is now again: nothing was entered for a while."));
}

// A time that was some minutes ago when it was chosen stays that time; the chip does not.
void EntryStrip::keepTrue() {
    lapse();
    if (!m_choice.at) return;
    const auto ago = m_tools.workplace.clock().now() - *m_choice.at;
    if (m_choice.minutesAgo > 0 && ago.ms >= (m_choice.minutesAgo + 1) * 60'000LL) {
        m_choice.minutesAgo = 0;
        showChoice();
    } else {
        showNote();
    }
}

void EntryStrip::chooseMe() {
    m_second.reset();
    choose({m_choice.at, m_choice.minutesAgo, std::nullopt, {}});
    if (!m_tools.workplace.presence().session())
        Q_EMIT m_tools.workplace.told(
            tr("Nobody is signed in. Whoever makes an entry is asked for then."));
}

void EntryStrip::chooseAgo(int minutes) {
    Q_EMIT m_tools.workplace.told({});  // it was about the entry before, and has the room now
    auto choice = m_choice;
    choice.minutesAgo = minutes;
    choice.at.reset();
    if (minutes > 0)
        choice.at = m_tools.workplace.clock().now() - logbook::Duration{minutes * 60'000LL};
    choose(std::move(choice));
}

void EntryStrip::askTime() {
    showChoice();  // the chip is not chosen by being pressed alone
    auto* sheet = new TimeSheet(m_tools.workplace);
    connect(sheet, &TimeSheet::agoChosen, this, &EntryStrip::chooseAgo);
    connect(sheet, &TimeSheet::timeChosen, this, [this](logbook::Instant at) {
        Q_EMIT m_tools.workplace.told({});
        choose({at, 0, m_choice.doneBy, m_choice.doneByName});
    });
    m_tools.sheets.put(sheet);
}

void EntryStrip::askWho() {
    showChoice();
    auto notOffered = whoDid({});
    if (m_second) notOffered.insert(m_second->person());
    auto* sheet = new AnotherSheet(m_tools.workplace, notOffered);
    connect(sheet, &AnotherSheet::meChosen, this, [this] { m_me->click(); });
    connect(sheet, &AnotherSheet::secondWanted, this, &EntryStrip::askSecond);
    connect(sheet, &AnotherSheet::chosen, this, [this](const Somebody& other) {
        choose({m_choice.at, m_choice.minutesAgo, other.person, other.name});
    });
    m_tools.sheets.put(sheet);
}

void EntryStrip::askSecond() {
    showChoice();
    auto* sheet = new SecondSheet(m_tools.workplace, whoDid(m_choice));
    connect(sheet, &SecondSheet::verified, this, &EntryStrip::verifyBy);
    m_tools.sheets.put(sheet);
}

void EntryStrip::showChoice() {
    const bool isTimed = m_choice.at && m_choice.minutesAgo == 0;
    for (const auto& [minutes, chip] : m_ago)
        chip->setChecked(!isTimed && minutes == m_choice.minutesAgo);
    m_time->setChecked(isTimed);
    const auto name = m_tools.workplace.presence().name();
    m_me->setChecked(!m_choice.doneBy && !m_second && !name.isEmpty());
    m_another->setChecked(m_choice.doneBy.has_value());
    m_verify->setChecked(m_second.has_value());
    showNote();
    fit();
}

// What will be written where it is not "now, by me", and what the month makes of it.
void EntryStrip::showNote() {
    QStringList when, who;
    const auto& fleet = m_tools.workplace.fleet();
    if (m_choice.at && fleet) {
        const auto& rulebook = *fleet->standing->state.rulebook;
        const auto& words = m_tools.workplace.words();
        const auto now = m_tools.workplace.clock().now();
        const auto span = now - *m_choice.at;
        const auto time = timeText(*m_choice.at);
        const auto ago = shownText(words::duration(words, span));
        when << (m_stays ? tr("Every entry is for %1, %2 ago, until you go back to now. That comes "
                              "by itself %n min after the last entry.",
                              nullptr, static_cast<int>(quiet.ms / 60'000))
                               .arg(time, ago)
                         : tr("For %1, %2 ago.").arg(time, ago));
        if (span > rulebook.lateEntryAfter)
            when << tr("That is more than %1: the month will count it as a late entry.")
                        .arg(shownText(words::duration(words, rulebook.lateEntryAfter)));
    }
    if (m_choice.doneBy) who << tr("Done by %1.").arg(m_choice.doneByName);
    if (m_second) who << tr("Verified by %1.").arg(shownText(m_second->name()));
    m_note->setText((when + who).join(QLatin1Char(' ')));
    m_notice->setVisible(!m_note->text().isEmpty());
    m_notice->setFrameShape(m_stays ? QFrame::Box : QFrame::NoFrame);
    m_notice->layout()->setContentsMargins(m_stays ? QMargins(12, 10, 12, 10) : QMargins());
    m_note->setFont(fontFor(m_stays ? TextRole::Strong : TextRole::Plain));
    m_stay->setText(m_stays ? tr("Go back to now") : tr("Stay with this time"));
    m_stay->setVisible(m_choice.at && !m_isForOne);
    showWhen();
    const auto name = m_tools.workplace.presence().name();
    m_who->setText(m_choice.doneBy || m_second ? tr("Who? As above")
                   : name.isEmpty()            ? tr("Who? Not signed in")
                                               : tr("Who? %1").arg(name));
}

// A time that was typed is told where it was chosen.
void EntryStrip::showWhen() {
    const bool isTimed = m_choice.at && m_choice.minutesAgo == 0;
    const auto time = isTimed ? timeText(*m_choice.at) : QString();
    m_when->setText(m_choice.minutesAgo > 0
                        ? tr("When? %n min ago", nullptr, m_choice.minutesAgo)
                        : (isTimed ? tr("When? %1").arg(time) : tr("When? Now")));
}

// As seen from now; "" before the department's zone is known.
QString EntryStrip::timeText(logbook::Instant at) const {
    const auto& workplace = m_tools.workplace;
    if (!workplace.fleet()) return {};
    const auto& zone = *workplace.fleet()->standing->state.rulebook->zone;
    return shownText(words::Times(workplace.words(), zone, workplace.clock().now()).time(at));
}

void EntryStrip::resizeEvent(QResizeEvent*) {
    fit();
}

void EntryStrip::fit() {
    const auto hasRoomWith = [this](const QString& time) {
        m_time->setText(time.isEmpty() ? tr("A time") : time);
        return m_chips->sizeHint().width() <= width();
    };
    // What is told above goes first.
    const bool isTimed = m_choice.at && m_choice.minutesAgo == 0;
    const bool hasRoom = hasRoomWith(isTimed ? timeText(*m_choice.at) : QString()) ||
                         (isTimed && hasRoomWith({}));
    m_chips->setVisible(hasRoom);
    m_summary->setVisible(!hasRoom);
}

}  // namespace desktop
