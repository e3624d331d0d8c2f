// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading a logbook without touching what lies beside it; see left_alone.h.
#include "store/left_alone.h"

#include "store/connection.h"
#include "store/journal_check.h"
#include "store/journal_file.h"
#include "store/operating_system.h"
#include "store/unfinished_file.h"
#include "store/unread.h"

#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

using Path = std::filesystem::path;

constexpr OpenOptions toRead{OpenOptions::Access::Read, true};

Trouble troubleAt(const Path& path, Trouble::Code code, std::string text) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = std::move(text);
    return trouble;
}

// The journal first: the file may only be read with it.
std::error_code copyBoth(const Path& from, const Path& to) {
    constexpr auto ownersOnly =
        std::filesystem::perms::owner_read | std::filesystem::perms::owner_write;
    for (const auto& [source, target] :
         {std::pair(journalOf(from), journalOf(to)), std::pair(from, to)}) {
        auto error = system::copyFile(source, target);
        if (!error) {
            std::filesystem::permissions(target, ownersOnly, error);
        }
        if (error) {
            return error;
        }
    }
    return {};
}

}  // namespace

LeftAlone::LeftAlone(Path path, std::unique_ptr<UnfinishedFile> copy, Logbook logbook)
    : m_path(std::move(path)), m_copy(std::move(copy)), m_logbook(std::move(logbook)) {}
LeftAlone::LeftAlone(LeftAlone&&) noexcept = default;
LeftAlone& LeftAlone::operator=(LeftAlone&&) noexcept = default;
LeftAlone::~LeftAlone() = default;

tl::expected<LeftAlone, Trouble> LeftAlone::open(const Path& path, const Path& near) {
    std::error_code error;
    const auto found = std::filesystem::canonical(path, error);
    if (error || !hasJournalLeft(found)) {
        return Logbook::open(path, toRead).map([&](Logbook&& logbook) {
            return LeftAlone(path, nullptr, std::move(logbook));
        });
    }
    if (const auto refused = refuseJournal(found)) {
        return tl::unexpected<Trouble>(
            troubleAt(path, Trouble::Code::Io, std::string(*refused)));
    }
    auto beside = std::filesystem::absolute(near, error);
    beside += ".source";
    auto copy = std::make_unique<UnfinishedFile>(beside);
    copy->removeLeftOvers();
    if (const auto failed = copyBoth(found, copy->path())) {
        const auto code = codeOfSystem(failed);
        return tl::unexpected<Trouble>(troubleAt(
            path, code == Trouble::Code::ReadOnly ? Trouble::Code::NeedsRecovery : code,
            failed.message()));
    }
    auto logbook = Logbook::open(copy->path(), toRead);
    if (!logbook) {
        auto trouble = std::move(logbook.error());
        trouble.path = path;
        return tl::unexpected<Trouble>(std::move(trouble));
    }
    return LeftAlone(path, std::move(copy), *std::move(logbook));
}

Trouble LeftAlone::told(Trouble trouble) const {
    if (m_copy && trouble.path == m_copy->path()) {
        trouble.path = m_path;
    }
    return trouble;
}

}  // namespace store
