// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an edge says is in its form: painted in ink alone, without any hue, no two that mean
// different things are alike.
#include "desktop/theme/appearance.h"
#include "desktop/theme/status_bar_edge.h"
#include "desktop/theme/verdict_chip.h"

#include <QApplication>
#include <QImage>
#include <QPainter>
#include <array>
#include <catch2/catch.hpp>
#include <functional>
#include <vector>

using rules::CheckStatus;
using rules::Verdict;

namespace {

// Where there is ink, row by row: whatever is not the colour of the surface.
std::vector<bool> inkOf(const QSize& size, const std::function<void(QPainter&)>& paint) {
    QImage image(size, QImage::Format_RGB32);
    const auto surface = desktop::colours().surface;
    image.fill(surface);
    QPainter painter(&image);
    paint(painter);
    painter.end();
    std::vector<bool> ink;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            ink.push_back(image.pixelColor(x, y) != surface);
    return ink;
}

std::vector<bool> statusInk(CheckStatus status) {
    return inkOf({desktop::statusEdge, 80}, [&](QPainter& painter) {
        desktop::paintStatusEdge(painter, QRect(0, 0, desktop::statusEdge, 80), status);
    });
}

// Of the edge alone, or of the whole chip, whose word is the same for all.
std::vector<bool> chipInk(Verdict verdict, int width) {
    return inkOf({width, 30}, [&](QPainter& painter) {
        desktop::paintChip(painter, QRect(0, 0, 200, 30), {verdict, QStringLiteral("word")});
    });
}

double shareOf(const std::vector<bool>& ink) {
    return static_cast<double>(std::count(ink.begin(), ink.end(), true)) /
           static_cast<double>(ink.size());
}

// Rows of which the middle is inked, and how often that changes from one row to the next.
int changesDown(const std::vector<bool>& ink, int width) {
    int changes = 0;
    for (std::size_t at = static_cast<std::size_t>(width); at < ink.size();
         at += static_cast<std::size_t>(width))
        changes += ink[at] != ink[at - static_cast<std::size_t>(width)] ? 1 : 0;
    return changes;
}

}  // namespace

TEST_CASE("the bars of checks differ by form alone", "[exhaustive]") {
    constexpr std::array all{CheckStatus::Current, CheckStatus::Due, CheckStatus::Failed,
                             CheckStatus::Lapsed, CheckStatus::Exempt};
    for (const auto theme : {desktop::Theme::Light, desktop::Theme::Dark}) {
        desktop::apply(*qApp, {theme, 100});
        for (const auto one : all)
            for (const auto other : all)
                CHECK((statusInk(one) == statusInk(other)) == (one == other));
        const int wide = desktop::statusEdge;
        CHECK(shareOf(statusInk(CheckStatus::Current)) == 1);  // solid
        CHECK(shareOf(statusInk(CheckStatus::Exempt)) == 0);   // none
        // Double: two lines from top to bottom, with a gap between them.
        const auto failed = statusInk(CheckStatus::Failed);
        CHECK(changesDown(failed, wide) == 0);
        CHECK(failed.front());
        CHECK_FALSE(failed[static_cast<std::size_t>(wide) / 2]);
        CHECK(failed[static_cast<std::size_t>(wide) - 1]);
        // Dashed and dotted: pieces with gaps, those of dots much shorter.
        const int dashes = changesDown(statusInk(CheckStatus::Due), wide);
        CHECK(dashes >= 4);
        CHECK(changesDown(statusInk(CheckStatus::Lapsed), wide) >= 3 * dashes);
    }
    desktop::apply(*qApp, {});
}

TEST_CASE("what may not be used is told apart without a hue", "[exhaustive]") {
    for (const auto theme : {desktop::Theme::Light, desktop::Theme::Dark}) {
        desktop::apply(*qApp, {theme, 100});
        for (const auto verdict : {Verdict::Ready, Verdict::NotReady, Verdict::InUse,
                                   Verdict::Retired})
            CHECK(shareOf(chipInk(verdict, desktop::chipEdge)) == 1);
        // Out of service is hatched, retired is struck through.
        CHECK(shareOf(chipInk(Verdict::Withdrawn, desktop::chipEdge)) < 0.9);
        CHECK(shareOf(chipInk(Verdict::Withdrawn, desktop::chipEdge)) > 0.2);
        CHECK(shareOf(chipInk(Verdict::Retired, 200)) > shareOf(chipInk(Verdict::Ready, 200)));
        CHECK(chipInk(Verdict::NotReady, 200) == chipInk(Verdict::Ready, 200));
    }
    desktop::apply(*qApp, {});
}
