// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading journals; see journal_file.h.
#include "store/journal_file.h"

#include "store/database_mark.h"

#include <algorithm>
#include <limits>

namespace store {

namespace {

constexpr std::string_view magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);
constexpr std::size_t headSize = 28;
// Beside each page its number and its sum.
constexpr std::size_t besidePage = 8;
constexpr std::uint32_t untilItsEnd = std::numeric_limits<std::uint32_t>::max();
// No disk has a smaller one, so that less than it is torn out of the beginning of a journal.
constexpr std::size_t smallestSector = 512;

std::uint32_t numberAt(std::string_view bytes, std::size_t place) {
    std::uint32_t value = 0;
    for (const char byte : bytes.substr(place, 4)) {
        value = value << 8U | static_cast<unsigned char>(byte);
    }
    return value;
}

bool isPowerOfTwo(std::uint32_t number, std::uint32_t least) {
    return number >= least && number <= 65536 && (number & (number - 1)) == 0;
}

std::uint32_t sumOf(std::uint32_t nonce, std::string_view page) {
    std::uint32_t sum = nonce;
    for (std::size_t place = page.size() - 200; place > 0 && place < page.size(); place -= 200) {
        sum += static_cast<unsigned char>(page[place]);
    }
    return sum;
}

// What the database opens that file with: what it says of itself, else what a new one gets.
std::uint32_t pageSizeOf(const std::filesystem::path& database) {
    constexpr std::uint32_t ofNew = 4096;
    std::string bytes(2, '\0');
    if (LayerFile(database).read(bytes.data(), 2, 16) != SQLITE_OK) {
        return ofNew;
    }
    const auto high = static_cast<unsigned char>(bytes[0]);
    const auto low = static_cast<unsigned char>(bytes[1]);
    const std::uint32_t size = std::uint32_t{high} << 8U | std::uint32_t{low} << 16U;
    return isPowerOfTwo(size, 512) ? size : ofNew;
}

bool isOfText(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte >= 0x20 || (byte >= '\t' && byte <= '\r');
}

}  // namespace

std::filesystem::path journalOf(const std::filesystem::path& database) {
    auto journal = database;
    journal += "-journal";
    return journal;
}

JournalFile::JournalFile(const std::filesystem::path& database)
    : m_file(journalOf(database)), m_size(m_file.size()) {
    std::string head;
    if (!bytesAt(0, headSize, head) || !head.starts_with(magic)) {
        return;
    }
    const auto sectorSize = numberAt(head, 20);
    const auto said = numberAt(head, 24);
    const auto pageSize = said == 0 ? pageSizeOf(database) : said;
    if (isPowerOfTwo(sectorSize, 32) && isPowerOfTwo(pageSize, 512) &&
        m_size >= std::int64_t{sectorSize}) {
        m_sectorSize = sectorSize;
        m_pageSize = pageSize;
        m_pages = numberAt(head, 16);
    }
}

bool JournalFile::namesFile() const {
    constexpr std::size_t tail = 16;
    std::string end;
    if (m_size < static_cast<std::int64_t>(tail) ||
        !bytesAt(m_size - static_cast<std::int64_t>(tail), tail, end)) {
        return false;
    }
    const auto length = numberAt(end, 0);
    return end.ends_with(magic) && length > 0 &&
           length <= m_size - static_cast<std::int64_t>(tail);
}

bool JournalFile::isNone() const {
    std::string beginning;
    const auto count = std::min(static_cast<std::size_t>(m_size), smallestSector);
    if (count == 0 || !bytesAt(0, count, beginning)) {
        return false;
    }
    if (count == smallestSector) {
        return std::ranges::all_of(beginning, isOfText) || beginning.starts_with(databaseMark);
    }
    for (std::size_t i = 0; i < std::min(count, magic.size()); ++i) {
        if (beginning[i] != '\0' && beginning[i] != magic[i]) {
            return true;
        }
    }
    return false;
}

bool JournalFile::isStrange() const {
    std::string beginning;
    const auto count = std::min(static_cast<std::size_t>(m_size), magic.size());
    return !isPlayed() && bytesAt(0, count, beginning) &&
           beginning.find_first_not_of('\0') != std::string::npos;
}

void JournalFile::forEachPage(const PageReader& reader) const {
    const auto sector = static_cast<std::int64_t>(m_sectorSize);
    std::optional<std::int64_t> head = 0;
    while (isPlayed() && head && *head + sector <= m_size) {
        const auto end = forEachPageOf(*head, reader);
        head = end ? std::optional((*end + sector - 1) / sector * sector) : std::nullopt;
    }
}

std::optional<std::int64_t> JournalFile::forEachPageOf(std::int64_t head,
                                                       const PageReader& reader) const {
    std::string bytes;
    if (!bytesAt(head, headSize, bytes) || !bytes.starts_with(magic)) {
        return std::nullopt;
    }
    const auto count = numberAt(bytes, 8);
    const auto nonce = numberAt(bytes, 12);
    const auto lockPage = static_cast<std::uint32_t>(0x40000000 / m_pageSize + 1);
    std::int64_t place = head + static_cast<std::int64_t>(m_sectorSize);
    const auto step = static_cast<std::int64_t>(m_pageSize + besidePage);
    for (std::uint32_t i = 0; i < count || count == untilItsEnd; ++i, place += step) {
        if (!bytesAt(place, m_pageSize + besidePage, bytes)) {
            m_isTorn = m_isTorn || count != untilItsEnd;
            return std::nullopt;
        }
        const auto page = numberAt(bytes, 0);
        const auto content = std::string_view(bytes).substr(4, m_pageSize);
        if (page == 0 || page == lockPage ||
            (page <= m_pages && numberAt(bytes, 4 + m_pageSize) != sumOf(nonce, content))) {
            m_isTorn = m_isTorn || count != untilItsEnd;
            return std::nullopt;
        }
        if (page <= m_pages && !reader(page, content, place + 4)) {
            return std::nullopt;
        }
    }
    return place;
}

bool JournalFile::read(std::int64_t place, std::string& page) const {
    return bytesAt(place, m_pageSize, page);
}

bool JournalFile::bytesAt(std::int64_t place, std::size_t count, std::string& bytes) const {
    bytes.resize(count);
    const auto ask = [&] {
        return m_file.read(bytes.data(), static_cast<int>(count), place);
    };
    int code = ask();
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        code = ask();  // what the disk did not give it may give when it is asked again
    }
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        m_isUnread = true;
        m_whyUnread = m_file.systemError();
    }
    return code == SQLITE_OK;
}

}  // namespace store
