// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a draft edition would change: the units at its adoption, and the past months replayed under
// it and under the edition in force; as a model, as text and as JSON.
#pragma once

#include "logbook/json.h"
#include "report/layout.h"
#include "report/provenance.h"
#include "rules/what_if.h"

#include <memory>
#include <string>

namespace report {

struct Draft {
    rules::WhatIf answer;
    rules::WhatIfQuestion question;
    Provenance provenance;
    words::RecordLookup lookup;

    // For sentences under the edition in force, and under the draft. The draft must outlive them.
    [[nodiscard]] words::Context now(const words::Words& words) const;
    [[nodiscard]] words::Context then(const words::Words& words) const;
};

// The log must outlive the draft. Precondition: an edition is in force at the instant.
[[nodiscard]] Draft makeDraft(const rules::Log& log,
                              const std::shared_ptr<const rules::Rulebook>& draft,
                              const rules::WhatIfQuestion& question, Provenance provenance);

[[nodiscard]] std::string toText(const Draft& draft, const words::Words& words,
                                 const TextOptions& options = {});

[[nodiscard]] logbook::json::Value toJson(const Draft& draft);

}  // namespace report
