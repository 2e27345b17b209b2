// LED light: the CIE's phosphor LEDs by our integrals, and our own LED compared with them.
#include "spectrum/led.h"

#include <doctest/doctest.h>

#include <string>

#include "published/published.h"
#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"
#include "spectrum/reference_table.h"
#include "spectrum/source_spectrum.h"

namespace led_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("LED light");

const std::string kTable = "CIE 15:2018, LED illuminants, recomputed";
const std::string kEnds = "our locus ends at 380 and 780 nm";

struct Led {
    const char *name, *x, *y, *cct, *duv, *efficacy;
    double cut;  // K, effect of the ends of our locus
};
const Led kB1{"LED-B1", "0.4560", "0.4078", "2733", "-0.0007", "312", 0};
const Led kB5{"LED-B5", "0.3118", "0.3236", "6598", "0.0009", "305", 2.0};

double lumens_per_watt(const Curve& light) {
    return luminous_flux(light) / integrate(light, Curve(1.0F));
}

Curve cie_led(ReferenceTable& table, const char* name) {
    return Curve(table[name], table["nm"].front(), 1.0);
}

}  // namespace

TEST_CASE("the CIE's warm and cool phosphor LEDs have their published colour and efficacy") {
    ReferenceTable table = read_reference_table("cie_LED_illuminants_1nm.csv");
    if (table.empty()) return;
    for (const Led& led : {kB1, kB5}) {
        const std::string of = std::string(" of ") + led.name;
        const Curve light = cie_led(table, led.name);
        const Xyz xyz = integrate_xyz(light);
        kSubject.exact("x" + of, "CIE 15:2018", "", led.x, xy_of(xyz).x);
        kSubject.exact("y" + of, "CIE 15:2018", "", led.y, xy_of(xyz).y);
        const CctDuv at = cct_duv_of(xyz);
        kSubject.exact("CCT" + of, kTable, "K", led.cct, at.cct_k, {0.5 + led.cut, kEnds});
        kSubject.exact("Duv" + of, kTable, "", led.duv, at.duv, {7e-5, kEnds});
        kSubject.exact("lumens per watt of radiation" + of,
                       kTable,
                       "lm/W",
                       led.efficacy,
                       lumens_per_watt(light));
    }
}

TEST_CASE("warm and cool phosphor LEDs mix to the published colours, share by share") {
    ReferenceTable table = read_reference_table("cie_LED_illuminants_1nm.csv");
    if (table.empty()) return;
    const struct {
        double cool;
        const char *cct, *duv;
        double cut;  // K, effect of the ends of our locus
    } rows[] = {{0.0, "2733", "-0.0007", 0},
                {0.1, "2923", "-0.0028", 0},
                {0.2, "3141", "-0.0044", 0},
                {0.3, "3391", "-0.0056", 0},
                {0.4, "3681", "-0.0061", 0.1},
                {0.5, "4016", "-0.0062", 0.1},
                {0.6, "4403", "-0.0057", 0.2},
                {0.7, "4846", "-0.0047", 0.4},
                {0.8, "5354", "-0.0032", 0.7},
                {0.9, "5934", "-0.0013", 1.2},
                {1.0, "6598", "0.0009", 2.0}};
    const Curve warm = normalised_to_lumen(cie_led(table, "LED-B1"));
    const Curve cool = normalised_to_lumen(cie_led(table, "LED-B5"));
    for (const auto& row : rows) {
        const Curve mix = warm * (1 - row.cool) + cool * row.cool;
        const CctDuv at = cct_duv_of(integrate_xyz(mix));
        const std::string of = " of B1 with " + figure(100 * row.cool) + " % of its lumens from B5";
        kSubject.exact("CCT" + of, kTable, "K", row.cct, at.cct_k, {0.5 + row.cut, kEnds});
        kSubject.exact("Duv" + of, kTable, "", row.duv, at.duv, {7e-5, kEnds});
    }
}

TEST_CASE("our LED with the CCT and Duv of a CIE LED has its colour and about its efficacy") {
    for (const Led& led : {kB1, kB5}) {
        const LedChannels channels = make_led(std::stod(led.cct), std::stod(led.duv));
        const Curve light =
            channels.warm * channels.warm_share + channels.cool * channels.cool_share;
        const std::string of = std::string(" of our LED at the white of ") + led.name;
        const Xy xy = xy_of(integrate_xyz(light));
        // Half a kelvin changes x of B1 by 4e-5; half of 1e-4 in Duv changes y by 1.2e-4.
        const Allowance digits{1.5e-4, "given by CCT and Duv as printed"};
        kSubject.exact("x" + of, "CIE 15:2018", "", led.x, xy.x, digits);
        kSubject.exact("y" + of, "CIE 15:2018", "", led.y, xy.y, digits);
        kSubject.exact("lumens per watt of radiation" + of,
                       kTable,
                       "lm/W",
                       led.efficacy,
                       lumens_per_watt(light),
                       {4, "three lobes, fitted to the table within 2 % of its peak"});
    }
}

}  // namespace led_test
