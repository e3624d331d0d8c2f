// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an entry that was just kept means: how the unit stands now, and why an entry changes
// nothing. Knows neither who asks nor where the log is.
#pragma once

#include "words/context.h"

#include <string>

namespace words {

// How the unit stands, "KB-0142 is not ready for Adult: leak test due." `found` is of
// `context.device`.
[[nodiscard]] std::string standingSentence(const Context& context,
                                           const rules::Assessment& found);

// How a unit would stand worse after something: not ready any more, "KB-0103 is then no longer
// ready: flow sensor missing.", or on a patient with more against it, told by what is new; "" where
// neither is so. The context and `after` are of the moment after it.
[[nodiscard]] std::string worseSentence(const Context& context, const rules::Assessment& before,
                                        const rules::Assessment& after);

// A start of use on a unit that was not ready: what it lacked, for the state before the start.
[[nodiscard]] std::string unreadyStart(const Context& context, const rules::Assessment& found);

// Why an entry that may be written changes nothing on the unit, for the state before it.
[[nodiscard]] std::string noEffect(const Context& context, const logbook::Record& record);

}  // namespace words
