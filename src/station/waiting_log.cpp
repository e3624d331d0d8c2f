// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for what waits for a name; see waiting_log.h.
#include "station/waiting_log.h"

#include "logbook/record_reader.h"

#include <set>
#include <string_view>
#include <utility>

namespace station {

namespace {

using logbook::Kind;
using logbook::RecordName;

// Who may say what, what was said, and what was taken back.
bool isAboutOthers(Kind kind) {
    return kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Review ||
           kind == Kind::Strike;
}

FoundRecords::Search makeSearch() {
    FoundRecords::Look others{{}, [](auto, auto) { return true; }};
    FoundRecords::Look entries{{}, [](std::string_view, std::string_view content) {
        return content.find(R"(confirmed":false)") != std::string_view::npos ||
               content.find(R"(moved_from":")") != std::string_view::npos;
    }};
    for (int number = 0; number < logbook::kindCount; ++number) {
        const auto kind = static_cast<Kind>(number);
        auto& look = isAboutOthers(kind) ? others : entries;
        look.kinds.emplace_back(kindName(kind));
    }
    return {{others, entries}, [](const logbook::Record& record) {
        return isAboutOthers(record.kind()) || !record.confirmed || record.movedFrom;
    }};
}

const FoundRecords::Search& searchOfWaiting() {
    static const auto search = makeSearch();
    return search;
}

// Those with the entries whose places they take, as far back as there are such.
// Nothing where one of them cannot be read.
using Waiters = std::optional<std::vector<logbook::Record>>;
tl::expected<Waiters, store::Trouble> withOrigins(const store::Logbook& logbook,
                                                  const FoundRecords& all) {
    if (!all.hasReadAll()) {
        return std::nullopt;
    }
    const auto& found = all.records();
    std::vector<logbook::Record> records;
    std::set<RecordName> names;
    for (const auto& [name, record] : found) {
        names.insert(name);
        records.push_back(record);
    }
    for (std::size_t index = 0; index < records.size(); ++index) {
        const auto& from = records[index].movedFrom;
        const auto name = from ? logbook::parseRecordName(*from) : std::nullopt;
        if (!name || !names.insert(*name).second) {
            continue;
        }
        const auto row = logbook.findRecord(*name);
        if (!row) {
            if (row.error().code == store::Trouble::Code::NoRecord) {
                continue;
            }
            return tl::unexpected<store::Trouble>(row.error());
        }
        auto origin = logbook::readRecord(row->content);
        if (!origin) {
            return std::nullopt;
        }
        records.push_back(std::move(*origin));
    }
    return records;
}

}  // namespace

Result<Waiting> WaitingLog::of(const Surroundings& surroundings, const LogbookFile& file,
                               const Standing& standing, const std::string& person) {
    const auto inAll = [&] {
        return readWholeLog(surroundings, file).map([&](const WholeLog& log) {
            return Waiting{waitingFor(surroundings, file, log, person),
                           doubtsOf(surroundings, log)};
        });
    };
    if (!standing.facts.unread.empty()) {
        return inAll();
    }
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    if (auto renewed = renew(surroundings, *logbook, standing); !renewed) {
        return tl::unexpected(std::move(renewed.error()));
    }
    if (!m_log) {
        return inAll();
    }
    return Waiting{waitingFor(surroundings, file, *m_log, person),
                   doubtsOf(surroundings, standing.facts)};
}

Result<void> WaitingLog::renew(const Surroundings& surroundings, const store::Logbook& logbook,
                               const Standing& standing) {
    const auto isOther = m_found.renew(surroundings, logbook, searchOfWaiting());
    if (!isOther) {
        return tl::unexpected(isOther.error());
    }
    if (m_log && !*isOther && m_found.hasReadAll()) {
        return {};
    }
    m_log.reset();
    auto records = withOrigins(logbook, m_found);
    if (!records) {
        return tl::unexpected(problemOf(surroundings.words, records.error()));
    }
    if (!*records) {
        m_found.forget();
        return {};
    }
    m_log = std::make_shared<const WholeLog>(
        WholeLog{standing.facts, rules::Log(std::move(**records), surroundings.zones)});
    return {};
}

Result<std::optional<std::vector<RecordName>>> recordsOfWaiting(
    const Surroundings& surroundings, const store::Logbook& logbook) {
    FoundRecords found;
    if (auto renewed = found.renew(surroundings, logbook, searchOfWaiting()); !renewed) {
        return tl::unexpected(std::move(renewed.error()));
    }
    const auto records = withOrigins(logbook, found);
    if (!records) {
        return tl::unexpected(problemOf(surroundings.words, records.error()));
    }
    if (!*records) {
        return std::optional<std::vector<RecordName>>();
    }
    std::vector<RecordName> names;
    for (const auto& record : **records) {
        names.push_back(record.name);
    }
    return std::optional(std::move(names));
}

}  // namespace station
