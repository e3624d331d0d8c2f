// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pieces; see outline.h.
#include "report/outline.h"

namespace report {

// Problems and stale stations come first there.
void Outline::head(const words::Context& context, const Provenance& provenance,
                   const std::optional<std::string>& groupAsked) {
    auto doubts = provenance.problems.size() + staleLines(context, provenance).size();
    for (auto& line : headLines(context, provenance, groupAsked)) {
        const auto kind = doubts > 0 ? Piece::Kind::Doubt : Piece::Kind::Origin;
        if (doubts > 0) --doubts;
        m_pieces.push_back({kind, std::move(line)});
    }
}

void Outline::caution(const words::Words& words) {
    gap();
    m_pieces.push_back({Piece::Kind::Caution, words.say("caution.full")});
}

std::string Outline::text(std::size_t width) const {
    std::string text;
    for (const auto& piece : m_pieces) {
        switch (piece.kind) {
            case Piece::Kind::Gap: text += "\n"; break;
            case Piece::Kind::Heading: text += piece.text + "\n"; break;
            case Piece::Kind::Table: text += piece.table->text(width, piece.indent); break;
            case Piece::Kind::Doubt:
            case Piece::Kind::Origin:
            case Piece::Kind::Paragraph:
            case Piece::Kind::Caution: text += wrapped(piece.text, width, piece.indent); break;
        }
    }
    return text;
}

}  // namespace report
