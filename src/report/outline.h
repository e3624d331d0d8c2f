// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An answer as the pieces of a page, in the order in which they are read: for text, and for a
// screen that has letters of several sizes. Knows no answer.
#pragma once

#include "report/layout.h"
#include "report/provenance.h"

#include <optional>
#include <string>
#include <vector>

namespace report {

struct Piece {
    enum class Kind {
        Gap,  // an empty line
        Heading,
        Doubt,   // what may not be relied on
        Origin,  // what the answer rests on: edition, instant, verification
        Paragraph,
        Table,
        Caution,
    };
    Kind kind{};
    std::string text{};
    std::size_t indent = 0;
    std::optional<Table> table{};
};

class Outline {
public:
    void gap() { m_pieces.push_back({Piece::Kind::Gap}); }
    void heading(std::string text) { m_pieces.push_back({Piece::Kind::Heading, std::move(text)}); }
    void paragraph(std::string text, std::size_t indent = 0) {
        m_pieces.push_back({Piece::Kind::Paragraph, std::move(text), indent});
    }
    void table(Table table, std::size_t indent = 0) {
        m_pieces.push_back({Piece::Kind::Table, {}, indent, std::move(table)});
    }
    // The lines at the head of an answer (provenance.h).
    void head(const words::Context& context, const Provenance& provenance,
              const std::optional<std::string>& groupAsked = {});
    // The caution that ends every page, after a gap.
    void caution(const words::Words& words);

    [[nodiscard]] const std::vector<Piece>& pieces() const { return m_pieces; }
    [[nodiscard]] std::string text(std::size_t width) const;

private:
    std::vector<Piece> m_pieces;
};

}  // namespace report
