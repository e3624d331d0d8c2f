// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A thread beside the one that paints: what takes long is done there, one after the other, and its
// outcome is handed back to the thread that paints. Knows no logbook.
#pragma once

#include <QObject>
#include <QPointer>
#include <QThreadPool>
#include <functional>
#include <utility>

namespace desktop {

class Background : public QObject {
    Q_OBJECT
public:
    // All that is done there gives way to what is painted; what nobody waits for, to all else too.
    enum class Pace { Prompt, GivesWay };
    // The calling thread does so from now on, and those that it begins.
    static void giveWay(Pace pace);
    explicit Background(Pace pace = Pace::Prompt, QObject* parent = nullptr);
    // Waits for what is being done; what was not begun is dropped.
    ~Background() override;

    enum class Urgency { Later, Soon };  // what is urgent goes before what waits

    // `work` runs there and gives a value; `done` takes it here, unless `receiver` is gone by then.
    template <class Work, class Done>
    void run(Work work, QObject* receiver, Done done, Urgency urgency = Urgency::Soon) {
        post(
            [work = std::move(work), receiver = QPointer<QObject>(receiver),
             done = std::move(done)]() mutable -> std::function<void()> {
                auto outcome = std::make_shared<decltype(work())>(work());
                return [receiver, done = std::move(done), outcome]() mutable {
                    if (receiver) done(std::move(*outcome));
                };
            },
            urgency);
    }

private:
    void post(std::function<std::function<void()>()> work, Urgency urgency);

    Pace m_pace;
    QThreadPool m_pool;
};

}  // namespace desktop
