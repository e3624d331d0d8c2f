// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What ends a sheet: the way back keeps its place.
#include "desktop/shell/sheet.h"
#include "desktop/theme/appearance.h"
#include "desktop/theme/wrapped_button.h"

#include <QApplication>
#include <QLayout>
#include <QtTest/QTest>
#include <catch2/catch.hpp>

using namespace desktop;

namespace {

class Asking : public Sheet {
public:
    Asking() : Sheet(QStringLiteral("Asks")) {
        for (auto* each : {back, agree, main}) foot()->addWidget(each);
        agree->hide();
    }
    WrappedButton* back = new WrappedButton(QStringLiteral("Back, keep nothing"));
    WrappedButton* agree = new WrappedButton(QStringLiteral("Agreed"));
    WrappedButton* main = new WrappedButton(QStringLiteral("Go on"));
};

}  // namespace

TEST_CASE("the way back stays in its place, whatever stands beside it", "[unit]") {
    const int percent = GENERATE(100, 200);
    apply(*qApp, {Theme::Light, percent});
    QWidget window;
    SheetStack sheets(&window);
    auto* sheet = new Asking;
    sheets.put(sheet);
    window.resize(1024, 700);
    window.show();
    REQUIRE(QTest::qWaitForWindowExposed(&window));
    QTest::qWait(20);
    const auto place = sheet->back->geometry();
    const auto isSame = [&] {
        QTest::qWait(20);
        const auto now = sheet->back->geometry();
        CHECK(now.bottomLeft() == place.bottomLeft());
        CHECK(now.width() == place.width());
        return sheet->main->geometry().bottom() == now.bottom();
    };
    sheet->main->setText(QStringLiteral("KB-0101 is off the patient, KB-0102 took over although "
                                        "it is not ready for this group"));
    CHECK(isSame());
    sheet->agree->show();
    CHECK(isSame());
    CHECK(sheet->agree->geometry().left() > place.right());
    apply(*qApp, {});
}
