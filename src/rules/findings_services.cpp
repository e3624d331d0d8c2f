// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about scheduled services: failed, outstanding, due, overdue.
#include "rules/evaluate.h"
#include "rules/findings.h"

namespace rules {
namespace {

const ServiceState& stateOf(const Device& device, const std::string& service) {
    static const ServiceState never;
    const auto found = device.services.find(service);
    return found == device.services.end() ? never : found->second;
}

// The first instants after the due day, and after the last day of grace.
struct DueInstants {
    Instant due{};
    Instant overdue{};
};

std::optional<DueInstants> dueInstants(const FindingContext& context, const Service& service) {
    if (!service.every) return std::nullopt;
    const auto& lastPass = stateOf(context.device, service.key).lastPass;
    const Zone& zone = *context.rulebook.zone;
    const Day from = lastPass ? zone.dayOf(lastPass->at) : context.device.enrolment.commissioned;
    const Day due = logbook::plus(from, *service.every);
    const std::chrono::days grace{service.graceDays};
    return DueInstants{zone.startOf(due + std::chrono::days{1}),
                       zone.startOf(due + grace + std::chrono::days{1})};
}

void addDueFinding(const FindingContext& context, const Service& service,
                   std::vector<Finding>& findings) {
    const auto instants = dueInstants(context, service);
    if (!instants || context.at < instants->due) return;
    const auto& lastPass = stateOf(context.device, service.key).lastPass;
    if (context.at >= instants->overdue) {
        findings.push_back(
            resting(FindingCode::ServiceOverdue, service.key, lastPass, instants->overdue));
        return;
    }
    Finding finding = resting(FindingCode::ServiceDue, service.key, lastPass, instants->due);
    finding.blocks = Blocks::No;
    findings.push_back(std::move(finding));
}

}  // namespace

void addServiceFindings(const FindingContext& context, std::vector<Finding>& findings) {
    for (const Service& service : context.rulebook.services) {
        if (!applies(service, context.device, context.rulebook)) continue;
        const ServiceState& state = stateOf(context.device, service.key);
        if (state.lastFailed) {
            findings.push_back(resting(FindingCode::ServiceFailed, service.key, state.lastResult));
        }
        const bool triggered =
            state.triggered && (!state.lastPass || *state.triggered > *state.lastPass);
        if (triggered || (service.beforeFirstUse && !state.lastPass)) {
            findings.push_back(resting(FindingCode::ServiceOutstanding, service.key,
                                       triggered ? state.triggered : std::nullopt));
        }
        addDueFinding(context, service, findings);
    }
}

void addServiceTurningPoints(const FindingContext& context, std::set<Instant>& points) {
    for (const Service& service : context.rulebook.services) {
        const auto instants = dueInstants(context, service);
        if (!instants) continue;
        points.insert(instants->due);
        points.insert(instants->overdue);
    }
}

}  // namespace rules
