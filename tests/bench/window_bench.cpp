// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Measures the window without a display, and prints the times by the clock on the wall: from start
// to a board that can be used, from a scan to the unit, from a key to what it paints while the log
// is folded beside it, and scrolling through 5,000 units.
//
// airmuster_window_bench [LOGBOOK [STARTS]]: all but the last is of that logbook, which is verified
// meanwhile and notes that; else of the demo. What was measured is told in
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
#include <QElapsedTimer>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>
#include <QtTest/QTest>
#include <algorithm>
#include <atomic>
#include <fmt/format.h>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace {

constexpr int manyUnits = 5'000;
constexpr std::size_t mostScans = 100;

void require(bool isSo, const std::string& what) {
    if (!isSo) throw std::runtime_error(what);
}

class PaintWatch : public QObject {
public:
    explicit PaintWatch(QWidget& widget) { widget.installEventFilter(this); }
    bool eventFilter(QObject*, QEvent* event) override {
        if (event->type() == QEvent::Paint) ++m_paints;
        return false;
    }
    [[nodiscard]] int paints() const { return m_paints; }

private:
    int m_paints = 0;
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

struct Bench {
    support::Folder folder;
    station::system::SystemClock clock;
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

// The log is folded, and the fleet read, again and again beside it.
void measureKeys(const Bench& bench) {
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
    const PaintWatch watch(*field);
    support::KeyStamps stamps;
    stamps.install();
    std::vector<double> ms;
    for (int i = 0; i < 300; ++i) {
        QTest::qWait(60);
        if (i % 20 == 0) field->clear();
        QApplication::processEvents();
        const int before = watch.paints();
        const auto text = field->text();
        QElapsedTimer timer;
        timer.start();
        QTest::keyClick(field, static_cast<char>('0' + i % 10));
        // As the program does: it waits for what comes, and takes no time from others meanwhile.
        while (field->text() == text || watch.paints() == before)
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        ms.push_back(msOf(timer));
    }
    tell("window: a key to its paint, folding", ms, "under 50 ms");
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
        Bench bench;
        if (count > 1) bench.measured.path = words[1];
        require(station::makeSample(bench.surroundings(), bench.demo, {}).has_value(),
                "the demo cannot be made");
        measureStart(bench, count > 2 ? std::stoi(words[2]) : 5);
        measureScans(bench);
        application.beginAnew();
        measureKeys(bench);
        application.tellLongest();
        measureScrolling(bench);
    } catch (const std::exception& trouble) {
        std::cerr << trouble.what() << '\n';
        return 1;
    }
    return 0;
}
