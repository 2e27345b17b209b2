// The weights of every technique on paths made by hand (hand_made_path.h), against the balance
// heuristic by its definition: weight = own density / sum of all densities (Veach 1995).
#include "transport/weights.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "transport/hand_made_path.h"

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
            .keeps_photons = false,
            .pdf_to_sensor = to_sensor,
            .pdf_to_lamp = to_lamp};
}
HandMadeVertex rough_glass() {
    return {.is_shiny = true, .keeps_photons = false, .pdf_to_sensor = 2.7, .pdf_to_lamp = 3.9};
}

// Unequal edges, so that no factor can hide behind a 1.
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

std::vector<HandMadePath> plain_paths() {
    return {path("one dull wall", {rough()}),
            path("two dull walls", {rough(), rough(0.2, 0.11)}),
            path("three dull walls", {rough(), rough(0.2, 0.11), rough(0.05, 0.3)})};
}

std::vector<HandMadePath> glass_paths() {
    return {path("through glass to a wall", {smooth(), smooth(0.8, 0.6), rough()}),
            path("through glass over a wall to a wall", {smooth(), rough(), rough(0.2, 0.11)}),
            path("a wall seen through glass", {rough(), smooth(), smooth(0.8, 0.6)}),
            path("broken light seen through glass", {smooth(), rough(), smooth(0.8, 0.6)}),
            path("broken light over a wall, seen through glass",
                 {smooth(), rough(), rough(0.2, 0.11), smooth(0.8, 0.6)}),
            path("glass alone", {smooth(), smooth(0.8, 0.6)}),
            path("rough glass before a wall", {rough_glass(), rough()}),
            path("broken light through rough glass to a wall",
                 {smooth(), rough_glass(), rough(0.2, 0.11)})};
}

std::vector<HandMadePath> shiny_paths() {
    return {path("a wall in varnish", {rough(), shiny()}),
            path("broken light in varnish", {smooth(), rough(), shiny()}),
            path("broken light on varnish in varnish", {smooth(), shiny(3, 5), shiny()}),
            path("broken light in varnish behind glass",
                 {smooth(), rough(), shiny(), smooth(0.8, 0.6)}),
            path("broken light in varnish in varnish", {smooth(), rough(), shiny(3, 5), shiny()}),
            path("broken light over two walls in varnish",
                 {smooth(), rough(), rough(0.2, 0.11), shiny()}),
            path("varnish, glass, wall, varnish", {shiny(), smooth(), rough(), shiny(3, 5)})};
}

// The first vertex is on lit cloth.
std::vector<HandMadePath> cloth_paths() {
    std::vector<HandMadePath> all{
        path("lit cloth that the sensor sees", {rough()}),
        path("a wall lit by cloth", {rough(), rough(0.2, 0.11)}),
        path("two walls behind cloth", {rough(), rough(0.2, 0.11), rough()}),
        path("varnish lit by cloth, behind glass", {rough(), shiny(), smooth(0.8, 0.6)}),
        path("cloth seen through glass", {rough(), smooth()})};
    for (HandMadePath& p : all) p.sheet_density = 7;
    return all;
}

// Each path again with a point lamp, with straight passing, with soft splats.
std::vector<HandMadePath> with_variants(const std::vector<HandMadePath>& paths) {
    std::vector<HandMadePath> all = paths;
    for (const HandMadePath& p : paths) {
        HandMadePath point = p;
        point.name += ", point lamp";
        point.point_lamp = true;
        point.pdf_asked = 1;
        all.push_back(point);
        HandMadePath passing = p;
        passing.name += ", straight through a net on every edge";
        for (size_t i = 0; i < passing.edges.size(); ++i) {
            passing.edges[i].passes = 0.3 + 0.1 * static_cast<double>(i);
        }
        all.push_back(passing);
        HandMadePath soft = p;
        soft.name += ", soft splats";
        soft.soft_weight = 37;
        all.push_back(soft);
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

std::vector<HandMadePath> meter_paths() {
    std::vector<HandMadePath> all = lens_paths();
    all.push_back(path("straight from the lamp", {}));
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

// The recursion is some dozens of float operations long, 6e-8 each.
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
    // Nothing finds a point lamp through glass alone.
    if (all.empty()) return;
    CHECK(weights == doctest::Approx(1).epsilon(kRounding));
    for (const WeighedTechnique& t : all) {
        CAPTURE(t.name);
        CHECK(t.weight == doctest::Approx(t.density / densities).epsilon(kRounding).scale(1e-6));
    }
}

}  // namespace

TEST_CASE("over all techniques the weights of one path to the lens sum to 1") {
    for (const HandMadePath& p : lens_paths()) check_weights(p);
}

TEST_CASE("over all techniques the weights of one path to a meter sum to 1") {
    for (const HandMadePath& p : meter_paths()) check_weights(p);
}

TEST_CASE("paths made by hand are made by every technique") {
    // Otherwise the sums above would hold for want of anything to sum.
    std::vector<std::string> names;
    for (const auto& family : {lens_paths(), meter_paths()}) {
        for (const HandMadePath& p : family) {
            for (const WeighedTechnique& t : weigh_all_techniques(p)) names.push_back(t.name);
        }
    }
    for (const char* name : {"lamp met",
                             "lamp asked",
                             "cloth asked",
                             "cloth asked at the receptor",
                             "joined to the sensor",
                             "photons merged at vertex 2",
                             "lamp asked at the receptor",
                             "fallen on the receptor"}) {
        CAPTURE(name);
        CHECK(std::count(names.begin(), names.end(), std::string(name)) > 5);
    }
}
