// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Remarks on notices from elsewhere; see imported_notices.h.
#include "station/imported_notices.h"

#include "logbook/notice_match.h"
#include "logbook/record_reader.h"
#include "station/notice_reach.h"
#include "station/standing.h"

#include <functional>

namespace station {

namespace {

using logbook::Kind;
using store::LentRecord;

constexpr std::size_t mostTold = 10;

// Taken all the same, though they are about others than was meant.
void addOfFields(const words::Words& words, std::string_view sentence,
                 const std::vector<LentRecord>& notices,
                 const std::function<std::vector<std::string>(Kind, std::string_view)>& fieldsOf,
                 std::vector<std::string>& remarks) {
    std::size_t count = 0;
    words::Gaps first;
    for (const auto& notice : notices) {
        const auto fields = fieldsOf(notice.kind, notice.content);
        if (!fields.empty() && ++count == 1) {
            first = {{"record", toText(nameOf(notice))}, {"fields", words.all(fields)}};
        }
    }
    if (count > 0) {
        first["count"] = std::to_string(count);
        remarks.push_back(words.say(sentence, first));
    }
}

}  // namespace

ImportedNotices::ImportedNotices(const store::Logbook& logbook,
                                 const std::vector<LentRecord>& records) {
    for (const auto& record : records) {
        if (record.kind == Kind::Notice && !logbook.findRecord(nameOf(record))) {
            m_new.push_back(record);
        }
    }
}

void ImportedNotices::addRemarks(const Surroundings& surroundings, const LogbookFile& file,
                                 std::vector<std::string>& remarks) const {
    const auto& words = surroundings.words;
    addOfFields(words, "done.match_unknown", m_new, logbook::unknownMatchFields, remarks);
    addOfFields(words, "done.match_empty", m_new, logbook::emptyMatchFields, remarks);
    const auto now = m_new.empty() ? tl::unexpected(Problem()) : standing(surroundings, file, {});
    if (!now) {
        return;
    }
    std::size_t count = 0;
    for (const auto& each : m_new) {
        const auto record = logbook::readRecord(each.content);
        const auto* notice =
            record ? std::get_if<logbook::body::Notice>(&record->body) : nullptr;
        const auto known = notice != nullptr ? now->state.notices.find(notice->key)
                                             : now->state.notices.end();
        if (known == now->state.notices.end() || known->second.record.name != record->name ||
            notice->cancelled || ++count > mostTold) {
            continue;
        }
        auto reach = reachOf(words, now->state, *notice);
        std::string told;
        for (const auto& lines : {reach.told, reach.warnings}) {
            for (const auto& line : lines) {
                told += (told.empty() ? "" : " ") + line;
            }
        }
        remarks.push_back(words.say("notice_reach.imported", {{"key", notice->key},
                                                              {"record", toText(record->name)},
                                                              {"told", told}}));
    }
    if (count > mostTold) {
        remarks.push_back(
            words.say("notice_reach.more", {{"count", std::to_string(count - mostTold)}}));
    }
}

}  // namespace station
