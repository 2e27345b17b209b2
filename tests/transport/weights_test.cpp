// The weights of every technique on hand-made paths (hand_made_path.h), compared with the
// definition of the balance heuristic: weight = own density / sum of all densities (Veach 1995).
#include <doctest/doctest.h>

#include <algorithm>

#include "transport/technique_weights.h"
#include "transport/weigh_techniques.h"

using namespace dapple::test;

namespace {

HandMadeVertex rough(double to_sensor = 0.31, double to_lamp = 0.23) {
    return {.pdf_to_sensor = to_sensor, .pdf_to_lamp = to_lamp};
}
HandMadeVertex shiny(double to_sensor = 6.1, double to_lamp = 4.3) {
    return {.is_shiny = true, .pdf_to_sensor = to_sensor, .pdf_to_lamp = to_lamp};
}
HandMadeVertex smooth(double to_sensor = 0.9, double to_lamp = 0.7) {
    return {.is_smooth = true,
            .is_shiny = true,
            .focuses = true,
            .keeps_photons = false,
            .pdf_to_sensor = to_sensor,
            .pdf_to_lamp = to_lamp};
}
HandMadeVertex rough_glass() {
    return {.is_shiny = true,
            .focuses = true,
            .keeps_photons = false,
            .pdf_to_sensor = 2.7,
            .pdf_to_lamp = 3.9};
}

// The edges differ and have no factor of 1, so that a missing factor changes the result.
std::vector<HandMadeEdge> edges(size_t count) {
    const std::vector<HandMadeEdge> all{{.distance = 1.3, .cos_from = 0.9, .cos_to = 0.7},
                                        {.distance = 0.4, .cos_from = 0.6, .cos_to = 0.8},
                                        {.distance = 2.1, .cos_from = 0.5, .cos_to = 0.95},
                                        {.distance = 0.9, .cos_from = 0.85, .cos_to = 0.55},
                                        {.distance = 1.7, .cos_from = 0.65, .cos_to = 0.75},
                                        {.distance = 0.6, .cos_from = 0.45, .cos_to = 0.6}};
    return {all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count)};
}

HandMadePath path(const std::string& name, std::vector<HandMadeVertex> vertices) {
    HandMadePath result;
    result.name = name;
    result.edges = edges(vertices.size() + 1);
    result.vertices = std::move(vertices);
    return result;
}

// The vertices of each path are in the order from the lamp to the sensor.
std::vector<HandMadePath> plain_paths() {
    return {path("one dull wall", {rough()}),
            path("two dull walls", {rough(), rough(0.2, 0.11)}),
            path("three dull walls", {rough(), rough(0.2, 0.11), rough(0.05, 0.3)})};
}

std::vector<HandMadePath> glass_paths() {
    return {
        path("a wall lit through glass", {smooth(), smooth(0.8, 0.6), rough()}),
        path("two walls lit through glass", {smooth(), rough(), rough(0.2, 0.11)}),
        path("a wall seen through glass", {rough(), smooth(), smooth(0.8, 0.6)}),
        path("a wall lit and seen through glass", {smooth(), rough(), smooth(0.8, 0.6)}),
        path("two walls lit and seen through glass",
             {smooth(), rough(), rough(0.2, 0.11), smooth(0.8, 0.6)}),
        path("glass alone", {smooth(), smooth(0.8, 0.6)}),
        path("a wall lit through rough glass", {rough_glass(), rough()}),
        path("a wall lit through smooth and rough glass",
             {smooth(), rough_glass(), rough(0.2, 0.11)}),
        path("a wall lit through rough glass, seen through glass",
             {rough_glass(), rough(), smooth()}),
        path("two walls lit through rough glass, seen through glass",
             {rough_glass(), rough(), rough(0.2, 0.11), smooth()}),
        path("rough glass behind a wall behind glass",
             {rough(), rough_glass(), rough(0.2, 0.11), smooth()}),
        path("a wall lit and seen through rough glass", {rough_glass(), rough(), rough_glass()})};
}

std::vector<HandMadePath> shiny_paths() {
    return {
        path("a wall reflected in varnish", {rough(), shiny()}),
        path("a wall lit through glass, reflected in varnish", {smooth(), rough(), shiny()}),
        path("varnish lit through glass, reflected in varnish", {smooth(), shiny(3, 5), shiny()}),
        path("a wall lit through glass, reflected in varnish behind glass",
             {smooth(), rough(), shiny(), smooth(0.8, 0.6)}),
        path("a wall lit through glass, reflected twice in varnish",
             {smooth(), rough(), shiny(3, 5), shiny()}),
        path("two walls lit through glass, reflected in varnish",
             {smooth(), rough(), rough(0.2, 0.11), shiny()}),
        path("varnish, glass, wall, varnish", {shiny(), smooth(), rough(), shiny(3, 5)})};
}

// Paths whose first vertex is on lit cloth.
std::vector<HandMadePath> cloth_paths() {
    std::vector<HandMadePath> all{
        path("lit cloth that the sensor sees", {rough()}),
        path("a wall lit by cloth", {rough(), rough(0.2, 0.11)}),
        path("two walls lit by cloth", {rough(), rough(0.2, 0.11), rough()}),
        path("varnish lit by cloth, behind glass", {rough(), shiny(), smooth(0.8, 0.6)}),
        path("cloth seen through glass", {rough(), smooth()})};
    for (HandMadePath& p : all) p.sheet_density = 7;
    return all;
}

// Each path as it is, with a point lamp, with surfaces that walks pass straight through, and with
// soft splats.
std::vector<HandMadePath> with_variants(const std::vector<HandMadePath>& paths) {
    std::vector<HandMadePath> all = paths;
    for (const HandMadePath& p : paths) {
        HandMadePath point = p;
        point.name += ", point lamp";
        point.point_lamp = true;
        point.pdf_lamp_point = 1;
        all.push_back(point);
        HandMadePath passing = p;
        passing.name += ", with surfaces to pass straight on every edge";
        for (size_t i = 0; i < passing.edges.size(); ++i) {
            passing.edges[i].passes = 0.3 + 0.1 * static_cast<double>(i);
        }
        all.push_back(passing);
        HandMadePath soft = p;
        soft.name += ", soft splats";
        soft.soft_weight = 37;
        all.push_back(soft);
        HandMadePath asking = p;
        asking.name += ", not all lamps and cloths asked";
        asking.asks_lamp_first = 0.7;
        asking.asks_lamp_later = 0.11;
        asking.asks_sheet_first = 0.4;
        asking.asks_sheet_later = 0.23;
        all.push_back(asking);
        HandMadePath connected = asking;
        connected.name += ", with connections to stored vertices";
        connected.inner_density = 0.03;
        connected.stored_flux = 2.7;
        all.push_back(connected);
        for (size_t i = 0; i < connected.edges.size(); ++i) {
            connected.edges[i].passes = 0.35 + 0.1 * static_cast<double>(i);
        }
        connected.name += " and surfaces to pass straight";
        connected.soft_weight = 5;
        all.push_back(connected);
    }
    return all;
}

std::vector<HandMadePath> lens_paths() {
    std::vector<HandMadePath> all;
    for (const auto& family : {plain_paths(), glass_paths(), shiny_paths(), cloth_paths()}) {
        for (const HandMadePath& p : with_variants(family)) all.push_back(p);
    }
    return all;
}

// With a receptor of some size and with a point receptor.
std::vector<HandMadePath> meter_paths() {
    std::vector<HandMadePath> all = lens_paths();
    for (HandMadePath& p : with_variants({path("straight from the lamp", {})})) all.push_back(p);
    const size_t count = all.size();
    for (size_t i = 0; i < count; ++i) {
        all[i].at_meter = true;
        HandMadePath point = all[i];
        point.name += ", point receptor";
        point.point_receptor = true;
        all.push_back(point);
    }
    return all;
}

// The recursion consists of some dozens of float operations, each rounded by 6e-8.
constexpr double kRounding = 2e-5;

void check_weights(const HandMadePath& p) {
    CAPTURE(p.name);
    const std::vector<WeighedTechnique> all = weigh_all_techniques(p);
    double densities = 0;
    double weights = 0;
    for (const WeighedTechnique& t : all) {
        densities += t.density;
        weights += t.weight;
    }
    // No technique finds a point lamp through smooth glass alone.
    if (all.empty()) return;
    CHECK(weights == doctest::Approx(1).epsilon(kRounding));
    for (const WeighedTechnique& t : all) {
        CAPTURE(t.name);
        CHECK(t.weight == doctest::Approx(t.density / densities).epsilon(kRounding).scale(1e-6));
    }
}

}  // namespace

TEST_CASE("on a path to the lens each technique has its share of all densities as weight") {
    for (const HandMadePath& p : lens_paths()) check_weights(p);
}

TEST_CASE("on a path to a meter each technique has its share of all densities as weight") {
    for (const HandMadePath& p : meter_paths()) check_weights(p);
}

TEST_CASE("every technique makes more than five of the hand-made paths") {
    // Otherwise the checks above could pass because a technique is missing.
    std::vector<std::string> names;
    for (const auto& family : {lens_paths(), meter_paths()}) {
        for (const HandMadePath& p : family) {
            for (const WeighedTechnique& t : weigh_all_techniques(p)) names.push_back(t.name);
        }
    }
    for (const char* name : {"lamp met",
                             "lamp sampled",
                             "cloth sampled",
                             "cloth sampled at the receptor",
                             "joined to the sensor",
                             "photons merged at vertex 2",
                             "stored vertex connected",
                             "lamp sampled at the receptor",
                             "fallen on the receptor"}) {
        CAPTURE(name);
        CHECK(std::count(names.begin(), names.end(), std::string(name)) > 5);
    }
}
