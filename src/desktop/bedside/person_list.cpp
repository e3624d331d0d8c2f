// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The people; see person_list.h.
#include "desktop/bedside/person_list.h"

#include "desktop/shell/text.h"
#include "desktop/shell/workplace.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "station/log_at_hand.h"
#include "words/shown.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

namespace desktop {

std::vector<Somebody> peopleOf(const FleetView& fleet) {
    const auto& state = fleet.standing->state;
    const auto today = state.rulebook->zone->dayOf(fleet.standing->at);
    std::vector<Somebody> people;
    for (const auto& [key, known] : state.persons)
        if (!known.person.until || *known.person.until >= today)
            people.push_back({key, shownText(words::shown(known.person.name))});
    std::ranges::sort(people, [](const auto& one, const auto& other) {
        return one.name.localeAwareCompare(other.name) < 0;
    });
    return people;
}

PersonList::PersonList(Workplace& workplace, const std::set<std::string>& notOffered,
                       QWidget* parent)
    : QWidget(parent), m_workplace(workplace) {
    if (const auto& fleet = workplace.fleet())
        for (auto& each : peopleOf(*fleet))
            (notOffered.contains(each.person) ? m_notOffered : m_people)
                .push_back(std::move(each));
    auto* label = new QLabel(tr("Press a &name, type some letters of it, or scan the badge"));
    label->setWordWrap(true);
    m_field = new QLineEdit;
    m_field->setAccessibleName(tr("Letters of the name"));
    label->setBuddy(m_field);
    m_said = new QLabel;
    m_said->setWordWrap(true);
    m_said->hide();
    m_names = new QWidget;
    new WrapLayout(WrapLayout::Manner::Packed, m_names);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    for (auto* each : std::initializer_list<QWidget*>{label, m_field, m_said, m_names})
        layout->addWidget(each);
    for (const auto& somebody : m_people) {
        auto* button = new WrappedButton(somebody.name);
        m_names->layout()->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, somebody] {
            Q_EMIT chosen(somebody);
        });
    }
    connect(m_field, &QLineEdit::textChanged, this, &PersonList::show);
}

void PersonList::show(const QString& letters) {
    for (std::size_t i = 0; i < m_people.size(); ++i) {
        const auto& somebody = m_people[i];
        const bool isMeant =
            somebody.name.contains(letters.trimmed(), Qt::CaseInsensitive) ||
            shownText(somebody.person).contains(letters.trimmed(), Qt::CaseInsensitive);
        m_names->layout()->itemAt(static_cast<int>(i))->widget()->setVisible(isMeant);
    }
    m_names->layout()->invalidate();
}

void PersonList::readBadge(const QString& text) {
    m_workplace.read(
        [who = plainText(text)](const auto& surroundings, const auto& file) {
            return station::readPeople(surroundings, file).and_then([&](const auto& people) {
                return station::Gate(surroundings, file, people).personOf(who);
            });
        },
        this, [this, text](const station::Result<std::string>& person) {
            const auto known = std::ranges::find_if(m_people, [&](const auto& each) {
                return person && each.person == *person;
            });
            if (known != m_people.end()) {
                Q_EMIT chosen(*known);
                return;
            }
            const auto other = std::ranges::find_if(m_notOffered, [&](const auto& each) {
                return person && each.person == *person;
            });
            m_said->setText(other != m_notOffered.end()
                                ? tr("%1 has a part in it already. Somebody else is wanted.")
                                      .arg(other->name)
                            : person ? tr("Read %1, which is nobody's badge.").arg(text)
                                     : shownText(person.error().notice.text()));
            m_said->show();
        });
}

}  // namespace desktop
