// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The samples, and the ways to spoil them.
#include "sample_records.h"

#include <algorithm>
#include <stdexcept>

namespace sample {

using logbook::Kind;
namespace json = logbook::json;

namespace {

constexpr std::string_view departmentBody(Kind kind) {
    switch (kind) {
    case Kind::Adopt:
        return R"({"edition":"2026-1","text":"format = 1","approved_by":"The committee",
                   "department":"Respiratory care","facility":"Kestrel Bay Hospital"})";
    case Kind::Person:
        return R"({"person":"mt","name":"M. Thorn","roles":["rt","chief"],"until":"2026-12-31"})";
    case Kind::Notice:
        return R"({"key":"n_7","title":"Valve may stick","action":"stop_use","cancelled":true,
                   "match":{"position":"valve","lots":["L1"],"serials":["S1","S2"],
                   "part_models":["Sorrel V"],"device_models":["Larch 3"],"devices":["KB-0001"],
                   "software":["1.0"]}})";
    case Kind::Sign:
        return R"({"scope":"month","month":"2026-02","known_at":"2026-03-01T08:00:00Z",
                   "digest":"ab12","heads":{"icu-1":[412,"cd34"]}})";
    case Kind::Review:
        return R"({"target":"icu-1/7","disposition":"confirmed","text":"Mine."})";
    case Kind::Strike: return R"({"target":"icu-1/7","reason":"wrong unit"})";
    case Kind::Waive:
        return R"({"finding":"due","subject":"leak","until":"2026-03-03T14:00:00Z",
                   "reason":"surge"})";
    default: return {};
    }
}

constexpr std::string_view useBody(Kind kind) {
    switch (kind) {
    case Kind::UseStart:
        return R"({"group":"adult","location":"bay 1","precautions":true,"emergency":true,
                   "reason":"arrest","same_patient":true})";
    case Kind::UsePause: return R"({"reason":"transport"})";
    case Kind::UseResume: return "{}";
    case Kind::UseEnd: return "{}";
    case Kind::Note: return R"({"text":"Größe 1"})";
    default: return {};
    }
}

constexpr std::string_view deviceBody(Kind kind) {
    switch (kind) {
    case Kind::Enrol:
        return R"({"model":"Larch 3","groups":["pediatric","adult","adult"],"features":["co2"],
                   "commissioned":"2025-12-13","label":"unit 24","asset":"A-9",
                   "maker":"Rowan Works","udi":"(01)0","location":"bay 1","owner":"pool",
                   "return_by":"2027-01-31"})";
    case Kind::Retire: return R"({"reason":"sold"})";
    case Kind::Group: return R"({"group":"adult"})";
    case Kind::Power: return R"({"on":true})";
    case Kind::Move: return R"({"location":"bay 2"})";
    case Kind::Sighted: return R"({"location":"bay 3"})";
    case Kind::Software: return R"({"version":"2.1"})";
    case Kind::Fit:
        return R"({"position":"circuit","part":{"serial":"C-1","lot":"","model":"Sorrel 22",
                   "groups":["pediatric","adult","adult"],"reuse":"reusable",
                   "expires":"2027-01-31","technology":"heated"}})";
    case Kind::Remove: return R"({"position":"hme"})";
    case Kind::Reprocess: return R"({"positions":["circuit"],"level":"high","load":"17"})";
    case Kind::Soil: return R"({"reason":"splash"})";
    case Kind::Check:
        return R"({"check":"leak","outcome":"pass","measures":{"leak":{"value":85.5,
                   "unit":"mL/min"}},"conditions":["mains_power","gas_supply","gas_supply"]})";
    case Kind::Alarm: return R"({"code":"flow_lost"})";
    case Kind::Fault: return R"({"code":"battery_worn","blocking":false,"text":"20 min left"})";
    case Kind::Clear: return R"({"code":"battery_worn"})";
    case Kind::Withdraw: return R"({"hold":"incident","reason":"to be looked at"})";
    case Kind::Release: return R"({"hold":"incident"})";
    case Kind::NoticeDone: return R"({"key":"n_7","text":"valve replaced"})";
    case Kind::Service: return R"({"service":"maintenance","outcome":"not_located"})";
    default: return {};
    }
}

json::Value parsed(std::string_view text) {
    auto value = json::parse(text);
    if (!value) {
        throw std::logic_error("a sample is no JSON: " + value.error().detail);
    }
    return std::move(*value);
}

// The object that holds the member at `path`, and the member's own name.
struct Member {
    json::Value* holder;
    std::string name;
};

Member memberAt(json::Value& root, std::string_view path) {
    json::Value* holder = &root;
    for (auto dot = path.find('.'); dot != std::string_view::npos; dot = path.find('.')) {
        holder = holder->find(path.substr(0, dot));
        path.remove_prefix(dot + 1);
        if (holder == nullptr || holder->object() == nullptr) {
            throw std::logic_error("no such member in the sample");
        }
    }
    return {holder, std::string(path)};
}

}  // namespace

std::string_view bodyOf(Kind kind) {
    for (const auto body : {departmentBody(kind), useBody(kind), deviceBody(kind)}) {
        if (!body.empty()) {
            return body;
        }
    }
    throw std::logic_error("a kind without a sample");
}

std::string lineOf(Kind kind) {
    return lineOf(kind, bodyOf(kind));
}

std::string lineOf(Kind kind, std::string_view body) {
    json::Object record{{"station", "icu-1"},
                        {"seq", 8},
                        {"at", "2026-03-02T14:00:00Z"},
                        {"entered", "2026-03-02T14:00:00Z"},
                        {"by", "mt"},
                        {"device", logbook::isDepartmentWide(kind) ? "" : "KB-0001"},
                        {"kind", logbook::kindName(kind)},
                        {"body", parsed(body)}};
    return json::canonical(json::Value(std::move(record)));
}

std::string with(const std::string& line, std::string_view path, std::string_view value) {
    json::Value root = parsed(line);
    const Member member = memberAt(root, path);
    if (json::Value* found = member.holder->find(member.name)) {
        *found = parsed(value);
    } else {
        member.holder->object()->emplace_back(member.name, parsed(value));
    }
    return json::canonical(root);
}

std::string without(const std::string& line, std::string_view path) {
    json::Value root = parsed(line);
    const Member member = memberAt(root, path);
    if (member.holder->find(member.name) == nullptr) {
        throw std::logic_error("no such member in the sample");
    }
    std::erase_if(*member.holder->object(),
                  [&](const json::Member& each) { return each.first == member.name; });
    return json::canonical(root);
}

}  // namespace sample
