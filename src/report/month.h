// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month: how many starts of use were compliant, every exception with its evidence, what the log
// says about itself; as a model, as text and as JSON.
#pragma once

#include "logbook/json.h"
#include "report/layout.h"
#include "report/provenance.h"
#include "rules/month.h"

#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace report {

struct MonthException {
    logbook::Record record;
    rules::StartException start;
};

struct MonthAnomaly {
    logbook::Record record;
    rules::AnomalyCode code{};
};

// Of this month, signed by someone; how many entries about its period were written down since.
struct MonthSignature {
    logbook::Record record;
    std::size_t since = 0;
};

struct Month {
    rules::MonthAnswer answer;
    Instant at{};       // the instant asked, or what it stands for
    Instant knownAt{};  // as known when: the instant asked, or the latest there is
    std::vector<MonthException> exceptions;
    std::vector<MonthAnomaly> anomalies;
    std::vector<MonthSignature> signatures;
    std::size_t leftOut = 0;  // entries about the period that were written down after `knownAt`
    Provenance provenance;
    std::string logbook;  // the path as the person gave it
    words::RecordLookup lookup;
};

// An error if no edition is known. The log must outlive the month. `provenance.knownAt` is set
// here.
[[nodiscard]] tl::expected<Month, rules::LogFault> makeMonth(const rules::Log& log,
                                                             const rules::MonthQuestion& question,
                                                             std::string logbook,
                                                             Provenance provenance);

// "airmuster-cli month 'ward book' 2026-10 --at … --known-at …": gives this report again.
[[nodiscard]] std::string repeatCommand(const Month& month);

[[nodiscard]] std::string toText(const Month& month, const words::Words& words,
                                 const TextOptions& options = {});

[[nodiscard]] logbook::json::Value toJson(const Month& month);

}  // namespace report
