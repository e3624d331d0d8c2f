// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Proposals for a part about to be fitted; see part_proposals.h.
#include "report/part_proposals.h"

#include "report/part_kinds.h"
#include "words/attribute_text.h"
#include "words/shown.h"

#include <algorithm>

namespace report {

namespace {

using words::Context;

std::string groupList(const Context& context, const std::vector<std::string>& groups) {
    std::vector<std::string> labels;
    for (const auto& group : groups) labels.push_back(words::groupLabel(context, group));
    return context.words.all(labels);
}

std::string summaryOf(const Context& context, const PartProposal& proposal) {
    std::string part;
    const auto add = [&part](const std::string& text) {
        part += (part.empty() ? "" : ", ") + text;
    };
    if (const auto model = proposal.texts.find("model"); model != proposal.texts.end())
        add(words::shown(model->second));
    for (const auto& [key, value] : proposal.texts)
        if (key != "model" && key != "reuse" && !isOfOnePart(key)) add(words::attributeText(value));
    if (!proposal.groups || proposal.groups->empty()) return part;
    const words::Gaps gaps{{"part", part}, {"groups", groupList(context, *proposal.groups)}};
    return context.words.say(part.empty() ? "bedside.for_groups" : "bedside.part_for", gaps);
}

PartProposal proposalOf(const Context& context, const std::string& position,
                        const rules::PartAttributes& part) {
    PartProposal proposal;
    proposal.position = position;
    proposal.label = words::positionLabel(context, position);
    for (const auto& [key, text] : part.texts) proposal.texts.insert_or_assign(key, text);
    if (part.reuse) proposal.texts["reuse"] = std::string(logbook::name(*part.reuse));
    proposal.groups = part.groups;
    return proposal;
}

void complete(const Context& context, PartProposal& proposal) {
    proposal.summary = summaryOf(context, proposal);
    proposal.otherGroups = otherGroupsSentence(context, proposal.position, proposal.groups);
}

void removeWhatIsOfOnePart(PartProposal& proposal) {
    std::erase_if(proposal.texts, [](const auto& entry) { return isOfOnePart(entry.first); });
}

// What the position held before: what stands there, or else what stood there last.
const rules::PartAttributes* before(const Context& context, const std::string& position) {
    if (const auto* part = context.fitted(position)) return &part->attributes;
    if (!context.device) return nullptr;
    const auto held = context.device->lastHeld.find(position);
    return held == context.device->lastHeld.end() ? nullptr : &held->second;
}

// Those needed first, then those empty.
int rank(const Context& context, const std::string& position) {
    if (context.fitted(position)) return 2;
    const auto* rule = context.state.rulebook->position(position);
    return rule && rule->required ? 0 : 1;
}

void sortByNeed(const Context& context, std::vector<PartProposal>& proposals) {
    std::stable_sort(proposals.begin(), proposals.end(), [&](const auto& a, const auto& b) {
        return std::pair(rank(context, a.position), a.label) <
               std::pair(rank(context, b.position), b.label);
    });
}

}  // namespace

bool isOfOnePart(std::string_view attribute) {
    return attribute == "serial" || attribute == "lot" || attribute == "expires" ||
           attribute == "udi";
}

std::string otherGroupsSentence(const Context& context, const std::string& position,
                                const std::optional<std::vector<std::string>>& groups) {
    const auto* part = before(context, position);
    if (!part || !part->groups || !groups || groups->empty()) return "";
    auto sorted = *groups;
    std::sort(sorted.begin(), sorted.end());
    sorted.erase(std::unique(sorted.begin(), sorted.end()), sorted.end());
    if (*part->groups == sorted) return "";
    return context.words.say(
        "bedside.other_groups",
        {{"position", context.words.inside(words::positionLabel(context, position))},
         {"before", groupList(context, *part->groups)},
         {"now", groupList(context, sorted)}});
}

std::vector<PartProposal> proposalsForModel(const Context& context, const rules::Log& log,
                                            logbook::Instant knownAt, std::string_view model) {
    std::vector<PartProposal> proposals;
    for (const auto& [position, kind] :
         kindsOfModel(log, context.state, {context.asked, knownAt}, model)) {
        auto proposal = proposalOf(context, position, kind.attributes);
        removeWhatIsOfOnePart(proposal);
        complete(context, proposal);
        proposal.source = context.words.say("bedside.fitted_before",
                                            {{"when", context.times().when(kind.fitted)},
                                             {"device", kind.device}});
        proposals.push_back(std::move(proposal));
    }
    sortByNeed(context, proposals);
    return proposals;
}

std::vector<PartProposal> proposalsForSerial(const Context& context, std::string_view serial) {
    std::vector<PartProposal> proposals;
    for (const auto& [key, known] : context.state.parts) {
        const auto& [position, partSerial] = key;
        if (partSerial != serial || !context.state.rulebook->position(position)) continue;
        auto proposal = proposalOf(context, position, known->attributes);
        if (known->attributes.expires)
            proposal.texts["expires"] = logbook::toText(*known->attributes.expires);
        complete(context, proposal);
        proposal.source = context.words.say("bedside.known_part");
        const bool elsewhere = !known->device.empty() &&
                               (!context.device || known->device != context.device->serial);
        if (elsewhere)
            proposal.standsElsewhere =
                context.words.say("bedside.elsewhere", {{"device", known->device}});
        proposals.push_back(std::move(proposal));
    }
    sortByNeed(context, proposals);
    return proposals;
}

std::vector<PartProposal> proposalsForLot(
    const Context& context, const std::map<std::string, rules::PartAttributes>& known,
    std::string_view lot) {
    std::vector<PartProposal> proposals;
    for (const auto& [position, part] : known) {
        auto proposal = proposalForPosition(context, position, context.group);
        if (!part.text("model").empty()) {
            proposal = proposalOf(context, position,
                                  kindOf(*context.state.rulebook, position, part));
            complete(context, proposal);
            proposal.source = context.words.say("bedside.known_lot");
        }
        proposal.texts.insert_or_assign("lot", std::string(lot));
        proposals.push_back(std::move(proposal));
    }
    sortByNeed(context, proposals);
    return proposals;
}

std::string otherPositionSentence(const Context& context, const std::string& code,
                                  const std::vector<PartProposal>& known,
                                  const std::string& position) {
    std::vector<std::string> labels;
    for (const auto& each : known) labels.push_back(context.words.inside(each.label));
    return context.words.say(
        "bedside.other_position",
        {{"code", code},
         {"positions", context.words.anyOf(labels)},
         {"position", context.words.inside(words::positionLabel(context, position))}});
}

PartProposal proposalForPosition(const Context& context, const std::string& position,
                                 const std::optional<std::string>& group) {
    const auto* part = before(context, position);
    const auto kind = part ? kindOf(*context.state.rulebook, position, *part)
                           : rules::PartAttributes{};
    auto proposal = proposalOf(context, position, kind);
    const auto* rule = context.state.rulebook->position(position);
    const bool stated = proposal.groups.has_value();
    const bool suits = stated && group &&
                       std::find(proposal.groups->begin(), proposal.groups->end(), *group) !=
                           proposal.groups->end();
    // Another one has to be for that group; whether the one at hand is, the person says.
    if (group && !suits && (stated || (rule && rule->matchGroup)))
        proposal.groups = std::vector{*group};
    complete(context, proposal);
    return proposal;
}

PartProposal putBackProposal(const Context& context, const std::string& position,
                             const rules::PartAttributes& part, logbook::Instant since) {
    auto proposal = proposalOf(context, position, part);
    if (part.expires) proposal.texts["expires"] = logbook::toText(*part.expires);
    complete(context, proposal);
    proposal.source =
        context.words.say("bedside.put_back", {{"when", context.times().time(since)}});
    return proposal;
}

}  // namespace report
