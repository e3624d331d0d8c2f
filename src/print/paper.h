// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is to stand on paper, as plain text in its order, and where it goes: a file or a printer.
// Needs no display; the program must have made a QGuiApplication. Knows neither what the text means
// nor the logbook.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace print {

// The two sizes that hospitals have in their printers.
enum class PaperSize { A4, Letter };

struct Block {
    enum class Role {
        Title,    // once, at the top
        Large,    // read from some steps away
        Plain,
        Heading,  // of what follows
        Item,     // one of a list, apart from the next
        Blank,    // a line to write on, its text before it; the text may be empty
    };
    Role role = Role::Plain;
    std::string text;
};

struct Paper {
    std::string title;          // of the document, as a file viewer tells it
    std::vector<Block> blocks;
    std::vector<std::string> foot;  // lines at the foot of every page
    std::function<std::string(int page, int pages)> pageOf;  // "Page 1 of 2"
    PaperSize size = PaperSize::A4;
};

enum class PaperTrouble {
    CannotWrite,  // the file: no such folder, not allowed, disk full. Nothing is left of it.
    NoPrinter,    // of that name, or it takes no jobs
};

// How many pages it takes. A file of that name is replaced once the new one is whole.
[[nodiscard]] tl::expected<int, PaperTrouble> writePdf(const Paper& paper,
                                                       const std::filesystem::path& path);

// The names of the printers that this computer knows, the usual one first.
[[nodiscard]] std::vector<std::string> printers();

[[nodiscard]] tl::expected<int, PaperTrouble> printOn(const Paper& paper,
                                                      std::string_view printer);

}  // namespace print
