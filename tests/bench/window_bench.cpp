// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Measures the window without a display, and prints the times by the clock on the wall: from start
// to a board that can be used, from a scan to the unit, from a key to what it paints while the log
// is folded beside it, and scrolling through 5,000 units.
//
// airmuster_window_bench [LOGBOOK END [STARTS]]: all but the last is of that logbook, which is
// verified meanwhile and notes that; else of the demo. The clock begins at END, the instant after
// its last entry, so that its units stand as they did then. What was measured is told in
// docs/internals/performance.md.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/shell/background.h"
#include "desktop/shell/window.h"
#include "desktop/theme/appearance.h"
#include "station/sample.h"
#include "station/standing_source.h"
#include "station/system.h"
#include "support/folder.h"
#include "support/key_stamps.h"

#include <QApplication>
#include <QKeyEvent>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>
#include <QtTest/QTest>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <fmt/format.h>
#include <iostream>
#include <memory>
#include <optional>
#include <random>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace {

using namespace std::chrono_literals;

constexpr int manyUnits = 5'000;
constexpr std::size_t mostScans = 100;

void require(bool isSo, const std::string& what) {
    if (!isSo) throw std::runtime_error(what);
}

// Whether the field has painted what it holds since that was typed.
class PaintWatch : public QObject {
public:
    explicit PaintWatch(QLineEdit& field) : m_field(field) { field.installEventFilter(this); }
    bool eventFilter(QObject*, QEvent* event) override {
        if (event->type() == QEvent::Paint) m_painted = m_field.text();
        return false;
    }
    void beginAnew() { m_painted = m_before = m_field.text(); }
    [[nodiscard]] bool showsMore() const {
        return m_field.text() != m_before && m_painted == m_field.text();
    }

private:
    QLineEdit& m_field;
    QString m_before, m_painted;
};

double msOf(const QElapsedTimer& timer) {
    return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

void tell(const std::string& what, std::vector<double> ms, const std::string& bar) {
    std::ranges::sort(ms);
    std::cout << fmt::format("{:<34} {:8.1f} ms, 95 of 100 {:8.1f} ms, at most {:8.1f} ms of {:3}"
                             "   {}\n",
                             what, ms[ms.size() / 2], ms[ms.size() * 95 / 100], ms.back(),
                             ms.size(), bar)
              << std::flush;
}

// Remembers what the thread that paints was longest at without a pause.
class Application : public QApplication {
public:
    using QApplication::QApplication;

    bool notify(QObject* receiver, QEvent* event) override {
        const bool isOutermost = !std::exchange(m_isBusy, true);
        const std::string name = receiver->metaObject()->className();
        QElapsedTimer timer;
        timer.start();
        const bool isTaken = QApplication::notify(receiver, event);
        if (isOutermost) {
            m_isBusy = false;
            m_longest = std::max(m_longest, {msOf(timer), name});
        }
        return isTaken;
    }

    void beginAnew() { m_longest = {}; }
    void tellLongest() const {
        std::cout << fmt::format("(the thread that paints was at most {:.1f} ms at one thing, for a"
                                 " {})\n", m_longest.first, m_longest.second);
    }

private:
    bool m_isBusy = false;
    std::pair<double, std::string> m_longest;
};

// The computer's, set to another instant as the bench began.
class SetClock : public station::Clock {
public:
    explicit SetClock(std::optional<logbook::Instant> begin) {
        if (begin) m_ahead = *begin - m_clock.now();
    }
    [[nodiscard]] logbook::Instant now() const override { return m_clock.now() + m_ahead; }

private:
    station::system::SystemClock m_clock;
    logbook::Duration m_ahead{};
};

struct Bench {
    explicit Bench(std::optional<logbook::Instant> begin) : clock(begin) {}

    support::Folder folder;
    SetClock clock;
    const words::Words& words = *words::Words::builtIn();
    station::LogbookFile demo{folder.file("demo.logbook")};
    station::LogbookFile measured = demo;

    [[nodiscard]] station::Surroundings surroundings() const {
        return {clock, station::system::systemZones(), words, "bench"};
    }
    [[nodiscard]] std::unique_ptr<desktop::Window> open(const station::LogbookFile& file) const {
        auto window = std::make_unique<desktop::Window>(
            desktop::Start{file, clock, words, &station::system::systemZones, "bench"});
        window->resize(1280, 800);
        window->show();
        return window;
    }
};

void waitForFleet(desktop::Window& window) {
    require(QTest::qWaitFor([&] { return window.workplace().fleet() != nullptr; }, 600'000),
            "the fleet is never read");
    QApplication::processEvents();
}

void measureStart(const Bench& bench, int times) {
    std::vector<double> ms;
    for (int i = 0; i < times; ++i) {
        QElapsedTimer timer;
        timer.start();
        const auto window = bench.open(bench.measured);
        waitForFleet(*window);
        ms.push_back(msOf(timer));
    }
    tell("window: start to a usable board", ms, "under 2 s");
}

// From the scanner's last key to the unit, painted with the way to ready; each open one is left.
void measureScans(const Bench& bench) {
    const auto window = bench.open(bench.measured);
    waitForFleet(*window);
    auto* desk = window->findChild<desktop::BedsideDesk*>();
    std::vector<QString> serials;
    for (const auto& row : window->workplace().fleet()->board.rows)
        if (serials.size() < mostScans)
            serials.push_back(QString::fromStdString(row.assessment.device));
    QString shown;
    QObject::connect(desk, &desktop::BedsideDesk::unitShown, window.get(),
                     [&](const QString& serial) { shown = serial; });
    std::vector<double> ms;
    support::KeyStamps stamps;
    stamps.install();
    for (const auto& serial : serials) {
        QTest::qWait(300);  // the filter has forgotten the scan before
        const support::KeyStamps::Scanner scanner(stamps);
        for (const auto letter : serial)
            QTest::keyClick(window.get(), letter.toLatin1(), Qt::NoModifier, 1);
        QElapsedTimer timer;
        timer.start();
        QTest::keyClick(window.get(), Qt::Key_Return);
        require(QTest::qWaitFor([&] { return shown == serial; }, 60'000), "no unit is shown");
        QApplication::processEvents();
        ms.push_back(msOf(timer));
    }
    tell("window: a scan to its unit", ms, "");
}

// Folds the log from its first record again and again while it lives, in a thread of its own as the
// window has them.
class Folding {
public:
    explicit Folding(const Bench& bench)
        : m_thread([this, &bench] {
              const auto surroundings = bench.surroundings();
              desktop::Background::giveWay(desktop::Background::Pace::Prompt);
              while (!m_ends) {
                  require(station::coldStanding(surroundings, bench.measured, {}).has_value(),
                          "the log cannot be folded");
                  ++m_times;
              }
          }) {}
    ~Folding() {
        m_ends = true;
        m_thread.join();
        std::cout << "(folded " << m_times << " times meanwhile)" << std::endl;
    }

private:
    std::atomic<bool> m_ends = false;
    std::atomic<int> m_times = 0;
    std::thread m_thread;
};

// Keys that come from elsewhere when they come, whatever the thread that paints is at just then.
class Typist {
public:
    using Moment = std::chrono::steady_clock::time_point;

    Typist(QWidget& target, std::chrono::milliseconds between, int keys)
        : m_thread([this, &target, between, keys] {
              std::mt19937 random(static_cast<unsigned>(keys));
              std::uniform_int_distribution<int> later(0, 30);
              for (int i = 0; i < keys; ++i) {
                  m_isWaiting.wait(true);
                  std::this_thread::sleep_for(between + std::chrono::milliseconds(later(random)));
                  if (m_ends) return;
                  const QString text(QChar('0' + i % 10));
                  m_isWaiting = true;
                  m_pressed = std::chrono::steady_clock::now();
                  for (const auto type : {QEvent::KeyPress, QEvent::KeyRelease})
                      QCoreApplication::postEvent(
                          &target, new QKeyEvent(type, Qt::Key_0 + i % 10, Qt::NoModifier, text));
              }
          }) {}
    ~Typist() {
        m_ends = true;
        goOn();
        m_thread.join();
    }

    // It is painted; in ms since it was pressed.
    double painted() {
        const std::chrono::duration<double, std::milli> since =
            std::chrono::steady_clock::now() - m_pressed.load();
        goOn();
        return since.count();
    }

private:
    void goOn() {
        m_isWaiting = false;
        m_isWaiting.notify_one();
    }

    std::atomic<bool> m_isWaiting = false;
    std::atomic<bool> m_ends = false;
    std::atomic<Moment> m_pressed{};
    std::thread m_thread;
};

std::vector<double> typed(QLineEdit& field, std::chrono::milliseconds between, std::size_t keys) {
    PaintWatch watch(field);
    std::vector<double> ms;
    field.clear();
    watch.beginAnew();
    Typist typist(field, between, static_cast<int>(keys));
    while (ms.size() < keys) {
        // As the program does: it waits for what comes, and takes no time from others meanwhile.
        QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        if (!watch.showsMore()) continue;
        if ((ms.size() + 1) % 20 == 0) field.clear();
        watch.beginAnew();
        ms.push_back(typist.painted());
    }
    return ms;
}

// The log is folded, and the fleet read, again and again beside it.
void measureKeys(const Bench& bench, Application& application) {
    const auto window = bench.open(bench.measured);
    waitForFleet(*window);
    auto* field = window->findChild<QLineEdit*>();
    require(field != nullptr, "there is no field");
    field->setFocus();
    const Folding folding(bench);
    QTimer reading;
    QObject::connect(&reading, &QTimer::timeout, window.get(),
                     [&] { window->workplace().refresh(); });
    reading.start(1);
    support::KeyStamps stamps;
    stamps.install();
    application.beginAnew();
    tell("window: a key to its paint, folding", typed(*field, 60ms, 300), "under 50 ms");
    tell("window: the same after a pause", typed(*field, 300ms, 100), "under 50 ms");
    application.tellLongest();
}

station::LogbookFile makeManyUnits(const Bench& bench) {
    const station::LogbookFile file{bench.folder.file("many.logbook")};
    std::filesystem::copy_file(bench.demo.path, file.path);
    auto logbook = station::openLogbook(bench.surroundings(), file, station::Access::Write);
    require(logbook.has_value(), "the logbook does not open");
    const auto now = toText(bench.clock.now());
    const auto written = logbook->appendOwn(
        [&](const logbook::RecordName& next) {
            std::vector<logbook::Record> records;
            for (int i = 0; i < manyUnits; ++i) {
                const logbook::json::Object line{
                    {"station", next.station}, {"seq", static_cast<double>(next.seq + i)},
                    {"at", now}, {"entered", now}, {"by", "r.halvorsen"},
                    {"device", "MANY-" + std::to_string(10'000 + i)}, {"kind", "enrol"},
                    {"body", logbook::json::Object{
                                 {"model", "Larch 4"},
                                 {"groups", logbook::json::Array{"adult"}},
                                 {"features", logbook::json::Array{}},
                                 {"commissioned", "2026-01-15"},
                                 {"location", "Store " + std::to_string(i % 40)}}}};
                const auto record = logbook::readRecord(line);
                require(record.has_value(), "a unit is no record");
                records.push_back(*record);
            }
            return records;
        },
        {"r.halvorsen", bench.clock.now()});
    require(written.has_value(), "the units cannot be written");
    return file;
}

void measureScrolling(const Bench& bench) {
    const auto window = bench.open(makeManyUnits(bench));
    waitForFleet(*window);
    for (auto* button : window->findChildren<QPushButton*>())
        if (button->text() == QStringLiteral("Fleet")) button->click();
    QTest::qWait(500);
    const auto tables = window->findChildren<QTableView*>();
    const auto shown = std::ranges::find_if(tables, &QWidget::isVisible);
    require(shown != tables.end(), "no table is shown");
    auto& table = **shown;
    require(table.model()->rowCount() >= manyUnits, "the units are not shown");
    auto& bar = *table.verticalScrollBar();
    std::vector<double> ms;
    for (int i = 0; i <= 300; ++i) {
        QElapsedTimer timer;
        timer.start();
        bar.setValue(bar.maximum() * i / 300);
        table.viewport()->repaint();
        ms.push_back(msOf(timer));
        QApplication::processEvents();
    }
    tell("window: a frame of 5,000 units", ms, "under 33 ms");
}

}  // namespace

int main(int count, char** words) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    Application application(count, words);
    desktop::apply(application, {});
    try {
        const auto begin = count > 2 ? logbook::parseInstant(words[2]) : std::nullopt;
        require(count < 2 || begin, "of a logbook the instant after its last entry is wanted");
        Bench bench(begin);
        if (count > 1) bench.measured.path = words[1];
        require(station::makeSample(bench.surroundings(), bench.demo, {}).has_value(),
                "the demo cannot be made");
        measureStart(bench, count > 3 ? std::stoi(words[3]) : 5);
        measureScans(bench);
        measureKeys(bench, application);
        measureScrolling(bench);
    } catch (const std::exception& trouble) {
        std::cerr << trouble.what() << '\n';
        return 1;
    }
    return 0;
}
