// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The model of a disk whose power fails; see disk_model.h.
#include "disk_model.h"

#include "../logbook_files.h"

#include <algorithm>
#include <utility>

namespace store::test {

namespace {

constexpr std::size_t sectorSize = 512;

}  // namespace

DiskModel::DiskModel(std::filesystem::path folder, std::uint32_t seed)
    : m_folder(std::move(folder)), m_random(seed) {
    for (const auto& entry : std::filesystem::directory_iterator(m_folder)) {
        m_names[entry.path().filename()] =
            std::make_shared<Content>(Content{bytesOf(entry.path()), {}});
    }
    m_namesOnDisk = m_names;
}

DiskModel::Content* DiskModel::find(const std::filesystem::path& file) {
    const auto found = m_names.find(file.filename());
    return file.parent_path() == m_folder && found != m_names.end() ? found->second.get()
                                                                    : nullptr;
}

void DiskModel::made(const std::filesystem::path& file) {
    if (file.parent_path() == m_folder && find(file) == nullptr) {
        m_unsyncedNames.push_back({"", file.filename(), std::make_shared<Content>()});
        apply(m_names, m_unsyncedNames.back());
    }
}

void DiskModel::wrote(const std::filesystem::path& file, std::int64_t offset,
                      std::string_view bytes) {
    if (Content* content = find(file)) {
        content->unsynced.push_back({offset, false, std::string(bytes)});
    }
}

void DiskModel::truncated(const std::filesystem::path& file, std::int64_t size) {
    if (Content* content = find(file)) {
        content->unsynced.push_back({size, true, {}});
    }
}

void DiskModel::removed(const std::filesystem::path& file) {
    if (find(file) != nullptr) {
        m_unsyncedNames.push_back({file.filename(), "", nullptr});
        apply(m_names, m_unsyncedNames.back());
    }
}

void DiskModel::moved(const std::filesystem::path& from, const std::filesystem::path& to) {
    if (find(from) != nullptr) {
        m_unsyncedNames.push_back({from.filename(), to.filename(), m_names[from.filename()]});
        apply(m_names, m_unsyncedNames.back());
    }
}

void DiskModel::linked(const std::filesystem::path& from, const std::filesystem::path& to) {
    if (find(from) != nullptr && find(to) == nullptr) {
        m_unsyncedNames.push_back({"", to.filename(), m_names[from.filename()]});
        apply(m_names, m_unsyncedNames.back());
    }
}

void DiskModel::exchanged(const std::filesystem::path& one, const std::filesystem::path& other) {
    if (find(one) != nullptr && find(other) != nullptr) {
        m_unsyncedNames.push_back({one.filename(), other.filename(), m_names[one.filename()],
                                   m_names[other.filename()]});
        apply(m_names, m_unsyncedNames.back());
    }
}

void DiskModel::synced(const std::filesystem::path& fileOrFolder) {
    if (fileOrFolder == m_folder) {
        m_namesOnDisk = m_names;
        m_unsyncedNames.clear();
    } else if (Content* content = find(fileOrFolder)) {
        for (const Change& change : content->unsynced) {
            apply(content->onDisk, change);
        }
        content->unsynced.clear();
    }
}

void DiskModel::apply(std::string& bytes, const Change& change) {
    const auto offset = static_cast<std::size_t>(change.offset);
    if (change.truncation) {
        bytes.resize(offset);
        return;
    }
    bytes.resize(std::max(bytes.size(), offset + change.bytes.size()));
    bytes.replace(offset, change.bytes.size(), change.bytes);
}

void DiskModel::apply(Names& names, const NameChange& change) {
    if (!change.from.empty()) {
        names.erase(change.from);
    }
    if (!change.to.empty()) {
        names[change.to] = change.content;
    }
    if (change.other) {
        names[change.from] = change.other;
    }
}

// A file may have grown before what fills it came: then it holds what lay on the disk there.
void DiskModel::growWithGarbage(std::string& bytes, std::size_t size) {
    while (bytes.size() < size) {
        bytes.push_back(static_cast<char>(m_random()));
    }
}

void DiskModel::applyPartly(std::string& bytes, const Change& change) {
    const auto fate = m_random() % 3;
    if (fate == 0) {
        return;
    }
    if (change.truncation) {
        bytes.resize(std::min(bytes.size(), static_cast<std::size_t>(change.offset)));
        return;
    }
    if (fate == 1) {
        growWithGarbage(bytes, static_cast<std::size_t>(change.offset));
        apply(bytes, change);
        return;
    }
    for (std::size_t begin = 0; begin < change.bytes.size(); begin += sectorSize) {
        std::size_t length = std::min(sectorSize, change.bytes.size() - begin);
        if (coin()) {
            continue;
        }
        if (m_random() % 4 == 0) {
            length = m_random() % (length + 1);
        }
        const auto offset = static_cast<std::size_t>(change.offset) + begin;
        growWithGarbage(bytes, offset + length);
        bytes.replace(offset, length, change.bytes, begin, length);
    }
}

void DiskModel::cutPower() {
    Names names = m_namesOnDisk;
    for (const NameChange& change : m_unsyncedNames) {
        if (coin()) {
            apply(names, change);
        }
    }
    std::map<Content*, std::string> left;
    for (const auto& [name, content] : names) {
        const auto [place, isNew] = left.try_emplace(content.get(), content->onDisk);
        for (std::size_t i = 0; isNew && i < content->unsynced.size(); ++i) {
            applyPartly(place->second, content->unsynced[i]);
        }
    }
    for (const auto& entry : std::filesystem::directory_iterator(m_folder)) {
        std::filesystem::remove(entry.path());
    }
    for (const auto& [name, content] : names) {
        writeBytes(m_folder / name, left.at(content.get()));
    }
}

}  // namespace store::test
