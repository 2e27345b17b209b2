// The luminous efficacy of radiation, lumens per watt.
#include <doctest/doctest.h>

#include <string>

#include "published/published.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"
#include "spectrum/source_spectrum.h"
#include "spectrum/tungsten.h"

namespace efficacy_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Lumens per watt");

const std::string kBlackbody = "Planck's law over CIE 018:2019, recomputed";

// Lumens per watt of the radiation from 380 to 780 nm.
double lumens_per_visible_watt(const Curve& light) {
    return luminous_flux(light) / integrate(light, Curve(1.0F));
}

}  // namespace

TEST_CASE("a watt of green light is 683 lumens") {
    const Curve green([](double nm) { return nm == 555.0 ? 1.0 : 0.0; });
    kSubject.exact("1 W at 555 nm", "SI brochure, 9th ed.", "lm", "683", luminous_flux(green));
    const Curve orange([](double nm) { return nm == 600.0 ? 1.0 : 0.0; });
    kSubject.exact(
        "1 W at 600 nm", "CIE 018:2019, V = 0.631", "lm", "430.973", luminous_flux(orange));
}

TEST_CASE("black bodies send the published lumens per watt of all radiation") {
    const struct {
        double kelvin;
        const char* printed;
    } rows[] = {{2000, "1.61"},
                {2700, "12.36"},
                {2856, "16.45"},
                {3000, "20.67"},
                {3200, "27.09"},
                {3400, "33.93"},
                {4000, "54.71"},
                {5000, "81.39"},
                {5600, "90.37"},
                {6500, "95.36"},
                {6628, "95.43"}};
    for (const auto& row : rows) {
        kSubject.exact("all radiation of a body at " + figure(row.kelvin) + " K",
                       kBlackbody,
                       "lm/W",
                       row.printed,
                       blackbody_efficacy(row.kelvin));
    }
}

TEST_CASE("lights send the published lumens per visible watt") {
    const auto check = [](const std::string& light,
                          const std::string& source,
                          const std::string& printed,
                          const Curve& curve) {
        kSubject.exact("visible radiation, 380-780 nm, of " + light,
                       source,
                       "lm/W",
                       printed,
                       lumens_per_visible_watt(curve));
    };
    check("a body at 3200 K", kBlackbody, "170.9", planck(3200));
    check("a body at 5600 K", kBlackbody, "197.9", planck(5600));
    check("illuminant A", "CIE 15:2018 table, recomputed", "155.8", illuminant_a());
    check("D65", "CIE 15:2018 table, recomputed", "204.8", daylight_d65());
}

TEST_CASE("a spectrum scaled to its lumens has them") {
    const double lumens = 2600;
    for (const double kelvin : {2700.0, 3200.0, 5600.0}) {
        const Curve scaled = normalised_to_lumen(planck(kelvin)) * lumens;
        kSubject.exact("2600 lm of light of " + figure(kelvin) + " K",
                       "SI brochure, 9th ed., definition of the lumen",
                       "lm",
                       "2600.00",
                       luminous_flux(scaled));
    }
}

}  // namespace efficacy_test
