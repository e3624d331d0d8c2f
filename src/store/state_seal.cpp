// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The key and its file; see state_seal.h.
#include "store/state_seal.h"

#include "store/operating_system.h"

#include <mutex>
#include <sodium.h>
#include <string>

namespace store {

namespace {

constexpr std::string_view fileName = "kept-states.key";
constexpr std::size_t figures = 64;

static_assert(crypto_auth_KEYBYTES == std::tuple_size_v<Hash>);
static_assert(crypto_auth_BYTES == std::tuple_size_v<Hash>);

std::optional<Hash> keyIn(const std::filesystem::path& file) {
    auto text = system::readSmallFile(file, figures + 1);
    if (text && text->ends_with('\n')) {
        text->pop_back();
    }
    return text ? hashFromHex(*text) : std::nullopt;
}

// Under a name of its own first: whoever reads the key meanwhile finds a whole one or none, and of
// two who make one at once both take the one that came first.
void makeKey(const std::filesystem::path& folder) {
    const auto unfinished =
        folder / (std::string(fileName) + ".unfinished-" +
                  std::to_string(system::processNumber()));
    Hash key{};
    randombytes_buf(key.data(), key.size());
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error || system::makePrivateFile(unfinished)) {
        return;
    }
    if (!system::writeSmallFile(unfinished, toHex(key) + "\n") || system::flush(unfinished) ||
        system::moveWithoutReplacing(unfinished, folder / fileName)) {
        (void)system::removeFile(unfinished);
    }
}

}  // namespace

std::optional<StateSeal> StateSeal::in(const std::filesystem::path& folder) {
    auto key = keyIn(folder / fileName);
    if (!key) {
        makeKey(folder);
        key = keyIn(folder / fileName);
    }
    return key ? std::optional(StateSeal(*key)) : std::nullopt;
}

std::optional<StateSeal> StateSeal::own() {
    static std::mutex reading;
    static std::filesystem::path from;
    static std::optional<StateSeal> known;
    const auto folder = folderOfOwnSeal();
    if (!folder) {
        return std::nullopt;
    }
    const std::lock_guard lock(reading);
    if (!known || from != *folder) {
        known = in(*folder);
        from = *folder;
    }
    return known;
}

Hash StateSeal::over(std::string_view bytes) const {
    Hash sealed{};
    crypto_auth(sealed.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                m_key.data());
    return sealed;
}

Hash StateSeal::over(const Hash& hash) const {
    return over(toHex(hash));
}

std::optional<std::filesystem::path> folderOfOwnSeal() {
    const auto folder = system::folderOfUser();
    return folder ? std::optional(*folder / "airmuster") : std::nullopt;
}

}  // namespace store
