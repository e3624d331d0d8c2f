// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Before the window is closed; see closing.h.
#include "desktop/shell/closing.h"

#include "desktop/shell/sheet.h"
#include "desktop/shell/text.h"
#include "words/context.h"

#include <QGuiApplication>
#include <QPointer>
#include <QSessionManager>
#include <utility>

namespace desktop {

Closing::Closing(DeskTools tools, Looks looks, QObject* parent)
    : QObject(parent), m_tools(tools), m_looks(std::move(looks)) {
    // It has to be answered at once; a system that lets nothing be asked goes on regardless.
    connect(
        qGuiApp, &QGuiApplication::commitDataRequest, this,
        [this](QSessionManager& session) {
            if (session.allowsInteraction() && !mayClose(Cause::Session)) session.cancel();
        },
        Qt::DirectConnection);
}

bool Closing::mayClose(Cause cause) {
    if (m_isSure) return true;
    if (lost().isEmpty() && m_looks.waits().isEmpty()) return true;
    if (!m_isAsked) ask(cause);
    return false;
}

QString Closing::nameOf(const std::string& person) const {
    const auto& fleet = m_tools.workplace.fleet();
    if (!fleet) return {};
    return shownText(words::personName(fleet->board.context(m_tools.workplace.words()), person));
}

QStringList Closing::lost() const {
    const auto on = [](const QString& title, const QString& unit) {
        return unit.isEmpty() ? title : tr("%1, unit %2").arg(title, unit);
    };
    QStringList lines;
    for (const auto& [title, aside] : m_tools.sheets.unkept()) {
        if (!aside) {
            lines << on(title, m_looks.unit());
            continue;
        }
        const auto what = on(title, shownText(aside->unit));
        const auto name = aside->owner.empty() ? QString() : nameOf(aside->owner);
        lines << (name.isEmpty() ? tr("%1, put aside").arg(what)
                                 : tr("%1, put aside by %2").arg(what, name));
    }
    if (!lines.isEmpty()) lines.prepend(tr("Not kept yet:"));
    if (const auto more = m_looks.lost(); !more.isEmpty()) lines << more;
    return lines;
}

Question Closing::question(const QStringList& lost, const QString& waits) const {
    auto lines = lost;
    if (!waits.isEmpty())
        lines << waits
              << tr("It is noted on this computer, and recorded once this window is open again and "
                    "the logbook can be written. Until then nobody sees it.");
    if (lost.isEmpty()) {
        lines << tr("Close the window all the same?");
        return {lines.join(QLatin1Char('\n')), tr("Close it"), tr("Leave it open")};
    }
    lines << (waits.isEmpty()
                  ? tr("Close the window all the same? That is lost then. What is in the logbook "
                       "stays.")
                  : tr("Close the window all the same? All but what is noted is lost then. What is "
                       "in the logbook stays."));
    return {lines.join(QLatin1Char('\n')), tr("Close it, lose that"), tr("Keep writing")};
}

void Closing::ask(Cause cause) {
    m_isAsked = true;
    auto asked = question(lost(), m_looks.waits());
    if (cause == Cause::Session)
        asked.text.prepend(tr("This computer is to be shut down, or you signed out of it. It was "
                              "asked to wait; once this window is closed, do that again.") +
                           QLatin1Char('\n'));
    m_tools.workplace.ask(asked, [self = QPointer<Closing>(this)](bool isYes) {
        if (!self) return;
        self->m_isAsked = false;
        self->m_isSure = isYes;
        if (isYes) Q_EMIT self->wanted();
    });
}

}  // namespace desktop
