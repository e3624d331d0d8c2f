// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The trace as text: what is in a unit now comes first, since that is where someone has to go.
#include "report/trace.h"
#include "words/record_words.h"
#include "words/shown.h"

#include <algorithm>
#include <functional>
#include <set>

namespace report {

namespace {

using rules::LoadSide;
using rules::TraceBy;
using rules::TraceStay;
using words::Context;

constexpr std::size_t spanIndent = 6;

// What all pieces of the text share.
struct Page {
    const Trace& trace;
    Context context;
    std::size_t width;
    std::size_t dateWidth = 0;  // of the longest time in the spans

    [[nodiscard]] std::string say(std::string_view key, const words::Gaps& gaps = {}) const {
        return context.words.say("trace." + std::string(key), gaps);
    }
    [[nodiscard]] std::string dated(Instant instant) const {
        return context.times().dated(instant);
    }
    [[nodiscard]] std::string heading(std::string_view key) const { return "\n" + say(key) + "\n"; }
    [[nodiscard]] bool isAbout(TraceBy by) const { return trace.found.question.by == by; }
    [[nodiscard]] bool isAboutUnits() const {
        const auto& stays = trace.found.stays;
        return isAbout(TraceBy::Notice) && !stays.empty() && stays.front().position.empty();
    }
};

std::string writerOf(const Context& context, const logbook::RecordName& name) {
    const auto* record = context.record(name);
    if (!record) return context.words.say("plain.unknown");
    return words::personName(context, words::doerOf(*record));
}

std::string lineOf(const Context& context, const logbook::RecordName& name) {
    const auto* record = context.record(name);
    return record ? words::recordLine(context, *record) : context.words.say("plain.unknown");
}

// Time, entry, who and what, for the sentences that tell of a record.
words::Gaps gapsOf(const Page& page, const rules::RecordRef& record) {
    return {{"time", page.dated(record.at)},
            {"record", logbook::toText(record.name)},
            {"person", writerOf(page.context, record.name)},
            {"line", lineOf(page.context, record.name)}};
}

std::string partText(const Page& page, const std::string& position,
                     const rules::PartAttributes& part) {
    auto text = words::positionLabel(page.context, position);
    for (const std::string key : {"serial", "lot", "model"}) {
        const auto stated = part.text(key);
        if (!stated.empty()) text += ", " + page.say(key, {{key, std::string(stated)}});
    }
    return text;
}

std::string headText(const Page& page) {
    const auto& found = page.trace.found;
    const auto by = std::string(rules::name(found.question.by));
    words::Gaps gaps{{"key", found.question.key}};
    if (found.notice) {
        gaps = {{"notice", words::readable(found.notice->notice.key)},
                {"title", found.notice->notice.title}};
    }
    std::string text = wrapped(page.context.words.say("trace_title." + by, gaps), page.width);
    if (found.notice) {
        auto told = gapsOf(page, found.notice->record);
        told.emplace("action", page.say(logbook::name(found.notice->notice.action)));
        text += wrapped(page.say("notice", told), page.width);
        if (found.notice->notice.cancelled) text += wrapped(page.say("cancelled"), page.width);
    }
    text += "\n";
    for (const auto& line : headLines(page.context, page.trace.provenance, std::nullopt))
        text += wrapped(line, page.width);
    return text;
}

bool goesOn(const TraceStay& stay) {
    return !stay.period.to;
}

bool isOpen(const Page& page, const TraceStay& stay) {
    return page.isAbout(TraceBy::Notice) && !page.trace.found.notice->notice.cancelled &&
           goesOn(stay) && !stay.done;
}

std::string countsText(const Page& page) {
    const auto& stays = page.trace.found.stays;
    std::set<std::string> units;
    for (const auto& stay : stays) units.insert(stay.device);
    const auto now = std::count_if(stays.begin(), stays.end(), goesOn);
    const words::Gaps gaps{{"fits", std::to_string(stays.size())},
                           {"units", std::to_string(units.size())},
                           {"now", std::to_string(now)}};
    const auto text =
        "\n" + wrapped(page.say(page.isAboutUnits() ? "counts_units" : "counts", gaps), page.width);
    const auto& notice = page.trace.found.notice;
    if (!notice || notice->notice.cancelled) return text;
    const auto open = std::count_if(stays.begin(), stays.end(),
                                    [&](const auto& stay) { return isOpen(page, stay); });
    return text + wrapped(page.say("counts_open", {{"count", std::to_string(open)}}), page.width);
}

std::string placeText(const Page& page, const rules::TraceSpan& span) {
    const auto place =
        span.location.empty() ? page.say("no_place") : words::shown(span.location);
    if (!span.use) return place;
    return page.say(span.paused ? "paused" : "on_patient", {{"place", place}});
}

// One below the other they read as one table, so their columns are as wide as any of them needs.
std::string spansText(const Page& page, const TraceStay& stay) {
    Table table({"", "", ""});
    for (const auto& span : stay.spans) {
        table.add({page.dated(span.period.from),
                   span.period.to ? page.dated(*span.period.to) : page.say("now"),
                   placeText(page, span)});
    }
    auto widths = table.naturalWidths();
    for (std::size_t column = 0; column < 2; ++column)
        widths[column] = std::max(widths[column], page.dateWidth);
    return table.rows(fitted(widths, page.width - spanIndent), spanIndent);
}

std::string doneText(const Page& page, const TraceStay& stay) {
    if (stay.done) {
        const auto* record = page.context.record(stay.done->name);
        const auto* body = record ? std::get_if<logbook::body::NoticeDone>(&record->body) : nullptr;
        auto gaps = gapsOf(page, *stay.done);
        if (!body || !body->text || body->text->empty())
            return wrapped(page.say("done", gaps), page.width, 4);
        gaps.emplace("text", *body->text);
        return wrapped(page.say("done_text", gaps), page.width, 4);
    }
    return isOpen(page, stay) ? wrapped(page.say("not_done"), page.width, 4) : "";
}

std::string stayText(const Page& page, const TraceStay& stay) {
    const bool isUnit = stay.position.empty();
    const auto* device = page.context.state.device(stay.device);
    const auto what = isUnit ? page.say("model", {{"model", device ? device->enrolment.model : ""}})
                             : partText(page, stay.position, stay.part);
    auto text =
        wrapped(page.say("stay", {{"device", stay.device}, {"what", what}}), page.width, 2);
    text += wrapped(page.say(isUnit ? "concerned" : "fitted", gapsOf(page, stay.fit)), page.width,
                    4);
    if (stay.ended)
        text += wrapped(page.say("ended", gapsOf(page, *stay.ended)), page.width, 4);
    if (stay.statedElsewhere) text += wrapped(page.say("stated_elsewhere"), page.width, 4);
    return text + doneText(page, stay) + spansText(page, stay);
}

std::string staysText(const Page& page, std::string_view heading,
                      const std::function<bool(const TraceStay&)>& wanted) {
    std::string text;
    for (const auto& stay : page.trace.found.stays)
        if (wanted(stay)) text += (text.empty() ? "" : "\n") + stayText(page, stay);
    return text.empty() ? "" : page.heading(heading) + text;
}

std::string reprocessesText(const Page& page, std::string_view heading,
                            const std::function<bool(const rules::TraceReprocess&)>& wanted) {
    Table table({page.say("when"), page.say("part"), page.say("unit"), page.say("load_title"),
                 page.say("entry")});
    for (const auto& each : page.trace.found.reprocesses) {
        if (!wanted(each)) continue;
        rules::PartAttributes part;
        if (!each.part.second.empty()) part.texts.try_emplace("serial", each.part.second);
        auto entry = logbook::toText(each.record.name);
        if (!each.counted) entry = page.say("no_effect", {{"record", entry}});
        table.add({page.dated(each.record.at), partText(page, each.part.first, part),
                   words::shown(each.device), words::shown(each.load), entry});
    }
    return table.isEmpty() ? "" : page.heading(heading) + table.text(page.width, 2);
}

std::string looseText(const Page& page) {
    std::string text;
    for (const auto& part : page.trace.found.parts) {
        if (part.standsIn) continue;
        rules::PartAttributes attributes;
        attributes.texts.try_emplace("serial", part.key.second);
        auto gaps = words::Gaps{{"part", partText(page, part.key.first, attributes)}};
        if (!part.lastStay) {
            text += wrapped(page.say("never_fitted", gaps), page.width, 2);
            continue;
        }
        const auto& stay = page.trace.found.stays[*part.lastStay];
        gaps.emplace("device", stay.device);
        gaps.emplace("time", page.dated(stay.period.to.value_or(stay.period.from)));
        text += wrapped(page.say(part.life.used ? "loose_used" : "loose", gaps), page.width, 2);
    }
    return text.empty() ? "" : page.heading("loose_heading") + text;
}

std::string loadText(const Page& page) {
    const auto& key = page.trace.found.question.key;
    const auto side = [](std::initializer_list<LoadSide> sides) {
        return [sides = std::set<LoadSide>(sides)](const TraceStay& stay) {
            return stay.side && sides.contains(*stay.side);
        };
    };
    return reprocessesText(page, "in_load", [&](const auto& each) { return each.load == key; }) +
           staysText(page, "since", side({LoadSide::Through, LoadSide::Since})) +
           looseText(page) + staysText(page, "before", side({LoadSide::Before})) +
           reprocessesText(page, "other_loads",
                           [&](const auto& each) { return each.load != key; }) +
           staysText(page, "later", side({LoadSide::Later})) +
           staysText(page, "earlier", side({LoadSide::Earlier}));
}

std::string partsText(const Page& page) {
    const bool units = page.isAboutUnits();
    return staysText(page, units ? "units_now" : "in_units", goesOn) + looseText(page) +
           staysText(page, units ? "units_past" : "taken_out", std::not_fn(goesOn)) +
           reprocessesText(page, "reprocessed", [](const auto&) { return true; });
}

}  // namespace

std::string toText(const Trace& trace, const words::Words& words, const TextOptions& options) {
    Page page{trace, trace.context(words), usableWidth(options)};
    for (const auto& stay : trace.found.stays)
        for (const auto& span : stay.spans)
            page.dateWidth =
                std::max(page.dateWidth, words::columns(page.dated(span.period.from)));
    std::string text = headText(page);
    if (!trace.alike.empty()) {
        std::vector<std::string> keys;
        for (const auto& key : trace.alike)
            keys.push_back(words.say("privacy.seen", {{"text", key}}));
        text += "\n" + wrapped(words.say("trace.alike", {{"keys", words.all(keys)}}), page.width);
    }
    const auto by = std::string(rules::name(trace.found.question.by));
    if (trace.found.isEmpty()) {
        text += "\n" + wrapped(words.sentence("trace_nothing." + by).text(), page.width);
        return text;
    }
    text += countsText(page);
    text += page.isAbout(TraceBy::Load) ? loadText(page) : partsText(page);
    return text;
}

}  // namespace report
