// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first start; see first_start.h.
#include "desktop/first_start/first_start.h"

#include "desktop/first_start/code_page.h"
#include "desktop/first_start/department_page.h"
#include "desktop/first_start/manager_page.h"
#include "desktop/first_start/rulebook_page.h"
#include "desktop/first_start/units_page.h"
#include "desktop/shell/file_sheet.h"
#include "desktop/shell/problem_text.h"
#include "desktop/shell/text.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/scroll_page.h"
#include "desktop/theme/text_label.h"
#include "desktop/theme/wrap_layout.h"
#include "desktop/theme/wrapped_button.h"
#include "station/damage.h"
#include "station/sample.h"

#include <QApplication>
#include <QDir>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>
#include <optional>
#include <utility>

namespace desktop {

FirstStart::FirstStart(DeskTools tools, std::filesystem::path folder, QWidget* parent)
    : QWidget(parent), m_tools(tools), m_folder(std::move(folder)) {
    // As wide as a text is read well, in the middle.
    auto* middle = new QWidget;
    middle->setMaximumWidth(860 * appearance().textPercent / 100);
    auto* around = new QHBoxLayout(this);
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(middle);
    auto* layout = new QVBoxLayout(middle);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(targetGap);
    m_title = new QLabel;
    m_title->setFont(fontFor(TextRole::Title));
    m_title->setWordWrap(true);
    m_trouble = textLabel({}, TextRole::Strong);
    m_trouble->setAccessibleName(tr("What is wrong"));
    m_stack = new QStackedWidget;
    layout->addWidget(m_title);
    layout->addWidget(m_stack, 1);
    layout->addWidget(m_trouble);
    m_welcome = scrollPage(makeWelcome());
    m_stack->addWidget(m_welcome);
    makePages();
    makeFoot();
    m_unitPresses = new QWidget;
    auto* presses = new QVBoxLayout(m_unitPresses);
    presses->setContentsMargins(0, 0, 0, 0);
    m_units->putPresses(*presses);
    layout->addWidget(m_unitPresses);
    layout->addWidget(m_foot);
    connect(m_back, &QPushButton::clicked, this, &FirstStart::goBack);
    connect(m_next, &QPushButton::clicked, this, &FirstStart::goOn);
    connect(m_later, &QPushButton::clicked, this, &FirstStart::finishWithout);
    // What has the focus is in sight, also where the page was put there and not the tab key.
    connect(qApp, &QApplication::focusChanged, this, &FirstStart::keepInSight);
    showWelcome();
}

// The way back keeps its place, also where there is none.
void FirstStart::makeFoot() {
    m_foot = new QWidget;
    auto* row = new WrapLayout(WrapLayout::Manner::Foot, m_foot);
    m_back = new WrappedButton(tr("Back"));
    m_later = new WrappedButton(tr("Finish without"));
    auto* next = new WrappedButton;
    next->setMain(true);
    m_next = next;
    for (auto* button : {m_back, m_later, m_next}) row->addWidget(button);
    auto kept = m_back->sizePolicy();
    kept.setRetainSizeWhenHidden(true);
    m_back->setSizePolicy(kept);
}

QWidget* FirstStart::makeWelcome() {
    auto* page = new QWidget;
    auto* rows = new QVBoxLayout(page);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(targetGap);
    const auto addPress = [&](const QString& text, auto pressed) {
        auto* press = new QPushButton(text);
        connect(press, &QPushButton::clicked, this, pressed);
        rows->addWidget(press);
        return press;
    };
    rows->addWidget(textLabel(tr("The readiness logbook of a department's ventilators: which unit "
                                 "is ready for which patients, what keeps the others from it, and "
                                 "what to do next.")));
    m_setUp = addPress(tr("Set up this department"), [this] {
        m_file = {};
        m_hasEdition = false;
        m_department->makeFile(newFile());
        showPage(m_pages.front());
    });
    m_setUp->setProperty("main", true);
    m_demo = addPress(tr("Open the demo"), &FirstStart::openDemo);
    addPress(tr("Open a logbook file …"), &FirstStart::chooseLogbook);
    rows->addStretch();
    rows->addWidget(emphasisLabel(shownText(m_tools.workplace.words().say("caution.full")),
                                  TextRole::Quiet));
    return page;
}

QString FirstStart::newFile() const {
    return shownText((m_folder / "department.logbook").string());
}

void FirstStart::makePages() {
    m_department = new DepartmentPage(m_tools.workplace, newFile());
    m_manager = new ManagerPage(m_tools.workplace.words());
    m_rulebook = new RulebookPage(m_tools.workplace);
    m_code = new CodePage;
    m_units = new UnitsPage(m_tools);
    m_pages = {m_department, m_manager, m_rulebook, m_code, m_units};
    for (auto* page : m_pages) m_stack->addWidget(scrollPage(page));
    connect(m_department, &DepartmentPage::folderWanted, this, [this](const QString& folder) {
        auto* sheet = new FileSheet(m_tools.workplace, {tr("In which folder?"), folder, {}});
        connect(sheet, &FileSheet::chosen, m_department, &DepartmentPage::takeFolder);
        m_tools.sheets.put(sheet);
    });
    connect(m_rulebook, &RulebookPage::fileWanted, this, [this] {
        auto* sheet = new FileSheet(
            m_tools.workplace, {tr("Which rulebook?"), {}, {QStringLiteral("*.toml")}});
        connect(sheet, &FileSheet::chosen, m_rulebook, &RulebookPage::takeFile);
        m_tools.sheets.put(sheet);
    });
    connect(m_rulebook, &RulebookPage::chosen, this, [this] { tell({}); });
    connect(m_units, &UnitsPage::troubled, this, &FirstStart::tell);
    connect(m_units, &UnitsPage::changed, this,
            [this] { m_later->setText(tr("Finish without a check")); });
    connect(m_units, &UnitsPage::keepingChanged, this, [this](bool isKeeping) {
        for (auto* button : {m_later, m_next}) button->setEnabled(!isKeeping);
    });
}

bool FirstStart::isUnderWay() const {
    return m_stack->currentWidget() != m_welcome;
}

QString FirstStart::lostIfClosed() const {
    if (!isUnderWay()) return {};
    const auto* page = m_pages[m_at];
    if (page == m_code)
        return tr("The recovery code is shown this once: after that it is nowhere. Everything "
                  "else is kept.");
    if (page == m_units) {
        return m_units->holdsUnit() ? tr("The unit that stands here is not enrolled yet.")
                                    : QString();
    }
    const auto fields = findChildren<QLineEdit*>();
    const bool isTyped = std::ranges::any_of(fields, [](const auto* field) {
        return field->isModified() && !field->text().isEmpty();
    });
    return isTyped || m_at > 0 ? tr("This department is not set up yet, and nothing of it is kept.")
                               : QString();
}

void FirstStart::tell(const QString& trouble) {
    m_trouble->setText(trouble);
    m_trouble->setVisible(!trouble.isEmpty());
    keepInSight();
}

// Once everything has found its place.
void FirstStart::keepInSight() {
    QTimer::singleShot(std::chrono::milliseconds(60), this, [this] {
        auto* page = static_cast<QScrollArea*>(m_stack->currentWidget());
        auto* now = QApplication::focusWidget();
        if (now != nullptr && page->isAncestorOf(now)) page->ensureWidgetVisible(now);
    });
}

void FirstStart::showWelcome(const QString& trouble, SetUp setUp) {
    m_setUp->setVisible(setUp == SetUp::Offered);
    m_stack->setCurrentWidget(m_welcome);
    m_title->setText(tr("Airmuster"));
    m_foot->hide();
    m_unitPresses->hide();
    tell(trouble);
}

void FirstStart::showPage(SetupPage* page) {
    m_at = static_cast<std::size_t>(std::find(m_pages.begin(), m_pages.end(), page) -
                                    m_pages.begin());
    m_stack->setCurrentIndex(m_stack->indexOf(m_welcome) + 1 + static_cast<int>(m_at));
    m_title->setText(tr("%1 of %2: %3").arg(m_at + 1).arg(m_pages.size()).arg(page->title()));
    m_next->setText(page->next());
    m_foot->show();
    m_back->setVisible(page != m_code && page != m_units);
    m_later->setVisible(page == m_units);
    m_unitPresses->setVisible(page == m_units);
    tell({});
    page->enter();
}

void FirstStart::goOn() {
    if (std::exchange(m_isChecking, true)) return;
    auto* page = m_pages[m_at];
    page->check([this, page](const QString& fault) {
        m_isChecking = false;
        if (page != m_pages[m_at] || !isUnderWay()) return;  // gone back meanwhile
        if (fault.isEmpty())
            leavePage(page);
        else
            tell(fault);
    });
}

void FirstStart::leavePage(SetupPage* page) {
    if (page == m_rulebook || (page == m_manager && m_hasEdition)) {
        foundLogbook();
    } else if (page == m_units) {
        finish(m_units->firstSerial());
    } else {
        if (page == m_code) m_code->forget();
        showPage(m_pages[m_at + 1]);
    }
}

void FirstStart::goBack() {
    if (m_at == 0)
        showWelcome();
    else
        showPage(m_pages[m_at - 1]);
}

void FirstStart::foundLogbook() {
    Founding founding;
    m_department->state(founding);
    m_manager->state(founding);
    if (!m_hasEdition) m_rulebook->state(founding);  // the rules in force stay in force
    m_file.path = founding.path;
    m_next->setEnabled(false);
    tell(tr("Making the logbook."));
    auto pin = std::make_shared<station::Secret>(m_manager->pin());
    m_tools.workplace.read(
        [founding, pin](const auto& surroundings, const auto&) {
            return found(surroundings, founding, *pin);
        },
        this, [this](station::Result<Founded> founded) {
            m_next->setEnabled(true);
            if (founded)
                takeFounded(std::move(*founded));
            else
                tell(problemText(founded.error()));
        });
}

void FirstStart::takeFounded(Founded founded) {
    m_manager->forgetPins();
    m_tools.workplace.open(m_file);
    if (founded.session) m_tools.workplace.presence().begin(std::move(*founded.session));
    m_code->show(founded.begun, shownText(m_file.path.string()));
    showPage(m_code);
}

void FirstStart::finishWithout() {
    if (!m_units->holdsUnit()) {
        finish({});
        return;
    }
    m_tools.workplace.ask(
        {tr("The unit that stands here is not enrolled yet. Finish without it?"),
         tr("Finish, it is not enrolled"), tr("Back to the unit")},
        [self = QPointer<FirstStart>(this)](bool isYes) {
            if (self && isYes) self->finish({});
        });
}

void FirstStart::finish(const QString& serial) {
    Q_EMIT opened(m_file, serial);
}

bool FirstStart::takeScan(const QString& text) {
    return isUnderWay() && m_pages[m_at]->takeScan(text);
}

void FirstStart::tellUntaken(const QString& told) {
    tell(told);
}

void FirstStart::begin(const station::LogbookFile& file) {
    if (file.path.empty()) {
        showWelcome();
        return;
    }
    using Looked = std::optional<station::Result<station::Staffing>>;  // none: no such file
    m_tools.workplace.read(
        [file](const auto& surroundings, const auto&) -> Looked {
            if (!station::system::exists(file.path)) return std::nullopt;
            return station::staffingOf(surroundings, file);
        },
        this, [this, file](const Looked& looked) {
            if (!looked)
                showWelcome(tr("There is no file %1. Nothing was made. Set up a department, or "
                               "open another file.")
                                .arg(shownText(file.path.string())));
            else if (!*looked)
                showWelcome(problemText(looked->error()),
                            station::isOfDamage(looked->error()) ? SetUp::Kept : SetUp::Offered);
            else
                lookAt(file, **looked);
        });
}

// What a logbook lacks is asked for; one that lacks nothing is opened.
void FirstStart::lookAt(const station::LogbookFile& file, const station::Staffing& staffing) {
    m_file = file;
    m_hasEdition = staffing.hasEdition;
    if (staffing.hasEdition && staffing.hasPersons) {
        m_lacksNothing = file.path;
        finish({});
        return;
    }
    m_department->keepFile(shownText(file.path.string()), {});
    showPage(m_pages.front());
    tell(tr("This logbook has no rules or no people yet. Both are asked for now; what is in it "
            "stays as it is."));
}

void FirstStart::chooseLogbook() {
    auto* sheet = new FileSheet(m_tools.workplace,
                                {tr("Which logbook?"), shownText(m_folder.string()),
                                 {QStringLiteral("*.logbook")}});
    connect(sheet, &FileSheet::chosen, this,
            [this](const QString& path) { begin({plainText(path)}); });
    m_tools.sheets.put(sheet);
}

// The one that is there, else one is made.
void FirstStart::openDemo() {
    const station::LogbookFile file{m_folder / "demo.logbook"};
    m_demo->setEnabled(false);
    tell(tr("Making the demo, three months of an invented hospital."));
    using Made = std::optional<station::Problem>;
    m_tools.workplace.read(
        [file](const auto& surroundings, const auto&) -> Made {
            if (station::system::exists(file.path)) return std::nullopt;
            QDir().mkpath(shownText(file.path.parent_path().string()));
            const auto made = station::makeSample(surroundings, file, {});
            return made ? Made() : made.error();
        },
        this, [this, file](const Made& problem) {
            m_demo->setEnabled(true);
            if (problem) {
                tell(problemText(*problem));
                return;
            }
            m_file = file;
            finish({});
        });
}

}  // namespace desktop
