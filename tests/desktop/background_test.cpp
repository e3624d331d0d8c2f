// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The order of what is done beside the thread that paints.
#include "desktop/shell/background.h"

#include <QtTest/QTest>
#include <catch2/catch.hpp>
#include <semaphore>
#include <vector>

using desktop::Background;

// Whether the thread waits just then, so that the first wakes it, or is at something. It is held
// until all have been asked for.
TEST_CASE("what is urgent is done in the order in which it was asked for", "[unit]") {
    Background background;
    QObject receiver;
    for (int round = 0; round < 300; ++round) {
        CAPTURE(round);
        std::vector<int> done;
        std::binary_semaphore allAsked(0);
        const auto take = [&](int number) { done.push_back(number); };
        const auto first = [&] {
            allAsked.acquire();
            return 1;
        };
        background.run(first, &receiver, take);
        background.run([] { return 4; }, &receiver, take, Background::Urgency::Later);
        background.run([] { return 2; }, &receiver, take);
        background.run([] { return 3; }, &receiver, take);
        allAsked.release();
        REQUIRE(QTest::qWaitFor([&] { return done.size() == 4; }));
        REQUIRE(done == std::vector{1, 2, 3, 4});
    }
}
