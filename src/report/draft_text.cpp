// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a draft would change, as text: the units first, since they are what a person meets on the
// day of the adoption; then the months, side by side.
#include "report/draft.h"
#include "words/finding_words.h"
#include "words/shown.h"

#include <algorithm>
#include <array>
#include <map>

namespace report {

namespace {

using words::Context;

std::string heading(const Context& context, std::string_view key) {
    return "\n" + context.words.say(key) + "\n";
}

std::string headText(const Draft& draft, const Context& now, std::size_t width) {
    const auto& words = now.words;
    const auto& then = *draft.answer.then.rulebook;
    std::string text = wrapped(
        words.say("draft.title", {{"edition", then.edition}, {"title", then.title}}), width);
    text += wrapped(words.say("draft.nothing_written"), width) + "\n";
    for (const auto& line : headLines(now, draft.provenance, std::nullopt))
        text += wrapped(line, width);
    return text;
}

std::string findingsText(const Context& context, const std::vector<rules::Finding>& findings,
                         std::string_view key, std::size_t width) {
    std::string text;
    for (const auto& finding : findings) {
        const auto says = words::sentence(context, finding).says;
        text += wrapped(context.words.say(key, {{"sentence", says}}), width, 6);
    }
    return text;
}

Context about(Context context, const std::string& device) {
    context.device = context.state.device(device);
    return context;
}

// What would change on one unit, and why: the same for many units more often than not.
std::string changeText(const Draft& draft, const words::Words& words, const rules::Flip& flip,
                       std::size_t width) {
    return wrapped(words.say("draft.flip", {{"now", words::verdictWord(words, flip.now)},
                                            {"then", words::verdictWord(words, flip.then)}}),
                   width, 4) +
           findingsText(about(draft.then(words), flip.device), flip.blocksThen,
                        "draft.blocks_then", width) +
           findingsText(about(draft.now(words), flip.device), flip.blocksNow, "draft.blocks_now",
                        width);
}

std::string flipsText(const Draft& draft, const words::Words& words, std::size_t width) {
    std::string text = heading(draft.now(words), "draft.flips");
    if (!draft.provenance.problems.empty())
        return text + wrapped(words.say("board.doubt_sentence"), width, 2);
    if (draft.answer.flips.empty()) return text + wrapped(words.say("draft.no_flips"), width, 2);
    std::vector<std::string> changes;  // in the order in which they are met
    std::map<std::string, std::vector<std::string>> units;
    for (const auto& flip : draft.answer.flips) {
        auto change = changeText(draft, words, flip, width);
        auto& of = units[change];
        if (of.empty()) changes.push_back(std::move(change));
        of.push_back(words::shown(flip.device));
    }
    for (const auto& change : changes) {
        const auto& of = units[change];
        text += wrapped(words.say("draft.units", {{"count", std::to_string(of.size())},
                                                  {"units", words.all(of)}}),
                        width, 2) +
                change;
    }
    return text;
}

// Nothing in the past can comply with what no entry is about.
std::string namedAnewText(const Draft& draft, const words::Words& words, std::size_t width) {
    const auto context = draft.then(words);
    std::vector<std::string> names;
    const auto add = [&](const auto& keys, const auto& label) {
        for (const auto& key : keys) names.push_back(words.inside(label(context, key)));
    };
    add(draft.answer.anew.checks, words::checkLabel);
    add(draft.answer.anew.positions, words::positionLabel);
    add(draft.answer.anew.services, words::serviceLabel);
    if (names.empty()) return "";
    return "\n" + wrapped(words.say("draft.named_anew", {{"names", words.all(names)}}), width, 2);
}

// What would silently be left out from the adoption on.
std::string noMoreText(const Draft& draft, const words::Words& words, std::size_t width) {
    const auto& noMore = draft.answer.noMore;
    const auto context = draft.now(words);
    std::vector<std::string> names;
    const auto add = [&](const auto& keys, const auto& label) {
        for (const auto& key : keys) names.push_back(label(context, key));
    };
    add(noMore.groups, words::groupLabel);
    add(noMore.checks, words::checkLabel);
    add(noMore.positions, words::positionLabel);
    add(noMore.services, words::serviceLabel);
    if (names.empty()) return "";
    std::string text = heading(context, "draft.no_more") +
                       wrapped(words.say("draft.named_no_more", {{"names", words.all(names)}}),
                               width, 2);
    if (noMore.units.empty()) return text;
    std::vector<std::string> units;
    for (const auto& unit : noMore.units) units.push_back(words::shown(unit));
    const words::Gaps gaps{{"units", words.all(units)}};
    return text + wrapped(words.say("draft.units_no_more", gaps), width, 2);
}

std::string rateOf(const words::Words& words, const std::array<int, 5>& starts) {
    const int part = starts[0] + starts[1] + starts[2];
    const int all = part + starts[3] + starts[4];
    if (all == 0) return words.say("draft.no_starts");
    return words.say("draft.rate", {{"part", std::to_string(part)},
                                    {"all", std::to_string(all)},
                                    {"percent", words::percent(words, part, all)}});
}

void add(rules::MonthUnder& sum, const rules::MonthUnder& month) {
    for (std::size_t i = 0; i < sum.starts.size(); ++i) sum.starts[i] += month.starts[i];
    sum.checksCalled += month.checksCalled;
}

std::string monthsText(const Draft& draft, const Context& context, std::size_t width) {
    const auto& words = context.words;
    Table table({words.say("draft.month"), words.say("draft.compliant_now"),
                 words.say("draft.compliant_then"), words.say("draft.checks_now"),
                 words.say("draft.checks_then")});
    rules::MonthUnder now, then;
    const auto row = [&](const std::string& title, const rules::MonthUnder& a,
                         const rules::MonthUnder& b) {
        table.add({title, rateOf(words, a.starts), rateOf(words, b.starts),
                   std::to_string(a.checksCalled), std::to_string(b.checksCalled)});
    };
    for (const auto& month : draft.answer.months) {
        row(context.times().month(month.month), month.now, month.then);
        add(now, month.now);
        add(then, month.then);
    }
    if (draft.answer.months.size() > 1) row(words.say("draft.all"), now, then);
    return heading(context, "draft.months") + wrapped(words.say("draft.replayed"), width, 2) +
           namedAnewText(draft, words, width) + "\n" + table.text(width, 2);
}

// Below par in each month under each edition; a group that only one of them names has no time
// under the other.
using Times = std::map<std::string, std::array<std::optional<Duration>, 2>>;

Times timesOf(const rules::MonthCompared& month) {
    Times times;
    for (const auto& group : month.now.groups) times[group.group][0] = group.belowPar;
    for (const auto& group : month.then.groups) times[group.group][1] = group.belowPar;
    return times;
}

std::string belowParText(const Draft& draft, const words::Words& words, std::size_t width) {
    const auto now = draft.now(words);
    const auto then = draft.then(words);
    std::vector<Duration> all;
    for (const auto& month : draft.answer.months)
        for (const auto& [group, times] : timesOf(month))
            for (const auto& time : times) all.push_back(time.value_or(Duration{}));
    if (all.empty()) return "";
    const auto unit = words::unitFor(all);
    Table table({words.say("draft.month"), words.say("month.group"), words.say("draft.below_now"),
                 words.say("draft.below_then")});
    for (const auto& month : draft.answer.months) {
        for (const auto& [group, times] : timesOf(month)) {
            const auto& context = times[0] ? now : then;
            const auto cell = [&](const std::optional<Duration>& time) {
                return time ? words::span(words, *time, unit) : words.say("draft.no_par");
            };
            table.add({now.times().month(month.month), words::groupLabel(context, group),
                       cell(times[0]), cell(times[1])});
        }
    }
    return heading(now, "draft.below") + table.text(width, 2);
}

}  // namespace

std::string toText(const Draft& draft, const words::Words& words, const TextOptions& options) {
    const auto width = usableWidth(options);
    const auto now = draft.now(words);
    std::string text = headText(draft, now, width) + flipsText(draft, words, width) +
                       noMoreText(draft, words, width) + monthsText(draft, now, width) +
                       belowParText(draft, words, width);
    if (draft.answer.monthsBefore > 0) {
        const auto count = std::to_string(draft.answer.monthsBefore);
        text += "\n" + wrapped(words.say("draft.months_before", {{"count", count}}), width);
    }
    return text + "\n" + wrapped(words.say("caution.full"), width);
}

}  // namespace report
