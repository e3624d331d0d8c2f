// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files under another name until they are whole.
#include "store/unfinished_file.h"

#include "store/operating_system.h"

#include <string>

namespace store {

UnfinishedFile::UnfinishedFile(const std::filesystem::path& finalPath)
    : m_finalPath(finalPath), m_path(finalPath) {
    m_path += ".unfinished-" + std::to_string(system::processNumber());
    remove();
}

UnfinishedFile::~UnfinishedFile() {
    remove();
}

std::error_code UnfinishedFile::takeName() const {
    if (const auto error = system::flush(m_path)) {
        return error;
    }
    if (const auto error = clearJournal()) {
        return error;
    }
    return system::moveWithoutReplacing(m_path, m_finalPath);
}

std::error_code UnfinishedFile::confirmName() const {
    return system::flush(m_finalPath.parent_path());
}

std::error_code UnfinishedFile::finish() const {
    const auto error = takeName();
    return error ? error : confirmName();
}

std::error_code UnfinishedFile::clearJournal() const {
    std::filesystem::path journal = m_finalPath;
    journal += "-journal";
    std::error_code error;
    if (std::filesystem::exists(m_finalPath, error) || !std::filesystem::exists(journal, error)) {
        return {};
    }
    std::filesystem::path kept = journal;
    kept += ".left-over";
    return system::moveWithoutReplacing(journal, kept);
}

void UnfinishedFile::remove() const {
    std::error_code ignored;
    std::filesystem::remove(m_path, ignored);
    std::filesystem::path journal = m_path;
    journal += "-journal";
    std::filesystem::remove(journal, ignored);
}

}  // namespace store
