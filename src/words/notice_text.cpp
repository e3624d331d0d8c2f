// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field notices; see notice_text.h.
#include "words/notice_text.h"

namespace words {

namespace {

// "" where none is known.
std::string titleOf(const Context& context, std::string_view key) {
    const auto known = context.state.notices.find(std::string(key));
    return known == context.state.notices.end() ? std::string() : known->second.notice.title;
}

}  // namespace

std::string noticeText(const Context& context, std::string_view key) {
    const auto title = titleOf(context, key);
    return title.empty() ? readable(key)
                         : context.words.say("record.notice_named",
                                             {{"notice", readable(key)}, {"title", title}});
}

std::string noticeTitle(const Context& context, std::string_view key) {
    const auto title = titleOf(context, key);
    return title.empty() ? readable(key) : title;
}

}  // namespace words
