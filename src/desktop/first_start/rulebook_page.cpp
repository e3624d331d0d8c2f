// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By which rules; see rulebook_page.h.
#include "desktop/first_start/rulebook_page.h"

#include "desktop/shell/press_row.h"
#include "desktop/shell/text.h"
#include "rules/rulebook_reader.h"
#include "station/rulebook_remarks.h"
#include "station/problem.h"
#include "station/shipped_rulebooks.h"

#include <QFileInfo>
#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

namespace {

QString linesOf(const std::vector<std::string>& lines) {
    QStringList shown;
    for (const auto& line : lines) shown << shownText(line);
    return shown.join(QLatin1Char('\n'));
}

}  // namespace

RulebookPage::RulebookPage(Workplace& workplace, QWidget* parent)
    : SetupPage(tr("The rules"), tr("Begin the logbook"), parent), m_workplace(workplace) {
    addText(tr("Which checks a unit needs, and for how long they hold. Those that come with the "
               "program are examples that nobody has approved; a department puts its own in force, "
               "now or later."));
    for (const auto& shipped : station::shippedRulebooks()) addOffer({nullptr, shipped.name, {}});
    auto* own = addOffer({});
    own->say(tr("Our own rulebook …"), tr("A file that your department has written"));
    m_warnings = addText({});
    m_warnings->setAccessibleName(tr("What to think about in this rulebook"));
    rows().addStretch();
}

PressRow* RulebookPage::addOffer(Offer offer) {
    const auto index = m_offers.size();
    auto* row = new PressRow;
    row->setCheckable(true);
    offer.row = row;
    rows().addWidget(row);
    m_offers.push_back(std::move(offer));
    m_looks.emplace_back();
    connect(row, &QPushButton::clicked, this, [this, index] {
        const bool isOwn = index + 1 == m_offers.size();
        choose(m_chosen);  // it is chosen once there is something in it
        if (isOwn)
            Q_EMIT fileWanted();
        else
            choose(index);
    });
    if (!m_offers[index].shipped.empty()) lookAt(index);
    return row;
}

void RulebookPage::takeFile(const QString& path) {
    m_offers.back().file = plainText(path);
    lookAt(m_offers.size() - 1);
    choose(m_offers.size() - 1);
}

void RulebookPage::choose(std::size_t index) {
    m_chosen = index;
    for (std::size_t i = 0; i < m_offers.size(); ++i) m_offers[i].row->setChecked(i == index);
    m_warnings->setText(index < m_looks.size() ? m_looks[index].text : QString());
    if (index < m_offers.size()) Q_EMIT chosen();
}

RulebookPage::Look RulebookPage::lookOf(const station::Surroundings& surroundings,
                                        const Offer& offer) {
    rules::RulebookReading reading;
    if (offer.file.empty()) {
        for (const auto& shipped : station::shippedRulebooks())
            if (shipped.name == offer.shipped)
                reading = rules::readRulebook(shipped.text, surroundings.zones);
    } else {
        const auto text = station::system::readFile(offer.file);
        if (!text) {
            const auto problem =
                station::problemOf(surroundings.words, text.error(), offer.file);
            return {{}, {}, shownText(problem.notice.text()), false};
        }
        reading = rules::readRulebook(*text, surroundings.zones);
    }
    Look look;
    look.isUsable = reading.rulebook != nullptr;
    const auto& words = surroundings.words;
    if (!look.isUsable) {
        look.text = linesOf(station::remarkLines(words, reading.faults));
        return look;
    }
    look.text =
        linesOf(station::remarksInWords(words, *reading.rulebook, reading.warnings));
    look.title = shownText(reading.rulebook->title);
    std::vector<std::string> groups;
    for (const auto& group : reading.rulebook->groups)
        groups.push_back(surroundings.words.label(group.label, group.key));
    look.groups = shownText(surroundings.words.all(groups));
    return look;
}

void RulebookPage::lookAt(std::size_t index) {
    m_workplace.read(
        [offer = m_offers[index]](const auto& surroundings, const auto&) {
            return lookOf(surroundings, offer);
        },
        this, [this, index](Look look) {
            const auto& offer = m_offers[index];
            const auto name = QFileInfo(shownText(offer.file)).fileName();
            if (!look.isUsable)
                offer.row->say(tr("Our own rulebook …"), tr("%1 cannot be used").arg(name));
            else if (offer.file.empty())
                offer.row->say(look.title, look.groups);
            else
                offer.row->say(look.title, tr("%1: %2").arg(name, look.groups));
            if (!look.text.isEmpty())
                look.text.prepend(look.isUsable ? tr("To think about; it can be used as it is:\n")
                                                : tr("These faults have to be put right first:\n"));
            m_looks[index] = std::move(look);
            if (m_chosen == index) choose(index);
        });
}

void RulebookPage::state(Founding& founding) const {
    founding.rulebook = m_chosen < m_offers.size() ? m_offers[m_chosen].file : "";
    founding.shippedRulebook = m_chosen < m_offers.size() ? m_offers[m_chosen].shipped : "";
}

QString RulebookPage::fault() {
    if (m_chosen >= m_offers.size()) return tr("No rulebook is chosen yet. Press one.");
    if (!m_looks[m_chosen].isUsable)
        return tr("This rulebook cannot be used. Put its faults right, or choose another.");
    return {};
}

void RulebookPage::enter() {
    m_offers.front().row->setFocus();
}

}  // namespace desktop
