#include "page/light_parcel.h"

#include <doctest/doctest.h>

#include <cstring>
#include <nlohmann/json.hpp>

#include "math/half.h"

using namespace dapple;

namespace {

FilmRecord grey_film(int width, int height) {
    FilmRecord film;
    film.camera.width = width;
    film.camera.height = height;
    for (int g = 0; g < 2; ++g) {
        film.fixtures.emplace_back();
        film.fixtures.back().name = g == 0 ? "key" : "fill";
        LightLayer layer{"l", "l", g, {}, {}};
        for (int i = 0; i < width * height; ++i) {
            layer.clean.emplace_back(static_cast<float>(i + 100 * g));
        }
        layer.light = layer.clean;
        film.layers.push_back(layer);
    }
    return film;
}

float half_at(const std::string& halves, size_t i) {
    uint16_t half = 0;
    std::memcpy(&half, halves.data() + 2 * i, 2);
    return float_of_half(half);
}

}  // namespace

TEST_CASE("a parcel holds each layer's light, red, green and blue of each pixel") {
    const LightParcel parcel = make_light_parcel(grey_film(4, 2), 1000);
    REQUIRE(parcel.halves.size() == 2 * 8 * 3 * 2);
    CHECK(half_at(parcel.halves, 3 * 5 + 1) == 5.0F);
    CHECK(half_at(parcel.halves, 24 + 3 * 7 + 2) == 107.0F);
    const auto json = nlohmann::json::parse(parcel.json);
    CHECK(json["width"] == 4);
    CHECK(json["fixtures"][1]["name"] == "fill");
}

TEST_CASE("a parcel that is too large has means over squares of pixels") {
    const LightParcel parcel = make_light_parcel(grey_film(4, 2), 30);
    REQUIRE(parcel.halves.size() == 2 * 2 * 3 * 2);
    CHECK(half_at(parcel.halves, 0) == (0 + 1 + 4 + 5) / 4.0F);
    CHECK(nlohmann::json::parse(parcel.json)["height"] == 1);
}
