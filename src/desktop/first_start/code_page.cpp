// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The recovery code; see code_page.h.
#include "desktop/first_start/code_page.h"

#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"

#include <QLabel>
#include <QVBoxLayout>

namespace desktop {

CodePage::CodePage(QWidget* parent)
    : SetupPage(tr("The recovery code"), tr("I have written it down"), parent) {
    m_done = addText({});
    addText(tr("If no manager can sign in any more, this code gives one of them a new PIN, once. "
               "Write it on paper and lock it away. It is not shown again."));
    m_code = addText({});
    auto font = fontFor(TextRole::Title);
    font.setFamily(QStringLiteral("DejaVu Sans Mono"));
    m_code->setFont(font);
    m_code->setObjectName(QStringLiteral("code"));
    m_code->setProperty("framed", true);
    rows().addStretch();
}

// It wraps only between its groups.
void CodePage::show(const station::Begun& begun, const QString& path) {
    m_done->setText(tr("The logbook is begun: %1\n%2 is its manager and is signed in.")
                        .arg(path, shownText(begun.name)));
    auto code = shownText(begun.code.text());
    m_code->setAccessibleName(tr("Recovery code: %1").arg(code));
    m_code->setText(code);
}

void CodePage::forget() {
    m_code->clear();
    m_code->setAccessibleName({});
}

}  // namespace desktop
