// The choice of stored vertices (E95).
#include "transport/connection_table.h"

#include <doctest/doctest.h>

#include "transport/stored_vertices.h"

using namespace dapple;

namespace {

// Three light cells and one receiver cell.
ConnectionTable make_table(double kept) {
    SurfaceCells receivers(1, 4);
    receivers.add(Point(0, 0, 0), {0, 1, 0});
    ConnectionTable::LightCells lights{.cells = SurfaceCells(1, 4),
                                       .expected = {100, 10, 1},
                                       .flux = {50, 20, 4},
                                       .fixture_flux = {0.5, 2}};
    for (int i = 0; i < 3; ++i) {
        lights.cells.add(Point(static_cast<float>(3 * i), 2, 0), {0, 1, 0});
    }
    ConnectionTable table(receivers, lights, kept);
    table.set(0, std::vector<double>{1, 6, 3});
    return table;
}

}  // namespace

TEST_CASE("cells are drawn with their probability, and the rest is a new uniform number") {
    const ConnectionTable table = make_table(1000);
    const double expected[] = {0.1, 0.6, 0.3};
    double drawn[3] = {0, 0, 0};
    double rest = 0;
    constexpr int kSteps = 10000;
    for (int k = 0; k < kSteps; ++k) {
        float within = -1;
        const int cell = table.sample(0, (static_cast<float>(k) + 0.5F) / kSteps, within);
        drawn[cell] += 1.0 / kSteps;
        rest += static_cast<double>(within) / kSteps;
        CHECK(within >= 0);
        CHECK(within < 1);
    }
    for (int i = 0; i < 3; ++i) {
        CHECK(drawn[i] == doctest::Approx(expected[i]).epsilon(0.001));
        CHECK(table.probability(0, i) == doctest::Approx(expected[i]));
    }
    CHECK(rest == doctest::Approx(0.5).epsilon(0.001));
}

TEST_CASE("the density of a connection is P / Φ, and 0 where there is no cell") {
    const ConnectionTable table = make_table(1000);
    CHECK(table.density(0, 1) == doctest::Approx(0.6 / 20));
    CHECK(table.density(0, -1) == 0);
    CHECK(table.density(-1, 1) == 0);
    CHECK(table.stored_flux(1) == 2);
    CHECK(table.light_cell(Point(3, 2, 0), {0, -1, 0}) == 1);
    CHECK(table.receiver_cell(Point(3, 2, 0), {0, 1, 0}) == -1);
}

TEST_CASE(
    "vertices are stored in proportion to their flux, as many in each cell as there is room") {
    // 21 for three cells: 1 of the third, 10 of each other.
    const ConnectionTable table = make_table(21);
    CHECK(table.kept_share(0, 0.5F) == doctest::Approx(0.1));  // the mean flux, 100 vertices
    CHECK(table.kept_share(0, 1.0F) == doctest::Approx(0.2));
    CHECK(table.kept_share(0, 50.0F) == 1);
    CHECK(table.kept_share(1, 2.0F) == doctest::Approx(1));    // the mean flux, 10 vertices
    CHECK(table.kept_share(2, 2.0F) == doctest::Approx(0.5));  // half the mean flux
}

TEST_CASE("stored vertices are sorted by cell and keep their order within it") {
    std::vector<StoredVertexList> blocks(2);
    const auto add = [&](size_t block, int16_t cell, int16_t edge) {
        StoredVertex v;
        v.light_cell = cell;
        v.edge = edge;
        blocks[block].push_back(v);
    };
    add(0, 2, 1);
    add(0, 0, 2);
    add(1, 2, 3);
    add(1, 0, 4);
    const StoredVertices stored(blocks, 3);
    REQUIRE(stored.in_cell(0).size() == 2);
    CHECK(stored.in_cell(0)[0].edge == 2);
    CHECK(stored.in_cell(0)[1].edge == 4);
    CHECK(stored.in_cell(1).empty());
    REQUIRE(stored.in_cell(2).size() == 2);
    CHECK(stored.in_cell(2)[0].edge == 1);
    CHECK(stored.in_cell(2)[1].edge == 3);
}
