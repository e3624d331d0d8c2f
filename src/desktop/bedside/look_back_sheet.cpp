// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The look back; see look_back_sheet.h.
#include "desktop/bedside/look_back_sheet.h"

#include "desktop/shell/outline_html.h"
#include "desktop/shell/text.h"
#include "desktop/shell/typed_time.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "station/given_time.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTextBrowser>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

namespace {

struct Past {
    std::string when;  // the instant, in full
    report::Outline page;
};

struct LookQuestion {
    std::string device, given;
};

// Given times are those of the department's clock on the wall.
station::Result<Past> lookBack(const station::Surroundings& surroundings,
                               const station::LogbookFile& file, const LookQuestion& question) {
    const auto& words = surroundings.words;
    const auto given = station::parseGivenTime(question.given, words);
    if (!given)
        return tl::unexpected(station::problemOf(words, "window.no_time",
                                                 {{"text", question.given}}));
    const auto zone = station::zoneInForce(surroundings, file);
    if (!zone) return tl::unexpected(zone.error());
    logbook::Instant at{};
    if (const auto* wall = std::get_if<station::WallTime>(&*given)) {
        const auto found = station::instantAt(words, **zone, *wall, surroundings.clock.now(),
                                              station::Tense::Past);
        if (!found) return tl::unexpected(found.error());
        at = *found;
    } else {
        at = std::get<logbook::Instant>(*given);
    }
    if (surroundings.clock.now() < at)
        return tl::unexpected(station::problemOf(words, "window.not_past",
                                                 {{"text", question.given}}));
    const auto standing = station::wholeStanding(surroundings, file, {.at = at});
    if (!standing) return tl::unexpected(standing.error());
    const auto back = station::lookBack(surroundings, *standing, question.device);
    if (!back) return tl::unexpected(back.error());
    return Past{words::Times(words, **zone, at).full(at),
                report::outlineOf(*back, words)};
}

}  // namespace

LookBackSheet::LookBackSheet(DeskTools tools, std::string device, QWidget* parent)
    : Sheet(tr("Look back at unit %1").arg(shownText(device)), parent),
      m_tools(tools),
      m_device(std::move(device)) {
    addChoices();
    m_banner = textLabel({}, TextRole::Large);
    m_banner->setProperty("banner", true);
    m_banner->hide();
    content()->addWidget(m_banner);
    m_text = new QTextBrowser;
    m_text->setTabChangesFocus(true);
    m_text->setOpenLinks(false);
    m_text->setMinimumHeight(m_text->fontMetrics().height() * 10);
    m_text->setAccessibleName(tr("What could be known then, and what is known now"));
    content()->addWidget(m_text, 1);
    auto* back = new WrappedButton(tr("Back to the present"));
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    foot()->addWidget(back);
    setFocusProxy(m_when);
}

void LookBackSheet::addChoices() {
    auto* label = new QLabel(tr("&When? As in 02:14, or 2026-11-14 02:14; in the hour that comes "
                                "twice also first or second."));
    label->setWordWrap(true);
    m_when = new QLineEdit;
    m_when->setAccessibleName(tr("Time to look back to"));
    label->setBuddy(m_when);
    auto* look = new QPushButton(tr("Look back"));
    look->setProperty("main", true);
    auto* row = new QHBoxLayout;
    row->setSpacing(targetGap);
    row->addWidget(m_when, 1);
    row->addWidget(look);
    content()->addWidget(label);
    content()->addLayout(row);
    const auto ask = [this] { lookAt(plainText(completedTime(m_when->text()))); };
    connect(look, &QPushButton::clicked, this, ask);
    connect(m_when, &QLineEdit::returnPressed, this, ask);
}

// A long log takes its time; what was seen before is not taken for the answer meanwhile.
void LookBackSheet::lookAt(const std::string& given) {
    const LookQuestion question{m_device, given};
    show({}, tr("One moment: the entries up to then are being read.").toHtmlEscaped());
    m_tools.workplace.read(
        [question](const auto& surroundings, const auto& file) {
            return lookBack(surroundings, file, question);
        },
        this, [this](const station::Result<Past>& past) {
            if (past) {
                show(tr("THE PAST: %1").arg(shownText(past->when)), htmlOf(past->page));
            } else {
                show({}, shownText(past.error().notice.text()).toHtmlEscaped());
            }
        });
}

void LookBackSheet::show(const QString& banner, const QString& html) {
    m_banner->setText(banner);
    m_banner->setVisible(!banner.isEmpty());
    m_text->setHtml(html);
}

}  // namespace desktop
