#include "base/written_number.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace dapple {

namespace {

struct Written {
    const char* key;
    const char* text;
    double value;  // in the key's unit
};

std::optional<double> number_of(const std::string& key, const std::string& text) {
    return number_in_words(text, quantity_of(key));
}

}  // namespace

TEST_CASE("numbers may be written as people write them") {
    const std::vector<Written> all = {
        {"shutter_s", "1/60", 1.0 / 60},
        {"shutter_s", "1/60 s", 1.0 / 60},
        {"shutter_s", "0.5 sec", 0.5},
        {"shutter_s", "2\"", 2},
        {"f_number", "f/4", 4},
        {"f_number", "F4", 4},
        {"f_number", "f/5.6", 5.6},
        {"f_number", "f 0.95", 0.95},
        {"iso", "ISO 800", 800},
        {"dimmer", "50%", 0.5},
        {"dimmer", "12.5 %", 0.125},
        {"dimmer", "-1 stop", 0.5},
        {"dimmer", "-2 stops", 0.25},
        {"reflectance", "18%", 0.18},
        {"position", "1.2 m", 1.2},
        {"position", "1.2", 1.2},
        {"position", "80 cm", 0.8},
        {"position", "-80cm", -0.8},
        {"position",
         "\xe2\x88\x92"
         "0.4 m",
         -0.4},
        {"height_m", "6 ft 2 in", 74 * 0.0254},
        {"height_m", "5'11\"", 71 * 0.0254},
        {"height_m", "5' 11", 71 * 0.0254},
        {"height_m",
         "5\xe2\x80\xb2"
         "11\xe2\x80\xb3",
         71 * 0.0254},
        {"height_m", "1 m 70 cm", 1.7},
        {"position", "-6 ft 2 in", -74 * 0.0254},
        {"height_m", "5 1/2 feet", 5.5 * 0.3048},
        {"height_m", "5\xc2\xbd ft", 5.5 * 0.3048},
        {"wall_mm", "3/8 in", 0.375 * 25.4},
        {"wall_mm", "3 mm", 3},
        {"wall_mm", "3", 3},
        {"diameter_mm", "12 cm", 120},
        {"turn_deg", "20\xc2\xb0", 20},
        {"turn_deg", "-20 deg", -20},
        {"cct_k", "5600K", 5600},
        {"output_lm", "900 lm", 900},
        {"power_w", "650 W", 650},
        {"power_w", "2 kW", 2000},
        {"luminance_cd_m2", "15 cd/m\xc2\xb2", 15},
        {"shift_mired", "-35 mired", -35},
        {"stops", "1/2 stop", 0.5},
    };
    for (const Written& written : all) {
        CAPTURE(written.key);
        CAPTURE(written.text);
        const auto value = number_of(written.key, written.text);
        REQUIRE(value.has_value());
        CHECK(*value == doctest::Approx(written.value).epsilon(1e-12));
    }
}

TEST_CASE("a text that is no number of its key is not taken for one") {
    const std::vector<std::pair<const char*, const char*>> all = {
        {"f_number", "f4.5.6"},      {"f_number", "f/"},
        {"f_number", "wide open"},   {"f_number", "4 m"},
        {"shutter_s", "1/0"},        {"shutter_s", "1/"},
        {"shutter_s", "/60"},        {"shutter_s", "1/60 m"},
        {"dimmer", "half"},          {"dimmer", ""},
        {"dimmer", "50 % 20 %"},     {"dimmer", "-1 stop 2"},
        {"position", "1.2 metrics"}, {"position", "1,2 m"},
        {"position", "2 in 3 ft"},   {"position", "1 m 2 m"},
        {"position", "1 2"},         {"position", "1 m 20"},
        {"position", "- -1"},        {"position", "nan"},
        {"position", "inf"},         {"position", "1e999"},
        {"turn_deg", "20 rad"},      {"cct_k", "warm"},
        {"duv", "0.01 K"},           {"power_w", "650 lm"}};
    for (const auto& [key, text] : all) {
        CAPTURE(key);
        CAPTURE(text);
        CHECK_FALSE(number_of(key, text).has_value());
    }
}

}  // namespace dapple
