// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows out of the bytes of pages; see raw_rows.h.
#include "store/raw_rows.h"

#include "logbook/json.h"
#include "logbook/text.h"
#include "store/heads.h"
#include "store/journal_file.h"
#include "store/raw_pages.h"

#include <algorithm>
#include <fstream>
#include <optional>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

namespace store {

namespace {

constexpr std::size_t ownPageSize = 4096;      // what the database gives a new file
// A record has a MiB at most, of which its device stands in the row once more.
constexpr std::size_t largestRow = (2U << 20) + 4096;
// A logbook of ten million records has a quarter of that.
constexpr std::uint64_t largestFile = std::uint64_t{16} << 30;
// So often a page may be read as the rest of a row: pages that are free still hold their old rows.
constexpr std::uint64_t mostTimesRead = 4;
constexpr char tableLeaf = 0x0D;
constexpr std::size_t mostColumns = 16;

std::uint64_t bigEndian(std::string_view bytes) {
    std::uint64_t value = 0;
    for (const char byte : bytes) {
        value = value << 8U | static_cast<unsigned char>(byte);
    }
    return value;
}

// Reads on from a place; nothing once that would be past the end.
class Cursor {
public:
    explicit Cursor(std::string_view bytes) : m_bytes(bytes) {}
    [[nodiscard]] std::string_view rest() const { return m_bytes; }

    std::optional<std::string_view> take(std::uint64_t count) {
        if (count > m_bytes.size()) {
            return std::nullopt;
        }
        const auto taken = m_bytes.substr(0, static_cast<std::size_t>(count));
        m_bytes.remove_prefix(static_cast<std::size_t>(count));
        return taken;
    }

    // Seven bits a byte, and all eight of a ninth.
    std::optional<std::uint64_t> takeNumber() {
        std::uint64_t value = 0;
        for (int i = 0; i < 9; ++i) {
            const auto byte = take(1);
            if (!byte) {
                return std::nullopt;
            }
            const auto bits = static_cast<unsigned char>(byte->front());
            if (i == 8) {
                return value << 8U | bits;
            }
            value = value << 7U | (bits & 0x7FU);
            if ((bits & 0x80U) == 0) {
                return value;
            }
        }
        return value;
    }

private:
    std::string_view m_bytes;
};

struct Column {
    enum class Kind { Null, Integer, Real, Blob, Text };
    Kind kind = Kind::Null;
    std::int64_t integer = 0;
    std::string_view bytes;
};

std::optional<Column> takeColumn(Cursor& body, std::uint64_t type) {
    constexpr std::size_t widths[] = {0, 1, 2, 3, 4, 6, 8, 8, 0, 0};
    if (type == 10 || type == 11) {
        return std::nullopt;
    }
    if (type >= 12) {
        const auto bytes = body.take((type - 12) / 2);
        const auto kind = type % 2 == 0 ? Column::Kind::Blob : Column::Kind::Text;
        return bytes ? std::optional(Column{kind, 0, *bytes}) : std::nullopt;
    }
    const auto bytes = body.take(widths[type]);
    if (!bytes || type == 0) {
        return bytes ? std::optional(Column{}) : std::nullopt;
    }
    if (type == 7) {
        return Column{Column::Kind::Real, 0, *bytes};
    }
    if (type >= 8) {
        return Column{Column::Kind::Integer, static_cast<std::int64_t>(type) - 8, {}};
    }
    const auto unused = 64 - 8 * bytes->size();
    const auto value = static_cast<std::int64_t>(bigEndian(*bytes) << unused) >> unused;
    return Column{Column::Kind::Integer, value, {}};
}

std::vector<Column> columnsOf(std::string_view row) {
    Cursor header(row);
    const auto headerSize = header.takeNumber();
    if (!headerSize || *headerSize > row.size()) {
        return {};
    }
    const auto headerEnd = static_cast<std::size_t>(*headerSize);
    Cursor body(row.substr(headerEnd));
    std::vector<Column> columns;
    while (row.size() - header.rest().size() < headerEnd) {
        const auto type = header.takeNumber();
        const auto column = type ? takeColumn(body, *type) : std::nullopt;
        if (!column || columns.size() == mostColumns) {
            return {};
        }
        columns.push_back(*column);
    }
    return columns;
}

// "nttib": null, integer, text, blob, real, a letter each.
std::string shapeOf(const std::vector<Column>& columns) {
    std::string shape;
    for (const Column& column : columns) {
        shape += "nirbt"[static_cast<int>(column.kind)];
    }
    return shape;
}

Hash hashFrom(std::string_view bytes) {
    Hash hash{};
    std::copy_n(bytes.begin(), std::min(bytes.size(), hash.size()), hash.begin());
    return hash;
}

// Reads rows whole, with what did not find room on their pages.
class WholeRows {
public:
    explicit WholeRows(Pages& pages)
        : m_pages(pages), m_overflowsLeft(mostTimesRead * pages.count() + 1) {}

    // The row, until the next is read; empty if it is none. `cell`: from its place to the end of
    // its page.
    [[nodiscard]] std::string_view read(std::string_view cell) {
        Cursor cursor(cell);
        const auto size = cursor.takeNumber();
        const auto number = cursor.takeNumber();
        if (!size || !number || *size > largestRow) {
            return {};
        }
        const std::size_t pageSize = m_pages.pageSize();
        const std::size_t most = pageSize - 35;
        if (*size <= most) {
            m_here = static_cast<std::size_t>(*size);
            return cursor.take(*size).value_or(std::string_view());
        }
        const std::size_t least = (pageSize - 12) * 32 / 255 - 23;
        const std::size_t wanted =
            least + (static_cast<std::size_t>(*size) - least) % (pageSize - 4);
        m_here = wanted <= most ? wanted : least;
        const auto here = cursor.take(m_here);
        const auto next = cursor.take(4);
        if (!here || !next) {
            return {};
        }
        m_row.assign(*here);
        return followOverflow(bigEndian(*next), static_cast<std::size_t>(*size));
    }

    // How much of the row read last stands on its own page.
    [[nodiscard]] std::size_t bytesHere() const { return m_here; }

private:
    std::string_view followOverflow(std::uint64_t number, std::size_t size) {
        while (m_row.size() < size) {
            if (m_overflowsLeft == 0 || !m_pages.read(number, m_page)) {
                return {};
            }
            --m_overflowsLeft;
            const std::string_view rest(m_page);
            number = bigEndian(rest.substr(0, 4));
            m_row.append(rest.substr(4, std::min(size - m_row.size(), m_page.size() - 4)));
        }
        return m_row;
    }

    Pages& m_pages;
    std::uint64_t m_overflowsLeft;
    std::size_t m_here = 0;
    std::string m_row;
    std::string m_page;
};

// The places of the rows on a page of a table; none on another. Each is told once.
std::vector<std::size_t> placesOn(std::string_view page) {
    constexpr std::size_t headerSize = 8;
    if (page.front() != tableLeaf) {
        return {};
    }
    const auto cells = std::min<std::uint64_t>(bigEndian(page.substr(3, 2)),
                                               (page.size() - headerSize) / 2);
    std::vector<std::size_t> places;
    std::set<std::size_t> told;
    for (std::size_t i = 0; i < cells; ++i) {
        const auto place =
            static_cast<std::size_t>(bigEndian(page.substr(headerSize + 2 * i, 2)));
        if (place < page.size() && told.insert(place).second) {
            places.push_back(place);
        }
    }
    return places;
}

// Where the content and the hash of a record stand among the columns of its row.
constexpr std::size_t contentColumn = 7;
constexpr std::size_t hashColumn = 8;

// None is shorter: its two times, and the names of all that it says, are longer.
constexpr std::size_t shortestContent = 100;
static_assert(sizeof(RawRecord) < shortestContent);

bool isRecord(const std::vector<Column>& columns) {
    return shapeOf(columns) == "ntiiitttbi" &&
           columns[contentColumn].bytes.size() >= shortestContent &&
           columns[hashColumn].bytes.size() == Hash{}.size();
}

bool isHead(const std::vector<Column>& columns) {
    return shapeOf(columns) == "tibii" && columns[2].bytes.size() == Hash{}.size();
}

// What a verify noted.
bool isVerification(const std::vector<Column>& columns) {
    return shapeOf(columns) == "niiitt";
}

// Of each station the highest head.
class Noted {
public:
    void add(std::string_view station, std::int64_t seq, bool isWithRecord) {
        if (logbook::isStationName(station)) {
            const std::string name(station);
            auto& last = m_last.try_emplace(name, RawHead{name, seq}).first->second;
            last.seq = std::max(last.seq, seq);
            last.isWithRecord = last.isWithRecord || isWithRecord;
        }
    }
    // Those in what a verify has noted.
    void addAll(std::string_view text) {
        const auto value = logbook::json::parse(text);
        const auto heads = value ? headsFromJson(*value) : std::nullopt;
        for (const auto& [station, head] : heads.value_or(Heads{})) {
            add(station, head.seq, false);
        }
    }
    [[nodiscard]] const std::map<std::string, RawHead>& last() const { return m_last; }

private:
    std::map<std::string, RawHead> m_last;
};

// What the file says of itself, and what it must be if that is damaged.
std::set<std::size_t> pageSizesOf(const std::filesystem::path& file) {
    std::set<std::size_t> sizes{ownPageSize};
    std::string beginning(18, '\0');
    if (std::ifstream(file, std::ios::binary).read(beginning.data(), 18)) {
        const auto said =
            static_cast<std::size_t>(bigEndian(std::string_view(beginning).substr(16, 2)));
        const std::size_t size = said == 1 ? 65536 : said;
        if (size >= 512 && (size & (size - 1)) == 0) {
            sizes.insert(size);
        }
    }
    return sizes;
}

std::uint64_t bytesOf(const std::filesystem::path& file, std::error_code& error) {
    const auto bytes = std::filesystem::file_size(file, error);
    return error || bytes > largestFile ? 0 : bytes;
}

}  // namespace

// All on those pages that looks like a row of a table that matters, by the columns that it has in
// the schema.
void RawRows::collect(Pages& pages) {
    WholeRows reader(pages);
    Noted noted;
    std::int64_t nameless = 0;
    std::string page;
    for (auto number = pages.next(1); number != 0; number = pages.next(number)) {
        if (!pages.read(number, page)) {
            continue;
        }
        std::size_t taken = 0;  // rows that stand on each other are none
        for (const std::size_t place : placesOn(page)) {
            const auto row = reader.read(std::string_view(page).substr(place));
            if (row.empty() || (taken += reader.bytesHere()) > page.size()) {
                continue;
            }
            const auto columns = columnsOf(row);
            if (isVerification(columns)) {
                noted.addAll(columns[4].bytes);
            } else if (isHead(columns)) {
                noted.add(columns[0].bytes, columns[1].integer, true);
            }
            if (!isRecord(columns)) {
                continue;
            }
            const std::string_view station = columns[1].bytes;
            if (!logbook::isStationName(station)) {
                ++nameless;
                continue;
            }
            auto known = m_stations.find(station);
            known = known == m_stations.end() ? m_stations.emplace(station).first : known;
            m_records.push_back({*known, columns[2].integer, hashFrom(columns[hashColumn].bytes),
                                 number, static_cast<std::uint32_t>(pages.pageSize()),
                                 static_cast<std::uint32_t>(place)});
        }
    }
    // By either size of a page the same may be found.
    m_nameless = std::max(m_nameless, nameless);
    for (const auto& [station, last] : noted.last()) {
        m_heads.push_back(last);
    }
}

RawRows::RawRows(const std::filesystem::path& file, const JournalFile* journal) {
    const auto bytes = bytesOf(file, m_error);
    const auto sizes = journal == nullptr ? pageSizesOf(file) : std::set{journal->pageSize()};
    for (const std::size_t pageSize : sizes) {
        auto& pages =
            *(m_pages[pageSize] = std::make_unique<Pages>(file, pageSize, bytes, journal));
        collect(pages);
    }
}

RawRows::~RawRows() = default;

std::int64_t RawRows::unreadPages() const {
    const auto pages = m_pages.find(ownPageSize);
    return pages == m_pages.end() ? 0
                                  : static_cast<std::int64_t>(pages->second->unread().size());
}

std::string RawRows::contentOf(const RawRecord& record) const {
    Pages& pages = *m_pages.at(record.pageSize);
    std::string page;
    if (!pages.read(record.page, page)) {
        return {};
    }
    WholeRows reader(pages);
    const auto columns = columnsOf(reader.read(std::string_view(page).substr(record.place)));
    return isRecord(columns) ? std::string(columns[contentColumn].bytes) : std::string();
}

}  // namespace store
