// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// To a file or a printer; see paper.h.
#include "print/paper.h"

#include "print/pages.h"

#include <QPageSize>
#include <QPdfWriter>
#include <QPrinter>
#include <QPrinterInfo>
#include <QSaveFile>
#include <algorithm>

namespace print {

namespace {

// The device's own margins are none: the pages keep theirs.
void setUp(QPagedPaintDevice& device, const Paper& paper) {
    const auto size = paper.size == PaperSize::A4 ? QPageSize::A4 : QPageSize::Letter;
    device.setPageLayout({QPageSize(size), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)});
}

}  // namespace

tl::expected<int, PaperTrouble> writePdf(const Paper& paper, const std::filesystem::path& path) {
    QSaveFile file(QString::fromStdString(path.string()));
    if (!file.open(QIODevice::WriteOnly)) return tl::unexpected(PaperTrouble::CannotWrite);
    int pages = 0;
    {
        QPdfWriter writer(&file);
        writer.setResolution(300);
        writer.setTitle(QString::fromStdString(paper.title));
        writer.setCreator(QStringLiteral("Airmuster"));
        setUp(writer, paper);
        pages = drawPages(writer, paper);
    }
    if (pages == 0 || !file.commit()) return tl::unexpected(PaperTrouble::CannotWrite);
    return pages;
}

std::vector<std::string> printers() {
    std::vector<std::string> names;
    for (const auto& name : QPrinterInfo::availablePrinterNames())
        names.push_back(name.toStdString());
    const auto usual = QPrinterInfo::defaultPrinterName().toStdString();
    std::stable_partition(names.begin(), names.end(),
                          [&](const auto& name) { return name == usual; });
    return names;
}

tl::expected<int, PaperTrouble> printOn(const Paper& paper, std::string_view printer) {
    const auto info = QPrinterInfo::printerInfo(
        QString::fromUtf8(printer.data(), static_cast<qsizetype>(printer.size())));
    if (info.isNull()) return tl::unexpected(PaperTrouble::NoPrinter);
    QPrinter device(info, QPrinter::HighResolution);
    device.setDocName(QString::fromStdString(paper.title));
    device.setFullPage(true);
    setUp(device, paper);
    const int pages = drawPages(device, paper);
    if (pages == 0) return tl::unexpected(PaperTrouble::NoPrinter);
    return pages;
}

}  // namespace print
