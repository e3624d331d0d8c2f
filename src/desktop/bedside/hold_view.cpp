// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet; see hold_view.h.
#include "desktop/bedside/hold_view.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrapped_button.h"
#include "print/hold_sheet.h"
#include "station/system.h"
#include "words/shown.h"

#include <QDir>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QStandardPaths>
#include <QVBoxLayout>
#include <utility>

namespace desktop {

namespace {

using Printed = tl::expected<int, print::PaperTrouble>;

enum class Saved { Yes, Taken, CannotWrite };

// Beside the person's documents, under a name that is not taken.
QString freeFile(const std::string& device) {
    auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    if (!QFileInfo(folder).isDir()) folder = QDir::homePath();
    QString name = shownText(device);
    for (auto& letter : name)
        if (!letter.isLetterOrNumber() && letter != QLatin1Char('-')) letter = QLatin1Char('_');
    for (int number = 1;; ++number) {
        const auto end = number == 1 ? QString() : QStringLiteral("-%1").arg(number);
        const auto file = QDir(folder).filePath(
            QStringLiteral("hold-%1%2.pdf").arg(name, end));
        if (!QFileInfo::exists(file)) return file;
    }
}

// As printers have it where the computer stands.
print::PaperSize paperSize() {
    return QLocale::system().measurementSystem() == QLocale::MetricSystem
               ? print::PaperSize::A4
               : print::PaperSize::Letter;
}

}  // namespace

HoldView::HoldView(DeskTools tools, SharedUnitView unit, std::size_t hold, QWidget* parent)
    : Sheet(shownText(unit->bedside.identity.sheets.at(hold).label), parent),
      m_tools(tools),
      m_unit(std::move(unit)),
      m_hold(m_unit->bedside.identity.sheets[hold]) {
    addLines();
    addFoot();
    // To look for printers may take seconds; a file waits for none.
    m_tools.workplace.runErrand(
        [device = m_unit->bedside.identity.device] { return freeFile(device); }, this,
        [this](const QString& file) {
            if (m_file->isModified()) return;
            m_file->setText(file);
            if (m_file->hasFocus()) m_file->selectAll();  // what is typed now replaces it
        });
    m_tools.workplace.runErrand([] { return print::printers(); }, this,
                                [this](const std::vector<std::string>& printers) {
                                    if (!printers.empty()) offerPrinter(printers.front());
                                });
}

void HoldView::addLines() {
    content()->addWidget(textLabel(unitLine(m_unit->bedside.identity), TextRole::Strong));
    content()->addWidget(
        textLabel(tr("Since %1, entered by %2.").arg(shownText(m_hold.since), shownText(m_hold.by)),
                  TextRole::Plain));
    if (const auto given = shownText(words::shown(reason())); !given.isEmpty())
        content()->addWidget(textLabel(tr("Reason given: %1").arg(given), TextRole::Plain));
    for (const auto& line : m_hold.lines)
        content()->addWidget(textLabel(shownText(line), TextRole::Large));
    if (!m_hold.lifters.empty())
        content()->addWidget(textLabel(shownText(m_hold.lifters), TextRole::Plain));
    auto* label = textLabel(tr("&File for the sheet, to print or to hand on"), TextRole::Plain);
    label->setTextFormat(Qt::AutoText);
    m_file = new QLineEdit;
    m_file->setAccessibleName(tr("File for the sheet"));
    label->setBuddy(m_file);
    content()->addWidget(label);
    content()->addWidget(m_file);
    content()->addStretch();
}

void HoldView::addFoot() {
    m_told = textLabel({}, TextRole::Strong);
    m_told->hide();
    overFoot()->addWidget(m_told);
    auto* back = new WrappedButton(tr("Back"));
    m_save = new WrappedButton(tr("Save it as a PDF"));
    m_save->setMain(true);
    // There from the first: what is pressed stands still while printers are looked for.
    m_print = new WrappedButton(tr("Print it: no printer yet"));
    m_print->setEnabled(false);
    for (auto* each : {back, m_save, m_print}) foot()->addWidget(each);
    connect(back, &QPushButton::clicked, this, &Sheet::callOff);
    connect(m_save, &QPushButton::clicked, this, &HoldView::savePdf);
}

void HoldView::offerPrinter(const std::string& printer) {
    m_print->setText(tr("Print it on %1").arg(buttonText(printer)));
    m_print->setEnabled(true);
    m_print->setMain(true);
    m_save->setMain(false);
    connect(m_print, &QPushButton::clicked, this, [this, printer] { printOn(printer); });
}

// As it was given, if it was.
std::string HoldView::reason() const {
    const auto& holds = deviceOf(*m_unit).holds;
    const auto standing = holds.find(m_hold.hold);
    return standing == holds.end() ? "" : standing->second.reason;
}

print::Paper HoldView::paper() const {
    const auto& bedside = m_unit->bedside;
    const auto& words = m_tools.workplace.words();
    const auto now = m_tools.workplace.clock().now();
    const words::Times times(words, *bedside.zone, now);
    return print::holdSheetPaper(words, {bedside.identity, m_hold, bedside.edition,
                                         times.full(bedside.asked), times.full(now), paperSize(),
                                         reason()});
}

void HoldView::tell(const QString& text) {
    m_told->setText(text);
    m_told->show();
}

void HoldView::savePdf() {
    const auto file = m_file->text().trimmed();
    if (file.isEmpty()) {
        tell(tr("Nothing was saved: give the file a name."));
        m_file->setFocus();
        return;
    }
    m_save->setEnabled(false);
    m_tools.workplace.runErrand(
        [paper = paper(), path = plainText(file)] {
            if (station::system::exists(path)) return Saved::Taken;
            const Printed printed = print::writePdf(paper, path);
            return printed ? Saved::Yes : Saved::CannotWrite;
        },
        this, [this, file](Saved saved) {
            m_save->setEnabled(true);
            if (saved == Saved::Yes) tell(tr("Saved as %1.").arg(file));
            if (saved == Saved::Taken)
                tell(tr("Nothing was saved: there is a file of that name. Take another."));
            if (saved == Saved::CannotWrite)
                tell(tr("Nothing was saved: %1 cannot be written. Take another folder.")
                         .arg(file));
            (saved == Saved::Yes ? static_cast<QWidget*>(m_save) : m_file)->setFocus();
        });
}

void HoldView::printOn(const std::string& printer) {
    m_print->setEnabled(false);
    m_tools.workplace.runErrand(
        [paper = paper(), printer]() -> Printed {
            return print::printOn(paper, printer);
        },
        this, [this, printer](const Printed& printed) {
            m_print->setEnabled(true);
            m_print->setFocus();
            tell(printed ? tr("Sent to %1.").arg(shownText(printer))
                         : tr("%1 took nothing. Save the sheet as a PDF instead.")
                               .arg(shownText(printer)));
        });
}

}  // namespace desktop
