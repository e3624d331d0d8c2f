// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook that is looked at and stays as it is, with what lies beside it: where a write into it
// was cut off, that is undone in a copy.
#pragma once

#include "store/logbook.h"
#include "store/trouble.h"

#include <filesystem>
#include <memory>
#include <tl/expected.hpp>

namespace store {

class UnfinishedFile;

class LeftAlone {
public:
    // To be read, whatever its locks. A copy is made beside `near` and goes with this. As
    // Logbook::open; NeedsRecovery where a copy is needed and no file can be made there.
    [[nodiscard]] static tl::expected<LeftAlone, Trouble> open(const std::filesystem::path& path,
                                                               const std::filesystem::path& near);
    LeftAlone(LeftAlone&&) noexcept;
    LeftAlone& operator=(LeftAlone&&) noexcept;
    ~LeftAlone();

    [[nodiscard]] const Logbook& logbook() const { return m_logbook; }
    // As trouble with the file that was asked for, not with the copy.
    [[nodiscard]] Trouble told(Trouble trouble) const;

private:
    LeftAlone(std::filesystem::path path, std::unique_ptr<UnfinishedFile> copy, Logbook logbook);

    std::filesystem::path m_path;
    std::unique_ptr<UnfinishedFile> m_copy;  // null: it is read itself
    Logbook m_logbook;                       // closed before the copy goes
};

}  // namespace store
