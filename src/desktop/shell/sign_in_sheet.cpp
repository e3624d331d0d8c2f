// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in; see sign_in_sheet.h.
#include "desktop/shell/sign_in_sheet.h"

#include "desktop/shell/pin_field.h"
#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "rules/authority.h"
#include "station/bedside.h"
#include "station/log_at_hand.h"
#include "station/sample.h"
#include "words/shown.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <memory>
#include <vector>

namespace desktop {

namespace {

struct Named {
    std::string key;
    QString name;
    bool wasHere = false;  // signed in at this window before
};

// Those on the list now: who was here goes first, then by name.
std::vector<Named> namesOf(Workplace& workplace) {
    std::vector<Named> names;
    if (!workplace.fleet()) return names;
    const auto now = workplace.clock().now();
    for (const auto& [key, known] : workplace.fleet()->standing->state.persons) {
        if (!rules::isKnown(workplace.fleet()->standing->state, key, now)) continue;
        names.push_back({key, shownText(words::shown(known.person.name)),
                         workplace.presence().wasHere(key)});
    }
    std::ranges::sort(names, [](const auto& a, const auto& b) {
        return a.wasHere != b.wasHere ? a.wasHere : a.name.localeAwareCompare(b.name) < 0;
    });
    return names;
}

// Only the name, the last one, may wrap.
QLabel* demoCell(const QString& text) {
    auto* label = textLabel(text, TextRole::Quiet);
    label->setWordWrap(text.contains(QLatin1Char(' ')));
    return label;
}

}  // namespace

SignInSheet::SignInSheet(Workplace& workplace, Wanted wanted,
                         std::function<void(station::Writer)> taken, QWidget* parent)
    : Sheet(wanted == Wanted::SignIn ? tr("Sign in") : tr("No PIN is needed: one press keeps it"),
            parent),
      m_workplace(workplace),
      m_wanted(wanted),
      m_taken(std::move(taken)) {
    if (wanted == Wanted::NameOnly) addNames();
    addFields();
    tellDemo();
    content()->addStretch();
    auto* back = new WrappedButton(tr("Back, keep nothing"));
    if (wanted == Wanted::SignIn) back->setText(tr("Back"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
}

void SignInSheet::sayFor(const QString& what) {
    m_for = what;
    if (!what.isEmpty()) sayAtTop(what);
}

void SignInSheet::addNames() {
    auto* what = new QLabel(tr("Press a name and it is kept now; nothing else is waited for. "
                               "Whoever it is confirms it with their PIN when there is time, or "
                               "says that it was somebody else."));
    what->setWordWrap(true);
    content()->addWidget(what);
    auto* grid = new QGridLayout;
    grid->setSpacing(targetGap);
    int count = 0;
    for (const auto& each : namesOf(m_workplace)) {
        auto* button = new QPushButton(each.name);
        button->setAccessibleName(tr("Keep it under the name of %1").arg(each.name));
        connect(button, &QPushButton::clicked, this,
                [this, key = each.key] { finish(station::Writer(key)); });
        grid->addWidget(button, count / 2, count % 2);
        ++count;
    }
    content()->addLayout(grid);
    auto* other = new QLabel(tr("Or, if there is time, sign in now:"));
    other->setFont(fontFor(TextRole::Strong));
    content()->addWidget(other);
}

void SignInSheet::addFields() {
    auto* whoLabel = new QLabel(tr("&Who: scan your badge, or type your short name"));
    m_who = new QLineEdit;
    m_who->setAccessibleName(tr("Short name or badge"));
    whoLabel->setBuddy(m_who);
    auto* pinLabel = new QLabel(tr("&PIN"));
    m_pin = new PinField(tr("PIN"));
    pinLabel->setBuddy(m_pin);
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("Why nobody was signed in"));
    m_trouble->hide();
    overFoot()->addWidget(m_trouble);
    m_enter = new QPushButton(tr("Sign in"));
    m_enter->setProperty("main", true);
    for (auto* each : std::initializer_list<QWidget*>{whoLabel, m_who, pinLabel, m_pin, m_enter})
        content()->addWidget(each);
    setFocusProxy(m_who);
    connect(m_enter, &QPushButton::clicked, this, &SignInSheet::signIn);
    connect(m_pin, &PinField::entered, this, &SignInSheet::signIn);
    connect(m_who, &QLineEdit::returnPressed, m_pin, [this] { m_pin->setFocus(); });
}

// Nobody has to look for the PINs of the demo.
void SignInSheet::tellDemo() {
    const auto& fleet = m_workplace.fleet();
    if (!fleet || !station::isSample(fleet->standing->facts)) return;
    content()->addWidget(textLabel(shownText(m_workplace.words().say("sample.people"))));
    auto* table = new QGridLayout;
    table->setHorizontalSpacing(2 * targetGap);
    table->setVerticalSpacing(2);
    table->setColumnStretch(2, 1);
    content()->addLayout(table);
    m_workplace.read([](const auto&, const auto&) { return station::samplePeople(); }, this,
                     [table](const std::vector<station::SamplePerson>& people) {
                         for (const auto& each : people) {
                             const int line = table->rowCount();
                             int column = 0;
                             for (const auto& text : {each.key, each.pin, each.name})
                                 table->addWidget(demoCell(shownText(text)), line, column++);
                         }
                     });
}

namespace {

// What is nobody's badge.
struct NotABadge {
    QString why;           // what it is, and what to do; "" where somebody goes by it
    bool isKnown = false;  // by the log, as something else
};

NotABadge notABadge(const FleetView& fleet, const station::Surroundings& surroundings,
                    const station::LogbookFile& file, const QString& text) {
    const auto read = plainText(text);
    const auto people = station::readPeople(surroundings, file);
    if (!people) return {shownText(people.error().notice.text())};
    const station::Gate gate(surroundings, file, *people);
    const auto person = gate.personOf(read);
    if (!person) return {shownText(person.error().notice.text())};
    if (gate.knows(*person)) return {};
    const auto found = findNamed(fleet, surroundings, file, read);
    if (found.what != station::Found::What::Nothing)
        return {SignInSheet::tr("%1 That is nobody's badge. Scan your badge, or type your short "
                                "name.")
                    .arg(shownText(found.sentence)),
                true};
    return {SignInSheet::tr("Read %1, which is nobody's badge here. Type your short name instead; "
                            "a manager can say whose badge it is.")
                .arg(text)};
}

bool isAllFigures(const QString& text) {
    return std::ranges::all_of(text, [](QChar letter) { return letter.isDigit(); });
}

}  // namespace

// The PIN may be typed at once; what is nobody's badge gives way to what was typed before. Over the
// field for the PIN it may be the PIN itself, typed too fast: then it is shown only once it is
// known to be somebody or something else.
bool SignInSheet::takeScan(const QString& text) {
    const auto before = m_who->text();
    const auto fleet = m_workplace.fleet();
    const bool isPerson =
        fleet && fleet->standing->state.persons.contains(plainText(text.trimmed()));
    const bool isOverPin = m_pin->hasFocus() && !isPerson;
    if (!isOverPin) m_who->setText(text);
    m_trouble->clear();
    m_pin->setFocus();
    if (!fleet) return true;
    m_workplace.read(
        [fleet, text](const auto& surroundings, const auto& file) {
            return notABadge(*fleet, surroundings, file, text);
        },
        this, [this, text, before, isOverPin](const NotABadge& found) {
            if (m_who->text() != (isOverPin ? before : text)) return;
            m_who->setText(found.why.isEmpty() ? text : before);
            if (found.why.isEmpty()) return;
            const bool mayBePin = isOverPin && (isAllFigures(text) || !found.isKnown);
            refuse(mayBePin ? tr("What was read is nobody's badge here. It is not shown, since it "
                                 "may be a PIN that was typed very fast: type it once more, more "
                                 "slowly.")
                            : found.why,
                   *m_pin);
        });
    return true;
}

void SignInSheet::refuse(const QString& text, QWidget& lacking) {
    m_trouble->setText(text);
    m_trouble->show();
    bringUp(lacking);
}

void SignInSheet::signIn() {
    if (!m_enter->isEnabled()) return;
    // Nothing is tried that was not typed: a try that fails makes wait.
    if (m_who->text().trimmed().isEmpty()) {
        refuse(tr("Nothing was tried. Say who it is first: scan the badge, or type the short "
                  "name."),
               *m_who);
        return;
    }
    if (m_pin->secret().text().empty()) {
        refuse(tr("Type the PIN first."), *m_pin);
        return;
    }
    m_enter->setEnabled(false);
    auto pin = std::make_shared<station::Secret>(m_pin->take());
    m_workplace.read(
        [who = plainText(m_who->text().trimmed()), pin](const auto& surroundings,
                                                        const auto& file) {
            return station::signIn(surroundings, file, who, *pin);
        },
        this, [this](station::Result<station::Session> session) {
            m_enter->setEnabled(true);
            if (!session) {
                refuse(shownText(session.error().notice.text()), *m_pin);
                return;
            }
            m_workplace.presence().begin(*session);
            finish(station::Writer(std::move(*session)));
        });
}

void SignInSheet::finish(const station::Writer& writer) {
    // Gone first: what follows may put a sheet of its own.
    const auto taken = std::exchange(m_taken, nullptr);
    close();
    if (taken) taken(writer);
}

}  // namespace desktop
