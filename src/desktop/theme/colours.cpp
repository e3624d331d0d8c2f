// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The colours; see colours.h.
#include "desktop/theme/colours.h"

#include <algorithm>
#include <cmath>

namespace desktop {

const Colours& coloursOf(Theme theme) {
    static const Colours light{
        .window = "#F2F2EF", .surface = "#FCFCFA", .text = "#1A1A1A", .quietText = "#55554F",
        .line = "#85857E", .button = "#E6E6E0", .buttonText = "#1A1A1A", .mainButton = "#0B3C5D",
        .mainButtonText = "#FFFFFF", .focus = "#0B3C5D", .past = "#EADFC8", .pastText = "#3A2A00",
        .ready = "#0072B2", .notReady = "#B87400", .inUse = "#A64D79", .withdrawn = "#4D4D4D",
        .retired = "#4D4D4D"};
    static const Colours dark{
        .window = "#161616", .surface = "#1E1E1E", .text = "#F0F0EC", .quietText = "#B4B4AD",
        .line = "#7C7C76", .button = "#33332F", .buttonText = "#F0F0EC", .mainButton = "#B9DDF2",
        .mainButtonText = "#0C1A24", .focus = "#B9DDF2", .past = "#3B3220", .pastText = "#F3E3BF",
        .ready = "#56B4E9", .notReady = "#E69F00", .inUse = "#CC79A7", .withdrawn = "#B3B3B3",
        .retired = "#B3B3B3"};
    return theme == Theme::Light ? light : dark;
}

QColor edgeOf(const Colours& colours, rules::Verdict verdict) {
    switch (verdict) {
        case rules::Verdict::Ready: return colours.ready;
        case rules::Verdict::NotReady: return colours.notReady;
        case rules::Verdict::InUse: return colours.inUse;
        case rules::Verdict::Withdrawn: return colours.withdrawn;
        case rules::Verdict::Retired: break;
    }
    return colours.retired;
}

std::vector<ColourPair> colourPairs(const Colours& colours) {
    const auto& c = colours;
    std::vector<ColourPair> pairs{
        {"a verdict's word on a surface", c.text, c.surface, 7},
        {"a verdict's word on the window", c.text, c.window, 7},
        {"quiet text on a surface", c.quietText, c.surface, 4.5},
        {"quiet text on the window", c.quietText, c.window, 4.5},
        {"a button's text", c.buttonText, c.button, 4.5},
        {"a main button's text", c.mainButtonText, c.mainButton, 4.5},
        {"text on the past", c.pastText, c.past, 4.5},
        {"a line on a surface", c.line, c.surface, 3},
        {"a line on the window", c.line, c.window, 3},
        {"the focus on a surface", c.focus, c.surface, 3},
        {"the focus on the window", c.focus, c.window, 3},
        {"the focus on a button", c.focus, c.button, 3},
        {"a main button on the window", c.mainButton, c.window, 3},
        {"a check's bar on a surface", c.text, c.surface, 3}};
    for (const auto& edge : {c.ready, c.notReady, c.inUse, c.withdrawn, c.retired}) {
        pairs.push_back({"a verdict's edge on a surface", edge, c.surface, 3});
        pairs.push_back({"a verdict's edge on the window", edge, c.window, 3});
    }
    return pairs;
}

namespace {

double linear(double part) {
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour) {
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

}  // namespace

double contrast(const QColor& one, const QColor& other) {
    const auto [low, high] = std::minmax({luminance(one), luminance(other)});
    return (high + 0.05) / (low + 0.05);
}

}  // namespace desktop
