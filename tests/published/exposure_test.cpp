// Exposure of hand meters and cameras.
#include "develop/exposure.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "develop/develop.h"
#include "develop/lit_film.h"
#include "judge/luminance_statistics.h"
#include "published/published.h"

namespace exposure_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Exposure");

const std::string kMeter = "ISO 2720:1974";
const std::string kSensor = "ISO 12232:2019 (from memory)";

// Luminance of a card of this reflectance under this illuminance, cd/m².
double card(double reflectance, double lux) {
    return reflectance * lux / kPi;
}

}  // namespace

TEST_CASE("meter readings follow the published table of exposure values") {
    const struct {
        int ev;
        const char *luminance, *lux;
    } rows[] = {{-2, "0.03125", "0.625"},
                {0, "0.125", "2.5"},
                {3, "1", "20"},
                {5, "4", "80"},
                {6, "8", "160"},
                {7, "16", "320"},
                {8, "32", "640"},
                {9, "64", "1280"},
                {10, "128", "2560"},
                {12, "512", "10240"},
                {15, "4096", "81920"}};
    for (const auto& row : rows) {
        // f/4 and the exposure time that has this value at ISO 100.
        const double shutter = 16 * std::exp2(-row.ev);
        const std::string at = " at EV " + std::to_string(row.ev);
        kSubject.exact("exposure value" + at,
                       kMeter,
                       "EV",
                       std::to_string(row.ev) + ".00000",
                       exposure_value(4, shutter, 100));
        kSubject.exact("metered luminance" + at + ", K = 12.5",
                       kMeter,
                       "cd/m²",
                       row.luminance,
                       metered_luminance(4, shutter, 100));
        kSubject.exact("metered illuminance" + at + ", C = 250",
                       kMeter,
                       "lx",
                       row.lux,
                       metered_illuminance(4, shutter, 100));
    }
}

TEST_CASE("camera settings have their published exposure values") {
    const std::string source = "ISO 2720:1974, worked";
    kSubject.exact(
        "f/8, 1/250 s, ISO 400", source, "EV", "11.965784", exposure_value(8, 1.0 / 250, 400));
    kSubject.exact(
        "f/5.6, 1/500 s, ISO 800", source, "EV", "10.936638", exposure_value(5.6, 1.0 / 500, 800));
    kSubject.exact(
        "luminance for f/8, 1 s, ISO 100", source, "cd/m²", "8", metered_luminance(8, 1, 100));
    kSubject.exact(
        "illuminance for f/8, 1 s, ISO 100", source, "lx", "160", metered_illuminance(8, 1, 100));
    kSubject.exact(
        "f-number for 160 lx, 1 s, ISO 100", source, "", "8", metered_f_number(160, 1, 100));
}

TEST_CASE("the two kinds of meter agree on the published grey and differ on an 18 % card") {
    const std::string source = "ISO 2720:1974, π K/C for K = 12.5 and C = 250";
    const double lux = metered_illuminance(8, 1.0 / 60, 400);
    const double luminance = metered_luminance(8, 1.0 / 60, 400);
    kSubject.exact(
        "reflectance on which both meters agree", source, "", "0.1571", kPi * luminance / lux);

    const double n = metered_f_number(1000, 1, 100);
    const double incident = exposure_value(n, 1, 100);
    const double apart = stops_from_ratio(card(0.18, 1000) / metered_luminance(n, 1, 100));
    const std::string worked = "ISO 2720:1974, worked";
    kSubject.exact("18 % card at 1000 lx", "Lambert's law", "cd/m²", "57.296", card(0.18, 1000));
    kSubject.exact("incident reading of 1000 lx", worked, "EV", "8.6439", incident);
    kSubject.exact("reflected reading of the card", worked, "EV", "8.8404", incident + apart);
    kSubject.exact("the two apart", worked, "EV", "0.1965", apart);
}

TEST_CASE("cards in metered light develop to their reflectance") {
    Camera camera;
    camera.f_number = 8;
    camera.shutter = 1.0F / 250;
    camera.iso = 400;
    camera.white_k = 5600;
    const double lux = metered_illuminance(8, camera.shutter, 400);
    const LightGroup light = daylight_group("key", 0, 5600);
    for (const char* const reflectance : {"0.18", "0.90", "0.04"}) {
        const double y = card(std::stod(reflectance), lux);
        const Film film = lit_film(2, 1, {light}, 3, [&](int, int, int) { return y; });
        const Rgb c = develop_linear(film, camera).at(0, 0);
        const std::string of = std::string(" of a card of reflectance ") + reflectance;
        const std::string printed = std::string(reflectance) + "000";
        kSubject.exact("red" + of, "definition", "", printed, c.r);
        kSubject.exact("green" + of, "definition", "", printed, c.g);
        kSubject.exact("blue" + of, "definition", "", printed, c.b);
    }
}

TEST_CASE("the sensor is full at the standard's headroom, within the difference of meters") {
    // ISO 12232 measures the light behind a lens of q = 0.65 and has half a stop of headroom over a
    // perfect white: S = 78/H. We have the same half stop over the white of an incident meter.
    const double l_white = white_luminance(1, 1, 100);  // EV 0
    // The lowest saturated luminance, by bisection.
    double low = l_white;
    double high = 4 * l_white;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (make_stops_statistics({middle}, l_white).saturated_share > 0 ? high : low) = middle;
    }
    kSubject.exact("full over a perfect white", kSensor, "", "1.41", high / l_white);
    kSubject.exact("full over the metered mean, 78/10",
                   kSensor,
                   "",
                   "7.8",
                   high / card(0.18, metered_illuminance(1, 1, 100)),
                   {0.06, "an 18 % card is our mean; the standard's is 12.82 % of full"});
    kSubject.exact("full at EV 0, lens of q = 0.65158",
                   kSensor,
                   "cd/m²",
                   "1.19710",
                   high,
                   {0.072, "an incident meter sets our white, not a lens: 0.09 stop"});
}

}  // namespace exposure_test
