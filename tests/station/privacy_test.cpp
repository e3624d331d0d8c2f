// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Texts that look as if they named a patient, and texts of the trade that must pass unasked. All
// names and numbers are made up for this.
#include "station/privacy.h"

#include <catch2/catch.hpp>

namespace {

using Code = station::PatientTrace::Code;

std::string codes(std::string_view text, std::string_view language = "en") {
    std::string all;
    for (const auto& trace : station::patientTraces(text, *words::Words::builtIn(language))) {
        switch (trace.code) {
            case Code::Marker: all += "marker "; break;
            case Code::Number: all += "number "; break;
            case Code::Title: all += "title "; break;
            case Code::NameDate: all += "name "; break;
            case Code::NameBed: all += "bed "; break;
        }
    }
    return all;
}

}  // namespace

TEST_CASE("Numbers, names and birth dates of patients are seen", "[unit]") {
    CHECK(codes("MRN 4471") == "marker ");
    CHECK(codes("mrn: 00447123") == "marker ");
    CHECK(codes("mrn: 00447123, later 00447124") == "marker ");
    CHECK(codes("mrn unknown, 00447124") == "marker number ");
    CHECK(codes("used for 00447123 since noon") == "number ");
    CHECK(codes("0044 7123") == "number ");
    CHECK(codes("bed 4, 447-12-3388.") == "number ");
    CHECK(codes("DOB 3/4/51") == "marker ");
    CHECK(codes("Date of birth unknown") == "marker ");
    CHECK(codes("Mrs Harebell in bed 4") == "title ");
    CHECK(codes("Baby Heather, incubator 2") == "title ");
    CHECK(codes("Ivy Harebell 12/03/1954") == "name ");
    CHECK(codes("Harebell, Ivy, 1954-03-12") == "name ");
    CHECK(codes("Ivy Harebell bed 4 needs it") == "bed ");
    CHECK(codes("for Ivy Harebell, room 12") == "bed ");
    CHECK(codes("patient no 7") == "marker ");
    CHECK(codes("12.03.1954 Ivy Harebell") == "name ");
    CHECK(codes("patient John Smith") == "title ");
    CHECK(codes("baby of Maria Lopez") == "title ");
    CHECK(codes("J. Smith, 61 y/o male, room 5") == "marker ");
    // Beside a date or a time of day a number is one all the same.
    for (const std::string text : {"moved 1234567 14:20", "14:20 1234567 moved",
                                   "2026-03-02 1234567 seen", "1234567 2026-03-02"}) {
        CAPTURE(text);
        CHECK(codes(text) == "number ");
    }
}

TEST_CASE("What the trade writes is not asked about", "[unit]") {
    for (const std::string text :
         {"", "Dropped in the corridor", "Patient moved to bed 4", "Leak at the Y piece",
          "KB-0142007 next to KB-0143", "Lot L2025-1107", "GTIN 04012345-7",
          "asset no: 1200345x", "Lot: 4471203", "Order no 4471203", "ICU Bed 12",
          "2026-03-02T14:20:05Z", "from 14:20:05 on", "62.5 % after 120 s", "Due 2026-03-02",
          "Biomed called at 0220", "Hold until Risk Manager 2 is here", "err-1234567",
          "Room 4 Bed 12 Larch",
          "Larch Ward bed 4", "Intensive Care Bed 12", "Flow sensor of bed 4",
          "Same patient, new circuit", "mister is a humidifier word"}) {
        CAPTURE(text);
        CHECK(codes(text).empty());
    }
}

TEST_CASE("In Spanish, patients are seen by the words of both languages", "[unit]") {
    const auto spanish = [](std::string_view text) { return codes(text, "es"); };
    CHECK(spanish("NHC 4471") == "marker ");
    CHECK(spanish("historia clínica: 00447123") == "marker ");
    CHECK(spanish("n.º de historia 4471") == "marker ");
    CHECK(spanish("fecha de nacimiento 3/4/51") == "marker ");
    CHECK(spanish("nacida el 3 de abril") == "marker ");
    CHECK(spanish("Sra. Harebell, cama 4") == "title ");
    CHECK(spanish("Doña Ñata en la cama 4") == "title ");
    CHECK(spanish("Bebé Heather, incubadora 2") == "title ");
    CHECK(spanish("Íñiga Harebell, Ivy 12/03/1954") == "name ");
    CHECK(spanish("usado con 00447123 desde mediodía") == "number ");
    CHECK(spanish("MRN 4471") == "marker ");
    CHECK(spanish("Mrs Harebell in bed 4") == "title ");
    for (const std::string text :
         {"Se cayó en el pasillo", "Paciente trasladado a la cama 4", "Fuga en la pieza en Y",
          "Circuito de recién nacido", "Lote: 4471203", "Lote n.º 4471203", "pedido nº 4471203",
          "Número de serie 4471203", "donde la cama 4", "62,5 % tras 120 s", "Sensor Larch nuevo",
          "Bebés en la planta", "Ingeniería Biomédica avisada"}) {
        CAPTURE(text);
        CHECK(spanish(text).empty());
    }
}

TEST_CASE("All texts of an entry are looked at, at every level", "[unit]") {
    namespace json = logbook::json;
    const auto& words = *words::Words::builtIn();
    const auto count = [&](std::string_view kind, const json::Object& body) {
        return station::patientTraces(kind, body, words).size();
    };
    for (const std::string field : {"reason", "text", "title", "label", "location"}) {
        CAPTURE(field);
        CHECK(count("note", {{field, "used for 00447123"}}) == 1);
    }
    CHECK(count("enrol", {{"owner", "MRN 4471"}}) == 1);
    CHECK(count("fit", {{"part", json::Object{{"lot", "MRN 4471"}, {"x_for", "DOB 3/4/51"}}}}) ==
          2);
    CHECK(count("reprocess", {{"parts", json::Array{json::Object{{"serial", "mrn 4471"}}}}}) == 1);
    // Digits alone are what serials and lots are made of.
    CHECK(count("fit", {{"part", json::Object{{"serial", "00447123"}, {"lot", "4471203"}}}}) == 0);
    CHECK(count("check", {{"check", "leak"}, {"outcome", "pass"}}) == 0);
    CHECK(count("adopt", {{"text", "# Ivy Harebell, 2026-03-12"}, {"approved_by", "Mr Rowan"}}) ==
          0);
    CHECK(count("person", {{"person", "i.h"}, {"name", "Ivy Harebell"}}) == 0);
    CHECK(count("person", {{"person", "i.h"}, {"name", "Ivy Harebell 1954-03-12"}}) == 1);
}

TEST_CASE("What is withheld leaves the rest of an entry as it is", "[unit]") {
    namespace json = logbook::json;
    json::Object body{{"reason", "MRN 4471"},
                      {"location", "Bed 4"},
                      {"part", json::Object{{"lot", "mrn 4471"}, {"serial", "C-7"}}}};
    station::withholdTraces("fit", body, *words::Words::builtIn());
    CHECK(json::canonical(body) ==
          R"j({"location":"Bed 4","part":{"lot":"","serial":"C-7"},"reason":"(left out)"})j");
    body = {{"reason", "Splash, Mrs Harebell, 12345678, see 2"},
            {"location", "Room of Mrs Harebell"}};
    station::withholdTraces("soil", body, *words::Words::builtIn());
    CHECK(json::canonical(body) == R"j({"location":"Room of (left out)",)j"
                                   R"j("reason":"Splash, (left out), (left out), see 2"})j");
    body = {{"location", "Bed 4"}};
    station::withholdTraces("move", body, *words::Words::builtIn());
    CHECK(json::canonical(body) == R"({"location":"Bed 4"})");
}

TEST_CASE("A text of any length is looked at in bounded time", "[unit]") {
    CHECK(codes(std::string(200'000, '7')) == "number ");
    CHECK(codes(std::string(200'000, 'A')).empty());
}
