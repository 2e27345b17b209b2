// Prisms: their deviation, least where light passes symmetrically, and their dispersion.
#include <doctest/doctest.h>

#include <cmath>

#include "published/published.h"
#include "published/traced.h"

namespace prism_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Prisms");
const char* const kHecht = "Hecht, Optics";

// The apex is up; the base is in y = 0 from x = -0.1 to 0.1 m.
Scene prism_scene(double apex_degrees, GlassType glass) {
    const double height = 0.1 / std::tan(0.5 * radians_from_degrees(apex_degrees));
    Scene scene = solid_scene({Vec2(-0.1F, 0), Vec2(0.1F, 0), Vec2(0, height)}, 0.1F);
    scene.materials[0].glass = glass;
    return scene;
}

// A prism of one apex angle. Light enters it in the middle of its left face, from the side of the
// base.
struct Prism {
    double apex;  // degrees
    Bench bench;
    float index = kCatalogueIndex;
    int hero = 0;

    Prism(double apex_degrees, float n)
        : apex(apex_degrees),
          bench(prism_scene(apex_degrees, GlassType::kSilica), kAnyWavelength),
          index(n) {}
    Prism(double apex_degrees, GlassType glass, const Wavelengths& wavelengths)
        : apex(apex_degrees), bench(prism_scene(apex_degrees, glass), wavelengths) {}

    Passage meet(double incidence) const {
        const glm::dvec3 direction = heading(incidence - 0.5 * apex);
        const double height = 0.1 / std::tan(0.5 * radians_from_degrees(apex));
        const glm::dvec3 middle(-0.05, 0.5 * height, 0);
        Walk walk = Bench::walk(Point(middle - 0.3 * direction), direction);
        walk.light.hero = hero;
        const auto passage = pass_through(bench, walk, index);
        REQUIRE(passage.has_value());
        return *passage;
    }

    double deviation(double incidence) const {
        return degrees_between(meet(incidence).direction, heading(incidence - 0.5 * apex));
    }

    // The incidence at which light leaves at the angle of its entry: there the deviation is least.
    double symmetrical_incidence() const {
        double low = 15;
        double high = 80;
        while (high - low > 1e-6) {
            const double middle = 0.5 * (low + high);
            const glm::dvec3 face = heading(0.5 * apex);
            const double leaves = degrees_between(meet(middle).direction, face);
            (leaves > middle ? low : high) = middle;
        }
        return 0.5 * (low + high);
    }
};

}  // namespace

TEST_CASE("a prism's least deviation is the published angle") {
    struct Row {
        double apex;
        const char* index;
        const char* least;
        const char* incidence;  // empty: not printed
    };
    for (const Row& row : {Row{60, "1.5", "37.1808", "48.5904"},
                           Row{60, "1.52", "38.9284", "49.4642"},
                           Row{45, "1.52", "26.1374", ""},
                           Row{30, "1.52", "16.3331", ""}}) {
        const Prism prism(row.apex, std::stof(row.index));
        const double incidence = prism.symmetrical_incidence();
        const double least = prism.deviation(incidence);
        const std::string of =
            " of a prism of " + figure(row.apex) + "°, n = " + std::string(row.index);
        kSubject.exact("Least deviation" + of, kHecht, "°", row.least, least);
        if (*row.incidence) {
            kSubject.exact(
                "Incidence at least deviation" + of, kHecht, "°", row.incidence, incidence);
        }
        for (const double aside : {-5.0, -1.0, 1.0, 5.0}) {
            CHECK(prism.deviation(incidence + aside) > least);
        }
    }
}

TEST_CASE("away from its least deviation a prism turns light by the published angles") {
    const Prism prism(60, 1.52F);
    const char* const rows[][2] = {{"45", "39.2617"}, {"50", "38.9328"}, {"60", "40.4505"}};
    for (const auto& [incidence, deviation] : rows) {
        kSubject.exact(
            "Deviation by a prism of 60°, n = 1.52, met at " + std::string(incidence) + "°",
            kHecht,
            "°",
            deviation,
            prism.deviation(std::stod(incidence)));
    }
}

// Borosilicate crown 517-642, whose dispersion formula is public (Polyanskiy 2024). The catalogue
// has no such glass, so each line has the index of the formula.
TEST_CASE("a prism of borosilicate crown turns the lines by the published angles") {
    struct Row {
        const char* line;
        float index;
        const char* deviation;
    };
    double blue = 0;
    double red = 0;
    for (const Row& row : {Row{"g", 1.5266846F, "39.5225"},
                           Row{"F", 1.5223763F, "39.1390"},
                           Row{"d", 1.5168000F, "38.6467"},
                           Row{"C", 1.5143223F, "38.4293"}}) {
        const double deviation = Prism(60, row.index).deviation(49.3233);
        kSubject.exact("Deviation of line " + std::string(row.line) +
                           " by a prism of 60°, glass 517-642, met at 49.3233°",
                       kHecht,
                       "°",
                       row.deviation,
                       deviation);
        if (*row.line == 'F') blue = deviation;
        if (*row.line == 'C') red = deviation;
    }
    const Allowance difference{1e-4, "the difference of two figures of four decimals"};
    kSubject.exact(
        "Lines F and C apart, glass 517-642", kHecht, "°", "0.7097", blue - red, difference);
    kSubject.exact("Lines F and C apart, glass 517-642, per metre of throw",
                   kHecht,
                   "mm",
                   "12.39",
                   1e3 * std::tan(radians_from_degrees(blue - red)));
}

// A glass of the catalogue: eight wavelengths enter together, and only the hero continues. Figures
// by 2 arcsin(n sin 30°) - 60° with n from the dispersion formula of glass 548-458.
TEST_CASE("in a prism of lead crystal the walk's hero wavelength is turned by its own index") {
    Wavelengths lines = all_at(550);
    const char* const least[] = {"42.8269", "42.2055", "41.4416", "41.1187"};
    const char* const names[] = {"435.8 nm", "line F", "line d", "line C"};
    const double nm[] = {435.8, 486.1327, 587.5618, 656.2725};
    for (int i = 0; i < 4; ++i) lines.nm[i] = static_cast<float>(nm[i]);
    Prism prism(60, GlassType::kLeadCrystal, lines);
    for (int i = 0; i < 4; ++i) {
        prism.hero = i;
        kSubject.exact(
            "Least deviation of " + std::string(names[i]) + " by a prism of 60° of lead crystal",
            "Hecht, Optics; dispersion formula, Polyanskiy 2024",
            "°",
            least[i],
            prism.deviation(prism.symmetrical_incidence()));
    }
}

}  // namespace prism_test
