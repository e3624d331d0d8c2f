// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows out of the bytes of pages; see raw_rows.h.
#include "store/raw_rows.h"

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
constexpr std::size_t largestRow = 64U << 20;  // no record comes near it
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

// All that looks like a row of a table that matters, by the columns that it has in the schema.
void keep(const std::vector<Column>& columns, RawRows& rows) {
    const std::string shape = shapeOf(columns);
    if (shape == "ntiiitttbi" && columns[8].bytes.size() == Hash{}.size()) {
        rows.records.push_back({std::string(columns[1].bytes), columns[2].integer,
                                std::string(columns[7].bytes), hashFrom(columns[8].bytes)});
    } else if (shape == "tibii" && columns[2].bytes.size() == Hash{}.size()) {
        rows.heads.push_back({std::string(columns[0].bytes), columns[1].integer});
    }
}

class Pages {
public:
    Pages(std::string bytes, std::size_t pageSize)
        : m_bytes(std::move(bytes)), m_pageSize(pageSize) {}

    void collect(RawRows& rows) const {
        for (std::size_t number = 2; number <= m_bytes.size() / m_pageSize; ++number) {
            collectFrom(page(number), rows);
        }
    }

private:
    [[nodiscard]] std::string_view page(std::uint64_t number) const {
        if (number == 0 || number > m_bytes.size() / m_pageSize) {
            return {};
        }
        return std::string_view(m_bytes).substr(
            static_cast<std::size_t>(number - 1) * m_pageSize, m_pageSize);
    }

    void collectFrom(std::string_view page, RawRows& rows) const {
        constexpr std::size_t headerSize = 8;
        if (page.size() != m_pageSize || page.front() != tableLeaf) {
            return;
        }
        const auto cells = std::min<std::uint64_t>(bigEndian(page.substr(3, 2)),
                                                   (m_pageSize - headerSize) / 2);
        for (std::size_t i = 0; i < cells; ++i) {
            const auto place = bigEndian(page.substr(headerSize + 2 * i, 2));
            if (place < page.size()) {
                keep(columnsOf(rowAt(page.substr(static_cast<std::size_t>(place)))), rows);
            }
        }
    }

    // The whole row, with what did not find room on its page; a copy of it in m_row.
    [[nodiscard]] std::string_view rowAt(std::string_view cell) const {
        Cursor cursor(cell);
        const auto size = cursor.takeNumber();
        const auto number = cursor.takeNumber();
        if (!size || !number || *size > std::min(largestRow, m_bytes.size())) {
            return {};
        }
        const std::size_t most = m_pageSize - 35;
        if (*size <= most) {
            return cursor.take(*size).value_or(std::string_view());
        }
        const std::size_t least = (m_pageSize - 12) * 32 / 255 - 23;
        const std::size_t wanted =
            least + (static_cast<std::size_t>(*size) - least) % (m_pageSize - 4);
        const auto here = cursor.take(wanted <= most ? wanted : least);
        const auto next = cursor.take(4);
        if (!here || !next) {
            return {};
        }
        m_row.assign(*here);
        return followOverflow(bigEndian(*next), static_cast<std::size_t>(*size));
    }

    [[nodiscard]] std::string_view followOverflow(std::uint64_t number, std::size_t size) const {
        while (m_row.size() < size) {
            const auto rest = page(number);
            if (rest.empty()) {
                return {};
            }
            number = bigEndian(rest.substr(0, 4));
            m_row.append(rest.substr(4, std::min(size - m_row.size(), m_pageSize - 4)));
        }
        return m_row;
    }

    std::string m_bytes;
    std::size_t m_pageSize;
    mutable std::string m_row;
};

// What the file says of itself, and what it must be if that is damaged.
std::set<std::size_t> pageSizesOf(const std::string& bytes) {
    std::set<std::size_t> sizes{ownPageSize};
    if (bytes.size() > 18) {
        const auto said =
            static_cast<std::size_t>(bigEndian(std::string_view(bytes).substr(16, 2)));
        const std::size_t size = said == 1 ? 65536 : said;
        if (size >= 512 && (size & (size - 1)) == 0) {
            sizes.insert(size);
        }
    }
    return sizes;
}

}  // namespace

RawRows rawRowsOf(const std::filesystem::path& file) {
    RawRows rows;
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    if (error) {
        return rows;
    }
    std::string bytes(static_cast<std::size_t>(size), '\0');
    std::ifstream stream(file, std::ios::binary);
    // By pages, so that a sector that cannot be read costs one and no more.
    rows.readable = true;
    for (std::size_t place = 0; place < bytes.size(); place += ownPageSize) {
        const auto count = std::min(ownPageSize, bytes.size() - place);
        stream.seekg(static_cast<std::streamoff>(place));
        stream.read(bytes.data() + place, static_cast<std::streamsize>(count));
        rows.readable = rows.readable && stream.good();
        stream.clear();
    }
    for (const std::size_t pageSize : pageSizesOf(bytes)) {
        Pages(bytes, pageSize).collect(rows);
    }
    return rows;
}

}  // namespace store
