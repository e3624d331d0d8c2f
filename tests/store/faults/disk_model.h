// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a folder a power cut would leave: of what was written and not synced any part, in any
// order, torn anywhere; of names that were given, taken away or moved any that their folder was not
// synced for. Knows nothing of SQLite.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace store::test {

class DiskModel {
public:
    // All that is in the folder now is on the disk.
    DiskModel(std::filesystem::path folder, std::uint32_t seed);

    [[nodiscard]] bool knows(const std::filesystem::path& file) { return find(file) != nullptr; }

    // Files elsewhere are not minded.
    void made(const std::filesystem::path& file);
    void wrote(const std::filesystem::path& file, std::int64_t offset, std::string_view bytes);
    void truncated(const std::filesystem::path& file, std::int64_t size);
    void removed(const std::filesystem::path& file);
    void moved(const std::filesystem::path& from, const std::filesystem::path& to);
    // A second name.
    void linked(const std::filesystem::path& from, const std::filesystem::path& to);
    // In one step: both names or neither are the other's after a power cut.
    void exchanged(const std::filesystem::path& one, const std::filesystem::path& other);
    void synced(const std::filesystem::path& fileOrFolder);

    [[nodiscard]] const std::filesystem::path& folder() const { return m_folder; }

    // Makes the folder what is found once the power is back.
    void cutPower();

private:
    struct Change {  // of bytes; a truncation has none
        std::int64_t offset = 0;
        bool truncation = false;
        std::string bytes;
    };
    struct Content {
        std::string onDisk;
        std::vector<Change> unsynced;
    };
    using Names = std::map<std::string, std::shared_ptr<Content>>;
    struct NameChange {  // `from` empty: made; `to` empty: removed
        std::string from, to;
        std::shared_ptr<Content> content;
        std::shared_ptr<Content> other{};  // of an exchange, what `from` names then
    };

    [[nodiscard]] Content* find(const std::filesystem::path& file);
    static void apply(std::string& bytes, const Change& change);
    static void apply(Names& names, const NameChange& change);
    void applyPartly(std::string& bytes, const Change& change);
    void growWithGarbage(std::string& bytes, std::size_t size);
    [[nodiscard]] bool coin() { return m_random() % 2 == 0; }

    std::filesystem::path m_folder;
    std::mt19937 m_random;
    Names m_names, m_namesOnDisk;
    std::vector<NameChange> m_unsyncedNames;
};

}  // namespace store::test
