// The standard observer, chromaticities of standard lights, their correlated colour temperature.
//
// Our curves run from 380 to 780 nm, those of most sources from 360 to 830 nm. The effect of the
// missing ends was computed outside this program, by the same sums over both ranges. An allowance
// is that effect and half a printed digit.
#include <doctest/doctest.h>

#include <string>

#include "published/published.h"
#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace colour_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Colour of standard lights");

const std::string kEnds = "curves end at 380 and 780 nm, the source's at 360 and 830 nm";
const std::string kCie15 = "CIE 15:2018 (from memory)";
const std::string kPlanck = "Planck's law over CIE 018:2019, recomputed";
const std::string kLocus = "CIE 15:2018, daylight locus, recomputed";
const std::string kNearest = "ANSI C78.377-2008 for the point, recomputed";

// D50 and the other D illuminants by their old nominal temperature.
Curve named_daylight(double nominal_k) {
    return daylight(nominal_k * 1.4388 / 1.4380);
}

void check_xy(const std::string& light,
              const std::string& source,
              const std::string& x,
              const std::string& y,
              Xy xy,
              const Allowance& allowance = {}) {
    kSubject.exact("x of " + light, source, "", x, xy.x, allowance);
    kSubject.exact("y of " + light, source, "", y, xy.y, allowance);
}

std::string kelvins(double kelvin) {
    return figure(kelvin) + " K";
}

}  // namespace

TEST_CASE("the observer's functions have their published sums and peaks") {
    const Curve ones(1.0F);
    const Xyz sums = integrate_xyz(ones);
    const std::string source = "CIE 018:2019 at 1 nm, 360-830 nm, added up";
    // The missing ends have 0.0104, 0.0005 and 0.0462.
    kSubject.exact("sum of x-bar over 1 nm", source, "", "106.86547", sums.x, {0.0105, kEnds});
    kSubject.exact("sum of y-bar over 1 nm", source, "", "106.85692", sums.y, {0.0005, kEnds});
    kSubject.exact("sum of z-bar over 1 nm", source, "", "106.89225", sums.z, {0.0463, kEnds});
    const Observer& o = cie_1931();
    kSubject.exact("x-bar at 600 nm", "CIE 018:2019", "", "1.0622", o.x.at(600));
    kSubject.exact("y-bar at 555 nm", "CIE 018:2019", "", "1.0000", o.y.at(555));
    kSubject.exact("z-bar at 445 nm", "CIE 018:2019", "", "1.7826", o.z.at(445));
}

TEST_CASE("standard illuminants have their published chromaticities") {
    const Allowance a_cut{2e-5, kEnds};
    check_xy("illuminant A",
             "CIE 15:2018, table 1",
             "0.44758",
             "0.40745",
             xy_of(integrate_xyz(illuminant_a())),
             a_cut);
    // The missing ends change D65 by 1.2e-5 and 2.9e-5, the others less.
    const Allowance cut{3.5e-5, kEnds};
    const auto xy = [](double nominal_k) {
        return xy_of(integrate_xyz(named_daylight(nominal_k)));
    };
    check_xy("D50", kCie15, "0.34567", "0.35850", xy(5000), cut);
    check_xy("D55", kCie15, "0.33242", "0.34743", xy(5500), cut);
    check_xy("D65", kCie15, "0.31271", "0.32902", xy(6500), cut);
}

TEST_CASE("standard illuminants have their published tristimulus values") {
    const auto scaled = [](const Curve& light) {
        const Xyz xyz = integrate_xyz(light);
        return xyz * (100.0 / xyz.y);
    };
    const Xyz a = scaled(illuminant_a());
    const Xyz d65 = scaled(daylight_d65());
    kSubject.exact("X of illuminant A, Y = 100", kCie15, "", "109.850", a.x, {0.003, kEnds});
    kSubject.exact("Z of illuminant A, Y = 100", kCie15, "", "35.585", a.z, {0.005, kEnds});
    kSubject.exact("X of D65, Y = 100", kCie15, "", "95.047", d65.x, {0.006, kEnds});
    kSubject.exact("Z of D65, Y = 100", kCie15, "", "108.883", d65.z, {0.023, kEnds});
}

TEST_CASE("black bodies have their published chromaticities from 2000 to 10000 K") {
    const struct {
        double kelvin;
        const char *x, *y, *u, *v;
        double cut_xy, cut_uv;  // effect of the ends, the larger of two, and half a digit, 1e-5
    } rows[] = {{2000, "0.52668", "0.41330", "0.30505", "0.35907", 1.0, 1.0},
                {2500, "0.47699", "0.41368", "0.27218", "0.35407", 1.1, 0.8},
                {2856, "0.44754", "0.40743", "0.25595", "0.34952", 1.4, 0.8},
                {3000, "0.43693", "0.40407", "0.25057", "0.34759", 1.5, 0.8},
                {3200, "0.42336", "0.39895", "0.24399", "0.34488", 1.8, 0.9},
                {3500, "0.40530", "0.39072", "0.23571", "0.34084", 2.1, 1.1},
                {4000, "0.38044", "0.37675", "0.22511", "0.33439", 2.9, 1.3},
                {4500, "0.36079", "0.36354", "0.21731", "0.32846", 3.6, 1.6},
                {5000, "0.34510", "0.35161", "0.21142", "0.32311", 4.3, 2.0},
                {5600, "0.33020", "0.33908", "0.20610", "0.31746", 5.1, 2.3},
                {6000, "0.32208", "0.33175", "0.20331", "0.31412", 5.6, 2.6},
                {6500, "0.31353", "0.32363", "0.20045", "0.31036", 6.2, 2.8},
                {7000, "0.30637", "0.31651", "0.19813", "0.30703", 6.7, 3.1},
                {8000, "0.29519", "0.30477", "0.19462", "0.30141", 7.6, 3.6},
                {9000, "0.28693", "0.29558", "0.19214", "0.29691", 8.4, 4.0},
                {10000, "0.28063", "0.28829", "0.19032", "0.29326", 9.0, 4.4}};
    for (const auto& row : rows) {
        const std::string light = "a body at " + kelvins(row.kelvin);
        const Allowance cut{row.cut_uv * 1e-5, kEnds};
        check_xy(
            light, kPlanck, row.x, row.y, planckian_xy(row.kelvin), {row.cut_xy * 1e-5, kEnds});
        const Uv uv = planckian_uv(row.kelvin);
        kSubject.exact("u of " + light, kPlanck, "", row.u, uv.u, cut);
        kSubject.exact("v of " + light, kPlanck, "", row.v, uv.v, cut);
    }
}

TEST_CASE("daylight has the published chromaticities of the daylight locus") {
    const struct {
        double kelvin;
        const char *x, *y;
    } rows[] = {{4000, "0.38234", "0.38377"},
                {5000, "0.34574", "0.35867"},
                {5503, "0.33243", "0.34755"},
                {5600, "0.33016", "0.34555"},
                {6000, "0.32169", "0.33780"},
                {6504, "0.31271", "0.32912"},
                {7500, "0.29909", "0.31503"},
                {10000, "0.27880", "0.29197"}};
    // The CIE's D65 has y = 0.32902; the CIE's daylight locus has 0.32912.
    const Allowance components{1.1e-4, "the CIE's components are 1e-4 off its locus"};
    for (const auto& row : rows) {
        check_xy("daylight of " + kelvins(row.kelvin),
                 kLocus,
                 row.x,
                 row.y,
                 xy_of(integrate_xyz(daylight(row.kelvin))),
                 components);
    }
}

TEST_CASE("standard illuminants have their published colour temperature and Duv") {
    const CctDuv a = cct_duv_of(integrate_xyz(illuminant_a()));
    kSubject.exact("CCT of illuminant A", "CIE 15:2018", "K", "2855.5", a.cct_k);
    kSubject.exact("Duv of illuminant A", kNearest, "", "0.0000", a.duv);
    const CctDuv d65 = cct_duv_of(integrate_xyz(daylight_d65()));
    // Computed outside this program over our range: 1.1 K more.
    kSubject.exact("CCT of D65", kNearest, "K", "6502.6", d65.cct_k, {1.2, kEnds});
    kSubject.exact("Duv of D65", kNearest, "", "0.0032", d65.duv);
    const auto duv = [](double k) { return cct_duv_of(integrate_xyz(named_daylight(k))).duv; };
    // D55 has 0.00325 over either range, halfway between two printed digits.
    kSubject.exact("Duv of D50", kNearest, "", "0.0032", duv(5000));
    kSubject.exact("Duv of D55", kNearest, "", "0.0033", duv(5500), {7e-5, kEnds});
}

TEST_CASE("the nominal whites of lamps have their published colour temperature and Duv") {
    const struct {
        const char* nominal;
        double x, y;
        const char *cct, *duv;
        double cut;  // K, effect of the ends of our locus
    } rows[] = {{"2200 K", 0.5018, 0.4153, "2238", "0.0000", 0},
                {"2500 K", 0.4806, 0.4141, "2460", "0.0000", 0},
                {"2700 K", 0.4578, 0.4101, "2725", "0.0000", 0},
                {"3000 K", 0.4339, 0.4033, "3045", "0.0001", 0},
                {"3500 K", 0.4078, 0.3930, "3464", "0.0005", 0.1},
                {"4000 K", 0.3813, 0.3797, "3998", "0.0011", 0.2},
                {"4500 K", 0.3613, 0.3670, "4503", "0.0015", 0.4},
                {"5000 K", 0.3446, 0.3551, "5031", "0.0020", 0.7},
                {"5700 K", 0.3287, 0.3425, "5665", "0.0024", 1.1},
                {"6500 K", 0.3123, 0.3283, "6531", "0.0031", 2.0}};
    for (const auto& row : rows) {
        const CctDuv at = cct_duv_of(Xy{row.x, row.y});
        const std::string white = std::string("nominal ") + row.nominal;
        kSubject.exact("CCT of " + white, kNearest, "K", row.cct, at.cct_k, {0.5 + row.cut, kEnds});
        kSubject.exact("Duv of " + white, kNearest, "", row.duv, at.duv, {7e-5, kEnds});
    }
}

}  // namespace colour_test
