// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers what was written and makes records of it.
#include "station/demo_journal.h"

#include "logbook/record_reader.h"
#include "store/hash.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <numeric>

namespace station::demo {

namespace {

using logbook::Instant;
using logbook::RecordName;
namespace json = logbook::json;

struct Head {
    std::int64_t seq = 0;
    store::Hash hash{};
};

using Heads = std::map<std::string, Head>;

json::Value headsValue(const Heads& heads) {
    json::Object object;
    for (const auto& [station, head] : heads) {
        object.emplace_back(station, json::Array{static_cast<double>(head.seq),
                                                 store::toHex(head.hash)});
    }
    return object;
}

Instant shown(const Draft& draft, Instant instant, const std::vector<WrongClock>& clocks) {
    for (const WrongClock& clock : clocks) {
        const bool meant = clock.station == draft.station && clock.from <= draft.entered &&
                           draft.entered < clock.to;
        if (meant) {
            return instant + clock.ahead;
        }
    }
    return instant;
}

logbook::Record recordOf(const json::Object& object) {
    auto record = logbook::readRecord(json::Value(object));
    if (!record) {
        const logbook::RecordFault& fault = record.error().front();
        std::fprintf(stderr, "demo: the generator wrote what is no record (%s, %s): %s\n",
                     fault.field.c_str(), fault.detail.c_str(),
                     json::canonical(object).c_str());
        std::abort();
    }
    return *std::move(record);
}

json::Object bodyOf(const Draft& draft, Instant entered, const Heads& heads,
                    const std::vector<RecordName>& names) {
    json::Object body = draft.body;
    if (draft.target) {
        body.emplace_back("target", logbook::toText(names[*draft.target]));
    }
    if (draft.signsHeads) {
        const json::Value value = headsValue(heads);
        body.emplace_back("known_at", logbook::toText(entered));
        body.emplace_back("digest", store::toHex(store::sha256(json::canonical(value))));
        body.emplace_back("heads", value);
    }
    return body;
}

}  // namespace

std::size_t Journal::write(Draft draft) {
    const auto kind = logbook::kindOf(draft.kind);
    if (kind && logbook::mustBeTimely(*kind)) {
        draft.at = draft.entered;
    }
    m_drafts.push_back(std::move(draft));
    return m_drafts.size() - 1;
}

std::vector<logbook::Record> Journal::records(Instant end,
                                              const std::vector<WrongClock>& clocks) const {
    std::vector<std::size_t> order(m_drafts.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return m_drafts[i].entered; });
    std::vector<RecordName> names(m_drafts.size());
    std::vector<logbook::Record> records;
    Heads heads;
    for (const std::size_t index : order) {
        const Draft& draft = m_drafts[index];
        if (draft.entered > end) {
            break;
        }
        const auto before = heads.find(draft.station);
        const Head head = before == heads.end() ? Head{} : before->second;
        names[index] = {draft.station, head.seq + 1};
        const Instant entered = shown(draft, draft.entered, clocks);
        json::Object object{
            {"station", draft.station}, {"seq", static_cast<double>(names[index].seq)},
            {"at", logbook::toText(shown(draft, draft.at, clocks))},
            {"entered", logbook::toText(entered)}, {"by", draft.by}, {"device", draft.device},
            {"kind", draft.kind}, {"body", bodyOf(draft, entered, heads, names)}};
        object.insert(object.end(), draft.more.begin(), draft.more.end());
        if (draft.movedFrom) {
            object.emplace_back("moved_from", logbook::toText(names[*draft.movedFrom]));
        }
        records.push_back(recordOf(object));
        heads[draft.station] = {names[index].seq,
                                store::chainHash(head.hash, records.back().content)};
    }
    return records;
}

}  // namespace station::demo
