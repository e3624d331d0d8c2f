// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press states is that of the press, whatever happens while it is tried out; and what must
// never wait is not tried out.
#include "acts_world.h"

#include <QSemaphore>
#include <memory>

using support::ActsWorld;

namespace {

// Nothing is read meanwhile: as with a log that takes long.
class BusyReader {
public:
    explicit BusyReader(const support::WindowWorld& world) {
        world.window->workplace().read(
            [gate = m_gate](const auto&, const auto&) {
                gate->acquire();
                return true;
            },
            world.window.get(), [](bool) {});
    }
    BusyReader(const BusyReader&) = delete;
    BusyReader& operator=(const BusyReader&) = delete;
    ~BusyReader() { m_gate->release(); }

private:
    std::shared_ptr<QSemaphore> m_gate = std::make_shared<QSemaphore>();
};

}  // namespace

TEST_CASE("what is locked away while it is tried out is kept by nobody", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    world.pressButton("Note");
    (void)world.awaitSheet();
    world.type("Filter housing wiped");
    const auto before = world.entries().size();
    {
        const BusyReader busy(world);
        world.pressButton("Keep this note");
        world.window->workplace().presence().lock();
        world.signIn("p.quill");
    }
    world.waitUntil("it is told",
                    [&] { return world.isSaid("whoever pressed it is not signed in any more"); });
    QTest::qWait(300);
    CHECK(world.entries().size() == before);
}

TEST_CASE("an emergency start waits for nothing that is read", "[unit]") {
    ActsWorld world;
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    const auto before = world.entries().size();
    {
        const BusyReader busy(world);
        world.pressButton("Emergency start");
        // Who starts it is asked at once, over the button: it is not pressed twice.
        CHECK(world.sheet() != nullptr);
    }
    CHECK(world.entries().size() == before);
}
