// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fields of forms; see act_scene.h.
#include "desktop/bedside/acts/act_scene.h"

#include "desktop/bedside/unit_facts.h"
#include "desktop/shell/text.h"
#include "report/resume_row.h"

#include <QCoreApplication>
#include <algorithm>

namespace desktop {

namespace {

constexpr std::size_t mostPlaces = 8;
constexpr qsizetype mostLacking = 4;

QString whatAndWhere(const report::BoardLine& line) {
    const auto serial = shownText(line.serial);
    return line.place.empty() ? serial
                              : serial + QStringLiteral(", ") + shownText(line.place);
}

}  // namespace

ActField choiceField(const std::string& key, const QString& label,
                     std::vector<ActChoice> choices) {
    ActField field{key, label, ActField::What::Choice};
    field.choices = std::move(choices);
    if (field.choices.size() == 1) field.value = field.choices.front().value;
    return field;
}

ActField textField(const std::string& key, const QString& label, const QStringList& proposals) {
    ActField field{key, label, ActField::What::Text};
    for (const auto& each : proposals) field.choices.push_back({plainText(each), each});
    return field;
}

ActField groupField(const ActScene& scene, const QString& label) {
    const auto context = contextOf(scene.unit, scene.words);
    const auto& groups = deviceOf(scene.unit).enrolment.groups;
    std::vector<ActChoice> choices;
    for (const auto& group : rulebookOf(scene.unit).groups)
        if (groups.empty() || std::ranges::find(groups, group.key) != groups.end())
            choices.push_back({group.key, shownText(words::groupLabel(context, group.key))});
    auto field = choiceField("group", label, std::move(choices));
    const auto& identity = scene.unit.bedside.identity;
    if (const auto& group = identity.groupAsked ? identity.groupAsked : identity.group)
        field.value = *group;
    return field;
}

ActField placeField(const ActScene& scene, const QString& label) {
    QStringList places;
    if (scene.stationPlace) places << shownText(*scene.stationPlace);
    for (const auto& place : knownPlaces(scene.unit, mostPlaces))
        if (const auto text = shownText(place); !places.contains(text)) places << text;
    auto field = textField("location", label, places);
    field.value = scene.stationPlace ? *scene.stationPlace
                                     : scene.unit.bedside.identity.location.value_or("");
    return field;
}

ActField startPlaceField(const ActScene& scene, const QString& label) {
    QStringList places;
    const auto add = [&places](const std::string& place) {
        if (const auto text = shownText(place); !text.isEmpty() && !places.contains(text))
            places << text;
    };
    if (scene.stationPlace) add(*scene.stationPlace);
    for (const auto& place : placesInUse(scene.unit, mostPlaces)) add(place);
    add(scene.unit.bedside.identity.location.value_or(""));
    auto field = textField("location", label, places);
    field.value = scene.stationPlace.value_or("");
    return field;
}

QStringList whatIsLacking(const ActScene& scene) {
    QStringList lines;
    for (const auto& row : scene.unit.bedside.rows) {
        const bool isDone =
            row.part == report::RowPart::Done || row.key == report::resumeRow;
        const bool standsAgainst =
            row.part != report::RowPart::Finding || row.status || row.mark.empty();
        if (!isDone && standsAgainst) lines << shownText(row.title);
    }
    if (lines.size() <= mostLacking) return lines;
    const auto more = static_cast<int>(lines.size() - mostLacking);
    lines.resize(mostLacking);
    lines << QCoreApplication::translate("desktop::ActScene", "and %n more", nullptr, more);
    return lines;
}

QString readyInstead(const ActScene& scene) {
    const auto& unit = scene.unit.bedside.identity;
    const auto& fleet = *scene.unit.fleet;
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < fleet.board.rows.size(); ++i) {
        const auto& row = fleet.board.rows[i];
        const bool isReady = row.assessment.verdict == rules::Verdict::Ready && !row.inDoubt;
        if (!isReady || row.assessment.group != unit.group) continue;
        if (fleet.lines[i].place == unit.place) return whatAndWhere(fleet.lines[i]);
        if (!found) found = i;
    }
    return found ? whatAndWhere(fleet.lines[*found]) : QString();
}

QString labelOf(const ActField& field, const Answers& answers) {
    const auto value = answer(answers, field.key);
    for (const auto& choice : field.choices)
        if (choice.value == value) return choice.label;
    return shownText(value);
}

logbook::json::Object bodyOf(const Answers& answers, const std::vector<std::string>& fields) {
    logbook::json::Object body;
    for (const auto& field : fields)
        if (auto value = answer(answers, field); !value.empty())
            body.emplace_back(field, std::move(value));
    return body;
}

}  // namespace desktop
