// The packing list in tables and JSON.
#include "output/packing_list_text.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "base/units.h"
#include "output/day_sheet_json.h"
#include "output/text_table.h"

using namespace dapple;
using nlohmann::json;

namespace {

PackingList two_lamps() {
    PackingList list;
    list.title = "Two lamps";
    list.volts = 230;
    list.circuit_a = 16;
    PackedFixture key;
    key.name = "key";
    key.source = SourceKind::kTungsten;
    key.position = Point(-1.5F, 1.9F, 0.5F);
    key.height = 1.9;
    key.aim = Point(0, 1, 0);
    key.meets = {{"jar", 0.5}, {"floor", 3.25}};
    key.beam_angle = radians_from_degrees(20);
    key.full_lumens = 24000;
    key.full_cct_k = 3200;
    key.dimmer = 0.5;
    key.lumens = 12000;
    key.peak_candela = 95000;
    key.cct_k = 4999.6;
    key.gel.shift_mired = -112.5;
    key.gel.stops = 0.5;
    key.power_w = 650;
    key.current_a = 650.0 / 230;
    PackedFixture bulb;
    bulb.name = "bülb";
    bulb.form = FixtureForm::kBare;
    bulb.supply = Supply::kBattery;
    bulb.full_lumens = bulb.lumens = 45.25;
    list.fixtures = {key, bulb};
    CircuitLoad mains;
    mains.fixtures = {"key"};
    mains.power_w = 650;
    mains.current_a = 650.0 / 230;
    mains.share = mains.current_a / 16;
    list.circuits = {mains};
    list.cautions = {{"heat", "key", "a jar is near", "keep away"},
                     {"heat", "bülb", "so is a cloth", "keep away"}};
    return list;
}

DaySheet sheet_with(const std::vector<CarryItem>& carry) {
    DaySheet sheet;
    sheet.list = two_lamps();
    sheet.carry = carry;
    return sheet;
}

bool has_line(const std::string& text, const std::string& line) {
    return ("\n" + text).find("\n" + line + "\n") != std::string::npos;
}

}  // namespace

TEST_CASE("the packing list's JSON has all figures, and null for what is not known") {
    DaySheet sheet;
    sheet.list = two_lamps();
    const json j = json::parse(day_sheet_json_text(sheet));
    CHECK(j["title"] == "Two lamps");
    const json& key = j["fixtures"][0];
    CHECK(key["position"] == json({-1.5, 1.9, 0.5}));
    CHECK(key["aim"] == json({0.0, 1.0, 0.0}));
    CHECK(key["meets"][1] == json({{"name", "floor"}, {"distance_m", 3.25}}));
    CHECK(key["beam_angle_deg"] == 20);
    CHECK(key["cct_k"] == 5000);
    CHECK(key["gel"]["shift_mired"] == -112.5);
    CHECK(key["current_a"] == 2.826);
    CHECK(key["circuit"].is_null());
    const json& bulb = j["fixtures"][1];
    for (const char* unknown :
         {"aim", "beam_angle_deg", "gel", "power_w", "current_a", "height_m"}) {
        CAPTURE(unknown);
        CHECK(bulb[unknown].is_null());
    }
    CHECK(j["circuits"][0]["share_of_circuit_a"] == 0.1766);
    CHECK(j["cautions"][0]["about"] == "key");
    CHECK(j["note"].get<std::string>().find("local codes") != std::string::npos);
}

TEST_CASE("the packing list's tables keep their columns whatever letters names have") {
    const std::string text = packing_list_table_text(sheet_with({}));
    CHECK(
        has_line(text,
                 "key      spot   -1.50   1.90   0.50  1.90    0.00   1.00   0.00  jar 0.50, floor "
                 "3.25"));
    CHECK(has_line(text,
                   "key      tungsten  20°   24 000      12 000     95 000          3200 K, as set "
                   "5000 K  50 %"
                   "    -112 mired, 0.5 stops"));
    CHECK(has_line(text,
                   "as set: with its dimmer and its gel. Tungsten that is dimmed is warmer than at "
                   "full."));
    CHECK(has_line(text, "key      mains    650 W      2.83 A"));
    CHECK(has_line(text, "bülb     battery  not given"));
    CHECK(has_line(text, "mains    1         650 W  2.83 A   18 % of 16 A"));
    CHECK(has_line(text, "- heat: keep away\n    key: a jar is near\n    bülb: so is a cloth"));
    CHECK(columns("bülb") == 4);
}

TEST_CASE("what is to be carried is listed with what the user's kit has of it") {
    CarryItem stand;
    stand.name = "stand up to 2.6 m";
    stand.count = 5;
    CarryItem meter;
    meter.name = "light meter";
    meter.count = 1;
    const std::string unknown = packing_list_table_text(sheet_with({stand, meter}));
    CHECK(has_line(unknown, "5       stand up to 2.6 m"));
    CHECK(unknown.find("missing") == std::string::npos);
    stand.have = 2;
    const std::string counted = packing_list_table_text(sheet_with({stand, meter}));
    CHECK(has_line(counted, "number  what               in your kit  missing"));
    CHECK(has_line(counted, "5       stand up to 2.6 m  2            3"));
    CHECK(has_line(counted, "1       light meter"));
}

TEST_CASE("what the light meter must read is listed by fixture and meter") {
    DaySheet sheet = sheet_with({});
    CHECK(packing_list_table_text(sheet).find("light meter") == std::string::npos);
    sheet.meters = {"face", "wall"};
    CHECK(has_line(packing_list_table_text(sheet),
                   "What the light meter must read: not read yet; -o DIR reads the meters"));
    const auto target = [](const char* meter, const char* fixture, double lux) {
        MeterTarget t;
        t.meter = meter;
        t.fixture = fixture;
        t.lux = lux;
        if (lux > 0) t.f_number = 4;
        t.f_stop = "4";
        return t;
    };
    sheet.targets = {target("face", "", 560),
                     target("face", "key", 500),
                     target("face", "sky", 60),
                     target("wall", "", 30.25),
                     target("wall", "key", 0),
                     target("wall", "sky", 30.25)};
    (*sheet.targets)[2].is_window = (*sheet.targets)[5].is_window = true;
    (*sheet.targets)[2].f_number.reset();
    const std::string text = packing_list_table_text(sheet);
    CHECK(has_line(text, "What the light meter must read, at ISO 800 and 1/60 s"));
    CHECK(has_line(text, "alone               face                        wall"));
    CHECK(has_line(text, "key                 f/4  500 lx                 no light"));
    CHECK(has_line(text, "sky (from outside)  not known yet, about 60 lx  f/4  30.2 lx"));
    CHECK(has_line(text, "all together        f/4  560 lx                 f/4  30.2 lx"));
}
