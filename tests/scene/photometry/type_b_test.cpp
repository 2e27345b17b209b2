// Floodlights of type B become directions from the axis.
#include "scene/photometry/type_b.h"

#include "scene/photometry/photometric_files.h"
#include "scene/photometry/photometry_flux.h"

using namespace dapple;
using namespace dapple::test;

namespace {

std::string list_of(const std::vector<double>& angles) {
    std::string text;
    for (const double angle : angles) text += std::to_string(angle) + "\n";
    return text;
}

std::vector<double> every(double step, double first) {
    std::vector<double> angles;
    for (double a = first; a <= 90; a += step) angles.push_back(a);
    return angles;
}

// `candela(V, H)`, degrees.
template <class F>
std::string type_b_ies(const std::vector<double>& v, const std::vector<double>& h, F candela) {
    std::string text = "IES:LM-63-2019\nTILT=NONE\n1 -1 1 " + std::to_string(v.size()) + " " +
                       std::to_string(h.size()) + " 2 2 0.3 0.2 0\n1 1 400\n" + list_of(v) +
                       list_of(h);
    for (const double horizontal : h) {
        for (const double vertical : v)
            text += std::to_string(candela(vertical, horizontal)) + "\n";
    }
    return text;
}

Photometry table_of(const std::string& ies, size_t notes) {
    WrittenSet set;
    const Fixture f = fixture_of(set, "flood.ies", ies);
    CHECK(set.notes().size() == notes);
    return f.photometry.value();
}

struct Peak {
    double azimuth = 0, polar = 0, candela = 0;  // degrees
};

Peak peak_of(const Photometry& p) {
    Peak peak;
    for (size_t a = 0; a < p.azimuth.size(); ++a) {
        for (size_t i = 0; i < p.polar.size(); ++i) {
            if (p.at(a, i) <= peak.candela) continue;
            peak = {
                degrees_from_radians(p.azimuth[a]), degrees_from_radians(p.polar[i]), p.at(a, i)};
        }
    }
    return peak;
}

double spot(double v, double h) {
    return 1000 * std::exp(-(v * v + h * h) / 50);
}

}  // namespace

TEST_CASE("a beam of type B that is aimed up and to the right is found there") {
    const auto beam = [](double v, double h) { return spot(v - 20, h - 30); };
    const Peak peak = peak_of(table_of(type_b_ies(every(1, -90), every(1, -90), beam), 0));
    // E10: right sin 30, up sin 20 cos 30, ahead cos 20 cos 30. With the axis upright (type A) the
    // azimuth would be 36.1 degrees. The table has steps of a degree.
    CHECK(std::abs(peak.polar - 35.53) < 1);
    CHECK(std::abs(peak.azimuth - 30.64) < 1);
    CHECK(peak.candela == doctest::Approx(1000).epsilon(0.02));
}

TEST_CASE("up is up and right is right in type B") {
    const auto up = [](double v, double h) { return spot(v - 40, h); };
    const auto left = [](double v, double h) { return spot(v, h + 40); };
    CHECK(peak_of(table_of(type_b_ies(every(2, -90), every(2, -90), up), 0)).azimuth ==
          doctest::Approx(90));
    CHECK(peak_of(table_of(type_b_ies(every(2, -90), every(2, -90), left), 0)).azimuth ==
          doctest::Approx(180));
}

TEST_CASE("sides that type B leaves out are the same as those that it has, with a note") {
    const auto beam = [](double v, double h) { return spot(v - 10, std::abs(h) - 20); };
    const Photometry whole = table_of(type_b_ies(every(2, -90), every(2, -90), beam), 0);
    const Photometry half = table_of(type_b_ies(every(2, -90), every(2, 0), beam), 1);
    REQUIRE(half.candela.size() == whole.candela.size());
    for (size_t i = 0; i < half.candela.size(); ++i) {
        REQUIRE(half.candela[i] == doctest::Approx(whole.candela[i]).epsilon(1e-9));
    }
}

TEST_CASE("the lumens of type B stay the same: the integral over V and H is cos H dV dH") {
    const auto beam = [](double v, double h) { return spot(v - 20, h - 30) + spot(v / 8, h / 8); };
    double lumens = 0;
    constexpr double kStep = 0.25;  // degrees; the midpoint rule is then exact to 1e-4
    for (double v = -90 + kStep / 2; v < 90; v += kStep) {
        for (double h = -90 + kStep / 2; h < 90; h += kStep) {
            lumens += beam(v, h) * std::cos(radians_from_degrees(h)) *
                      square(static_cast<float>(radians_from_degrees(kStep)));
        }
    }
    const Photometry p = table_of(type_b_ies(every(1, -90), every(1, -90), beam), 0);
    // Linear interpolation in steps of a degree, of a beam with a width of seven: 0.3 %.
    CHECK(lumens_of(p) == doctest::Approx(lumens).epsilon(5e-3));
}

TEST_CASE("candela that contradict the declared lumens are noted, others are not") {
    const auto notes = [](double percent, double share) {
        LdtOptions options;
        WrittenSet set;
        const std::string ldt = ldt_text(options, [&](double c, double gamma) {
            return share * lambertian_per_thousand(c, gamma);
        });
        const std::string head = "\r\n100\r\n100\r\n1.0\r\n";
        fixture_of(set,
                   "a.ldt",
                   replaced(ldt, head, "\r\n100\r\n" + std::to_string(percent) + "\r\n1.0\r\n"));
        return set.notes();
    };
    CHECK(notes(100, 1).empty());
    CHECK(notes(80, 0.75).empty());
    REQUIRE(notes(80, 0.5).size() == 1);
    CHECK(notes(80, 0.5)[0] ==
          "a.ldt:23: the candela add up to 50 % of the lamps' lumens; the file says 80 %; the "
          "candela are used");
    CHECK(notes(100, 1.3).size() == 1);
    CHECK(notes(0, 1.3).size() == 1);
    CHECK(notes(0, 0.4).empty());
}
