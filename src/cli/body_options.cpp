// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Options to bodies of entries; see body_options.h.
#include "cli/body_options.h"

#include "logbook/kind.h"
#include "logbook/record_reader.h"
#include "logbook/tidy.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace cli {

namespace {

namespace json = logbook::json;
using station::Result;

enum class Form {
    Text,
    List,        // of texts
    True,        // a switch that says true
    False,       // a switch that says false
    YesNo,
    Measure,     // KEY=VALUE UNIT, into the object of that name
    Attribute,   // KEY=VALUE, into the object of that name
};

// Where an option goes in the body of a kind: "positions", "part.lot".
struct Place {
    std::string_view option, kind, field;
    Form form = Form::Text;
};

constexpr Place places[] = {
    {"--model", "enrol", "model"},
    {"--group", "enrol", "groups", Form::List},
    {"--feature", "enrol", "features", Form::List},
    {"--commissioned", "enrol", "commissioned"},
    {"--label", "enrol", "label"},
    {"--asset", "enrol", "asset"},
    {"--maker", "enrol", "maker"},
    {"--udi", "enrol", "udi"},
    {"--location", "enrol", "location"},
    {"--owner", "enrol", "owner"},
    {"--return-by", "enrol", "return_by"},
    {"--reason", "retire", "reason"},
    {"--group", "group", "group"},
    {"--on", "power", "on", Form::True},
    {"--off", "power", "on", Form::False},
    {"--location", "move", "location"},
    {"--location", "sighted", "location"},
    {"--to-version", "software", "version"},
    {"--position", "fit", "position"},
    {"--serial", "fit", "part.serial"},
    {"--lot", "fit", "part.lot"},
    {"--model", "fit", "part.model"},
    {"--group", "fit", "part.groups", Form::List},
    {"--reuse", "fit", "part.reuse"},
    {"--expires", "fit", "part.expires"},
    {"--attribute", "fit", "part", Form::Attribute},
    {"--position", "remove", "position"},
    {"--position", "reprocess", "positions", Form::List},
    {"--level", "reprocess", "level"},
    {"--load", "reprocess", "load"},
    {"--reason", "soil", "reason"},
    {"--check", "check", "check"},
    {"--outcome", "check", "outcome"},
    {"--measure", "check", "measures", Form::Measure},
    {"--condition", "check", "conditions", Form::List},
    {"--code", "alarm", "code"},
    {"--code", "fault", "code"},
    {"--blocking", "fault", "blocking", Form::YesNo},
    {"--text", "fault", "text"},
    {"--code", "clear", "code"},
    {"--hold", "withdraw", "hold"},
    {"--reason", "withdraw", "reason"},
    {"--hold", "release", "hold"},
    {"--finding", "waive", "finding"},
    {"--subject", "waive", "subject"},
    {"--until", "waive", "until"},
    {"--reason", "waive", "reason"},
    {"--key", "notice", "key"},
    {"--title", "notice", "title"},
    {"--action", "notice", "action"},
    {"--key", "notice_done", "key"},
    {"--text", "notice_done", "text"},
    {"--service", "service", "service"},
    {"--outcome", "service", "outcome"},
    {"--group", "use_start", "group"},
    {"--location", "use_start", "location"},
    {"--precautions", "use_start", "precautions", Form::YesNo},
    {"--emergency", "use_start", "emergency", Form::True},
    {"--reason", "use_start", "reason"},
    {"--same-patient", "use_start", "same_patient", Form::True},
    {"--reason", "use_pause", "reason"},
    {"--text", "note", "text"},
    {"--target", "review", "target"},
    {"--disposition", "review", "disposition"},
    {"--text", "review", "text"},
};

// Those with commands of their own, or that only a report can make.
constexpr std::string_view notLogged[] = {"adopt", "person", "strike", "sign"};

json::Value& memberOf(json::Object& object, std::string_view name) {
    for (auto& member : object) {
        if (member.first == name) {
            return member.second;
        }
    }
    object.emplace_back(name, json::Value());
    return object.back().second;
}

json::Object& objectAt(json::Object& body, std::string_view name) {
    auto& value = memberOf(body, name);
    if (value.object() == nullptr) {
        value = json::Object{};
    }
    return *value.object();
}

json::Value listOf(const std::vector<std::string>& values) {
    json::Array list;
    for (const auto& value : values) {
        list.emplace_back(value);
    }
    return list;
}

// "leak=42 mL/min"
std::optional<json::Member> measureOf(std::string_view text) {
    const auto equals = text.find('=');
    const auto blank = text.find(' ', equals == std::string_view::npos ? 0 : equals);
    if (equals == std::string_view::npos || blank == std::string_view::npos) {
        return std::nullopt;
    }
    double value = 0;
    const auto digits = text.substr(equals + 1, blank - equals - 1);
    const auto* end = digits.data() + digits.size();
    const auto read = std::from_chars(digits.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end || !std::isfinite(value)) {
        return std::nullopt;
    }
    return json::Member{text.substr(0, equals),
                        json::Object{{"value", value}, {"unit", text.substr(blank + 1)}}};
}

class BodyWriter {
public:
    BodyWriter(json::Object& body, const words::Words& words) : m_body(body), m_words(words) {}

    [[nodiscard]] Result<void> write(const Place& place, const std::vector<std::string>& values) {
        switch (place.form) {
            case Form::Text: return single(place, values);
            case Form::List: field(place.field) = listOf(values); return {};
            case Form::True: field(place.field) = true; return {};
            case Form::False: field(place.field) = false; return {};
            case Form::YesNo: return yesNo(place, values.front());
            case Form::Measure: return measures(place, values);
            case Form::Attribute: break;
        }
        return attributes(place, values);
    }

private:
    [[nodiscard]] tl::unexpected<station::Problem> refused(const Place& place,
                                                           const std::string& text,
                                                           std::string_view wanted) const {
        return tl::unexpected(station::problemOf(m_words, "call.bad_value",
                                        {{"option", std::string(place.option)},
                                         {"text", text},
                                         {"wanted", std::string(wanted)}}));
    }

    json::Value& field(std::string_view path) {
        const auto dot = path.find('.');
        if (dot == std::string_view::npos) {
            return memberOf(m_body, path);
        }
        return memberOf(objectAt(m_body, path.substr(0, dot)), path.substr(dot + 1));
    }

    Result<void> single(const Place& place, const std::vector<std::string>& values) {
        if (values.size() > 1) {
            return tl::unexpected(station::problemOf(m_words, "call.option_twice",
                                            {{"option", std::string(place.option)},
                                             {"command", "log"}}));
        }
        field(place.field) = values.front();
        return {};
    }

    Result<void> yesNo(const Place& place, const std::string& text) {
        const auto word = logbook::tidyKey(text).value_or(text);
        if (word != "yes" && word != "no") {
            return refused(place, text, "yes, no");
        }
        field(place.field) = word == "yes";
        return {};
    }

    Result<void> measures(const Place& place, const std::vector<std::string>& values) {
        for (const auto& text : values) {
            auto measure = measureOf(text);
            if (!measure) {
                return refused(place, text, "\"leak=42 mL/min\"");
            }
            memberOf(objectAt(m_body, place.field), measure->first) = std::move(measure->second);
        }
        return {};
    }

    Result<void> attributes(const Place& place, const std::vector<std::string>& values) {
        for (const auto& text : values) {
            const auto equals = text.find('=');
            if (equals == std::string::npos || equals == 0) {
                return refused(place, text, "layout=coaxial");
            }
            memberOf(objectAt(m_body, place.field), text.substr(0, equals)) =
                text.substr(equals + 1);
        }
        return {};
    }

    json::Object& m_body;
    const words::Words& m_words;
};

std::string optionsOf(std::string_view kind) {
    std::string names;
    for (const auto& place : places) {
        if (place.kind == kind) {
            names += std::string(place.option) + ", ";
        }
    }
    return names + "--json";
}

// The fields that the format asks for in every entry of the kind, though they may be empty.
void addWantedFields(json::Object& body, std::string_view kind) {
    if (kind == "enrol") {
        for (const auto* list : {"groups", "features"}) {
            if (auto& value = memberOf(body, list); value.isNull()) {
                value = json::Array{};
            }
        }
    }
    if (kind == "fit") {
        objectAt(body, "part");
    }
    if (kind == "notice") {
        objectAt(body, "match");
    }
    // What must not wait is not held up by a question why.
    if (kind == "withdraw" || kind == "soil" || kind == "use_pause") {
        if (auto& reason = memberOf(body, "reason"); reason.isNull()) {
            reason = "";
        }
    }
}

// The options for what the format asks for and the body lacks.
std::vector<std::string> lackingOptions(const json::Object& body, std::string_view kind) {
    std::vector<std::string> options;
    const auto record = logbook::readRecord(json::Object{{"kind", kind}, {"body", body}});
    if (record) {
        return options;
    }
    for (const auto& fault : record.error()) {
        const auto* place = std::ranges::find_if(places, [&](const Place& each) {
            return each.kind == kind && fault.field == "body." + std::string(each.field);
        });
        if (fault.code == logbook::RecordFault::Code::Missing && place != std::end(places)) {
            options.emplace_back(place->option);
        }
    }
    return options;
}

}  // namespace

const std::vector<Option>& bodyOptions() {
    static const std::vector<Option> options{
        {"--model", "TEXT", "Model of the unit or the part."},
        {"--group", "GROUP", "Patient group: of an enrolment or a part, each that it is for.",
         false, true},
        {"--feature", "KEY", "A feature of the unit enrolled.", false, true},
        {"--commissioned", "DATE", "Day on which the unit was commissioned, as in 2026-01-15."},
        {"--label", "TEXT", "What the unit is called."},
        {"--asset", "TEXT", "Asset number of the unit."},
        {"--maker", "TEXT", "Maker of the unit."},
        {"--udi", "TEXT", "Unique device identifier of the unit."},
        {"--location", "TEXT", "Where the unit is."},
        {"--owner", "TEXT", "To whom the unit belongs."},
        {"--return-by", "DATE", "Day by which a unit on loan goes back."},
        {"--on", "", "The unit was switched on."},
        {"--off", "", "The unit was switched off."},
        {"--to-version", "TEXT", "The software that the unit has now."},
        {"--position", "KEY", "Position of a part; of reprocessing, each that was reprocessed.",
         false, true},
        {"--serial", "TEXT", "Serial of the part."},
        {"--lot", "TEXT", "Lot of the part."},
        {"--reuse", "WORD", "single_use, single_patient, reusable or permanent."},
        {"--expires", "DATE", "The part's last day of use."},
        {"--attribute", "KEY=TEXT", "A further attribute of the part, as in layout=coaxial.",
         false, true},
        {"--level", "WORD", "Level of reprocessing: low, high or sterile."},
        {"--load", "TEXT", "Load of the washer or steriliser."},
        {"--check", "KEY", "The check carried out."},
        {"--service", "KEY", "The service carried out."},
        {"--outcome", "WORD",
         "Of a check: pass, fail or incomplete. Of a service: pass, fail, in_use, not_located or "
         "deferred."},
        {"--measure", "KEY=VALUE UNIT", "A measured value, as in \"leak=42 mL/min\".", false,
         true},
        {"--condition", "KEY", "A condition that was made sure of, as in mains_power.", false,
         true},
        {"--code", "KEY", "The alarm or the fault."},
        {"--blocking", "yes|no", "Whether the fault keeps the unit from being ready."},
        {"--hold", "KEY", "Why the unit is out of service; of a release, which reason is gone."},
        {"--finding", "WORD", "What a deviation permits, as in service_overdue."},
        {"--subject", "KEY", "What the finding is about."},
        {"--until", "TIME", "Until when the deviation is permitted."},
        {"--key", "KEY", "The field notice."},
        {"--title", "TEXT", "What the field notice is called."},
        {"--action", "WORD", "What the field notice asks for: stop_use, inspect or information."},
        {"--precautions", "yes|no", "Whether the patient is under isolation precautions."},
        {"--emergency", "", "The use began in an emergency."},
        {"--same-patient", "", "The same patient goes on; no new use begins."},
        {"--target", "RECORD", "The entry reviewed, as in icu-1/60."},
        {"--disposition", "TEXT", "What the review came to."},
        {"--text", "TEXT", "Free text. Never the name of a patient."},
        {"--reason", "TEXT", "Why. Never the name of a patient."},
    };
    return options;
}

std::string loggableKinds() {
    std::string kinds;
    for (int index = 0; index < logbook::kindCount; ++index) {
        const auto kind = logbook::kindName(static_cast<logbook::Kind>(index));
        if (std::ranges::find(notLogged, kind) == std::end(notLogged)) {
            kinds += (kinds.empty() ? "" : ", ") + std::string(kind);
        }
    }
    return kinds;
}

Result<json::Object> bodyOf(const Call& call, std::string_view kind, const words::Words& words) {
    if (!logbook::kindOf(kind) || std::ranges::find(notLogged, kind) != std::end(notLogged)) {
        return tl::unexpected(station::problemOf(words, "call.unknown_kind",
                                        {{"kind", std::string(kind)}, {"kinds", loggableKinds()}}));
    }
    json::Object body;
    if (const auto text = call.value("--json")) {
        auto value = json::parse(*text);
        if (!value || value->object() == nullptr) {
            return tl::unexpected(station::problemOf(words, "call.bad_body"));
        }
        body = std::move(*value->object());
    }
    BodyWriter writer(body, words);
    for (const auto& option : bodyOptions()) {
        if (!call.has(option.name)) {
            continue;
        }
        const auto* place = std::ranges::find_if(places, [&](const Place& each) {
            return each.option == option.name && each.kind == kind;
        });
        if (place == std::end(places)) {
            return tl::unexpected(station::problemOf(words, "call.option_for_other",
                                            {{"option", std::string(option.name)},
                                             {"kind", std::string(kind)},
                                             {"options", optionsOf(kind)}}));
        }
        if (auto written = writer.write(*place, call.values(option.name)); !written) {
            return tl::unexpected(std::move(written.error()));
        }
    }
    addWantedFields(body, kind);
    if (const auto options = lackingOptions(body, kind); !options.empty()) {
        return tl::unexpected(station::problemOf(words, "safeguard.option_lacking",
                                                 {{"kind", std::string(kind)},
                                                  {"options", words.all(options)}}));
    }
    return body;
}

}  // namespace cli
