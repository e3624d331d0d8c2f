// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet of a hold as a PDF, read back by another program (pdftotext, poppler-utils).
#include "print/hold_sheet.h"

#include "support/folder.h"

#include <array>
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <iterator>
#include <sys/resource.h>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

// What a program prints that must succeed.
std::string outputOf(const std::string& command) {
    auto* pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 4096> part{};
    while (const auto count = std::fread(part.data(), 1, part.size(), pipe))
        output.append(part.data(), count);
    REQUIRE(::pclose(pipe) == 0);
    return output;
}

std::string textOf(const std::filesystem::path& pdf) {
    return outputOf("pdftotext -layout '" + pdf.string() + "' -");
}

report::BedsideIdentity unit() {
    report::BedsideIdentity identity;
    identity.device = identity.serial = "KB-0106";
    identity.asset = "A-0106";
    identity.label = "ICU-06";
    identity.model = "Larch 3";
    identity.place = "Equipment room";
    return identity;
}

report::HoldSheet sheet(std::vector<std::string> lines) {
    return {"incident", "Held after an incident", "14 Nov 03:40", "Jonas Linden", std::move(lines),
            "This can be lifted by: Risk manager (Ida Okonjo)."};
}

print::Paper paper(std::vector<std::string> lines, print::PaperSize size = print::PaperSize::A4) {
    const auto held = unit();
    const auto shown = sheet(std::move(lines));
    return print::holdSheetPaper(english(), {held, shown, "2026-2", "28 Nov 2026 08:00",
                                             "28 Nov 2026 08:01", size, "patient harmed"});
}

const std::vector<std::string> shortLines{"Do not clean or switch off.",
                                          "Call risk management. Größe 1"};

}  // namespace

TEST_CASE("the sheet of a hold says which unit, what to do and who lifts it", "[unit]") {
    const support::Folder folder;
    const auto file = folder.file("hold.pdf");
    REQUIRE(print::writePdf(paper(shortLines), file) == 1);
    const auto text = textOf(file);
    for (const auto* said :
         {"Held after an incident", "KB-0106", "A-0106 · ICU-06 · Larch 3 · Equipment room",
          "Since 14 Nov 03:40, entered by Jonas Linden.", "Reason given: patient harmed",
          "Do not clean or switch off.",
          "Call risk management. Größe 1", "This can be lifted by: Risk manager (Ida Okonjo).",
          "Check the unit before connecting.", "Policy edition 2026-2", "28 Nov 2026 08:01",
          "Page 1 of 1"}) {
        INFO(said << "\n" << text);
        CHECK(text.find(said) != std::string::npos);
    }
}

TEST_CASE("what is on paper is one size or the other, to the edge", "[unit]") {
    const support::Folder folder;
    const auto file = folder.file("hold.pdf");
    // ISO 216: A4 is 210 mm by 297 mm; ANSI/ASME Y14.1: Letter is 8.5 in by 11 in.
    REQUIRE(print::writePdf(paper(shortLines), file));
    CHECK(outputOf("pdfinfo '" + file.string() + "'").find("(A4)") != std::string::npos);
    REQUIRE(print::writePdf(paper(shortLines, print::PaperSize::Letter), file));
    CHECK(outputOf("pdfinfo '" + file.string() + "'").find("(letter)") != std::string::npos);
}

TEST_CASE("the sheet of a department's hold is one page, and nothing leaves it", "[unit]") {
    const auto held = unit();
    const auto shown = sheet({"Do not clean, reset, switch off or unplug the unit unless leaving "
                              "it on is unsafe.",
                              "Keep the circuit, the parts, their packages and lot labels with "
                              "the unit.",
                              "Write down who was there and the settings on the screen.",
                              "Call risk management and biomed; note who has custody."});
    const support::Folder folder;
    const auto file = folder.file("hold.pdf");
    for (const auto size : {print::PaperSize::A4, print::PaperSize::Letter}) {
        const auto* time = "28 Nov 2026 22:33 CST (UTC-06:00, 2026-11-29T04:33:56Z)";
        REQUIRE(print::writePdf(
                    print::holdSheetPaper(english(), {held, shown, "2026-2", time, time, size}),
                    file) == 1);
        const auto boxes = outputOf("pdftotext -bbox '" + file.string() + "' -");
        const double width = std::stod(boxes.substr(boxes.find("<page width=\"") + 13));
        std::size_t words = 0;
        for (auto at = boxes.find("xMax=\""); at != std::string::npos;
             at = boxes.find("xMax=\"", at + 1), ++words)
            CHECK(std::stod(boxes.substr(at + 6)) < width - 36);  // half an inch, as printers need
        CHECK(words > 60);
    }
}

TEST_CASE("a long sheet goes on on further pages, each with its foot", "[unit]") {
    std::vector<std::string> lines;
    for (int line = 1; line <= 60; ++line)
        lines.push_back("Line " + std::to_string(line) +
                        " says at some length what to keep as it is, what not to touch and whom "
                        "to call before anybody takes the unit away from where it stands.");
    const support::Folder folder;
    const auto file = folder.file("hold.pdf");
    const auto pages = print::writePdf(paper(lines), file);
    REQUIRE(pages);
    REQUIRE(*pages > 2);
    const auto text = textOf(file);
    for (int line = 1; line <= 60; ++line) {
        INFO("line " << line);
        CHECK(text.find("Line " + std::to_string(line) + " says") != std::string::npos);
    }
    for (int page = 1; page <= *pages; ++page) {
        const auto number = "Page " + std::to_string(page) + " of " + std::to_string(*pages);
        INFO(number);
        CHECK(text.find(number) != std::string::npos);
    }
}

TEST_CASE("a sheet that cannot be written leaves nothing and says so", "[fault]") {
    const support::Folder folder;
    const auto nowhere = folder.file("no such folder") / "hold.pdf";
    const auto written = print::writePdf(paper(shortLines), nowhere);
    REQUIRE_FALSE(written);
    CHECK(written.error() == print::PaperTrouble::CannotWrite);
    CHECK_FALSE(std::filesystem::exists(nowhere));
}

TEST_CASE("a disk that is full leaves the sheet that was there before", "[fault]") {
    const support::Folder folder;
    const auto file = folder.write("hold.pdf", "the sheet of yesterday");
    ::rlimit before{};
    REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
    auto little = before;
    little.rlim_cur = 4096;
    ::signal(SIGXFSZ, SIG_IGN);
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &little) == 0);
    const auto written = print::writePdf(paper(shortLines), file);
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
    REQUIRE_FALSE(written);
    CHECK(written.error() == print::PaperTrouble::CannotWrite);
    CHECK(support::bytesOf(file) == "the sheet of yesterday");
    const std::filesystem::directory_iterator files(folder.path());
    CHECK(std::distance(begin(files), end(files)) == 1);
}

TEST_CASE("a printer that is not there is told of", "[fault]") {
    const auto printed = print::printOn(paper(shortLines), "no printer of that name");
    REQUIRE_FALSE(printed);
    CHECK(printed.error() == print::PaperTrouble::NoPrinter);
}
