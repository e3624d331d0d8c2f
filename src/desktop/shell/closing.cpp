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
    const auto all = lost();
    if (all.isEmpty()) return true;
    if (!m_isAsked) ask(all, cause);
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

void Closing::ask(const QStringList& lost, Cause cause) {
    m_isAsked = true;
    auto lines = lost;
    if (cause == Cause::Session)
        lines.prepend(tr("This computer is to be shut down, or you signed out of it. It was asked "
                         "to wait; once this window is closed, do that again."));
    lines << tr("Close the window all the same? That is lost then. What is in the logbook stays.");
    m_tools.workplace.ask(
        {lines.join(QLatin1Char('\n')), tr("Close it, lose that"), tr("Keep writing")},
        [self = QPointer<Closing>(this)](bool isYes) {
            if (!self) return;
            self->m_isAsked = false;
            self->m_isSure = isYes;
            if (isYes) Q_EMIT self->wanted();
        });
}

}  // namespace desktop
