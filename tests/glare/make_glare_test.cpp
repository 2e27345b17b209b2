// The whole of glare on small films: what takes it away, and what it must not touch.
#include "glare/make_glare.h"

#include <doctest/doctest.h>

#include <cmath>

#include "base/parallel.h"
#include "develop/film_record.h"
#include "glare/add_spread.h"
#include "lenses/veil.h"
#include "rebalance/rebalance.h"
#include "render/render_frame.h"
#include "scene/build_scene.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

// A lamp beside the picture that shines into the lens, and one that lights the wall.
std::string set_text(const std::string& camera, const std::string& lamp_position) {
    return "[room]\nsize_m = [16, 6, 3]\nreflectance = 0.3\n"
           "[camera]\nposition = [0, 1.2, 2.5]\naim = [0, 1.2, -2]\nframe_px = [96, 64]\n"
           "focal_length_mm = 50\nf_number = 4\n" +
           camera +
           "[[fixture]]\nname = \"back\"\nform = \"spot\"\nsource = \"tungsten\"\nsource_mm = 30\n"
           "aim = [0, 1.2, 2.5]\nbeam_angle_deg = 30\npeak_cd = 20000\nposition = " +
           lamp_position +
           "\n[[fixture]]\nname = \"key\"\nform = \"spot\"\nsource = \"tungsten\"\n"
           "position = [-2, 2.5, 2]\naim = [0, 1, -3]\nbeam_angle_deg = 50\noutput_lm = 4000\n";
}

struct Shot {
    Scene scene;
    World world;
    RenderResult result;

    explicit Shot(const std::string& text) : scene(read(text)), world(scene), result(render()) {}
    GlareFrame glare() const { return make_glare(scene, world, result.film); }

  private:
    static Scene read(const std::string& text) {
        Problems problems;
        Scene scene = build_scene(
            read_set_text(text, "glare.toml", problems),
            [](const PictureSource& picture) -> Texture { throw FileError(picture.path, "none"); },
            problems);
        for (const Problem& p : problems.all()) FAIL_CHECK(to_string(p));
        return scene;
    }
    RenderResult render() const {
        RenderOptions options;
        options.passes = 2;
        options.threads = 1;
        return render_frame(scene, world, options);
    }
};

double sum_of(const std::vector<Xyz>& layer) {
    double sum = 0;
    for (const Xyz& v : layer) sum += v.y;
    return sum;
}

const GlareLamp* lamp_named(const std::string& fixture, const GlareFrame& glare) {
    for (const GlareLamp& lamp : glare.report.lamps) {
        if (lamp.fixture == fixture) return &lamp;
    }
    return nullptr;
}

const std::string kBareLens = "lens = \"normal\"\ncoating = \"none\"\nveiling_glare_percent = 0\n";
const std::string kBeside = "[2.8, 1.2, -1.5]";  // 35° off the axis, beside the picture

constexpr size_t kBack = 0;  // the first light group

}  // namespace

TEST_CASE("without a lens and a veil there is no glare") {
    const Shot shot(set_text("", kBeside));
    CHECK_FALSE(shot.glare().is_there());
}

TEST_CASE("a lamp beside the picture makes ghosts, in its own light group alone") {
    const Shot shot(set_text(kBareLens, kBeside));
    const GlareFrame glare = shot.glare();
    REQUIRE(glare.is_there());
    CHECK(sum_of(glare.layers[kBack]) > 0);
    for (size_t g = 1; g < glare.layers.size(); ++g) CHECK(sum_of(glare.layers[g]) == 0);
    REQUIRE(glare.report.lamps.size() == 1);
    CHECK(glare.report.lamps[0].fixture == "back");
    CHECK_FALSE(glare.report.lamps[0].in_picture);
    CHECK(glare.report.lamps[0].angle == doctest::Approx(std::atan(2.8 / 4.0)).epsilon(0.01));
    CHECK_FALSE(glare.report.lamps[0].ghosts.empty());
}

TEST_CASE("coated glass makes a hundredth of the ghosts of bare glass") {
    const double bare = sum_of(Shot(set_text(kBareLens, kBeside)).glare().layers[kBack]);
    const Shot coated(
        set_text("lens = \"normal\"\ncoating = \"single\"\nveiling_glare_percent = 0\n", kBeside));
    const double ratio = sum_of(coated.glare().layers[kBack]) / bare;
    CHECK(ratio > 0.003);
    CHECK(ratio < 0.06);
}

TEST_CASE("the hood that the report asks for takes away what it said") {
    const Shot shot(set_text(kBareLens, kBeside));
    const GlareFrame before = shot.glare();
    REQUIRE(before.report.lamps[0].hood_mm);
    const std::string hood = "hood_mm = " + std::to_string(*before.report.lamps[0].hood_mm) + "\n";
    const GlareFrame after = Shot(set_text(kBareLens + hood, kBeside)).glare();
    CHECK(sum_of(after.layers[kBack]) == 0);
    CHECK(after.report.lamps[0].lit_share == 0);
    CHECK(after.report.lamps[0].ghosts.empty());
}

TEST_CASE("the hood also takes away the lamps in mirrors and wet floors") {
    // The lamp is behind the camera, or hidden from it by a flag; the lens sees its image alone.
    const std::string mirror =
        "[[surface]]\nname = \"wall_back\"\nmetal = true\nroughness = 0\nreflectance = 0.9\n";
    const std::string wet =
        "[[surface]]\nname = \"floor\"\ncoat = 1\nroughness = 0\nreflectance = 0.05\n"
        "[[flag]]\nname = \"flag\"\nposition = [0, 1.2, 1.5]\naim = [0, 1.2, 3]\n"
        "size_m = [0.3, 0.3]\n";
    const struct {
        std::string name, more, position, aim;
    } sets[] = {{"wall_back", mirror, "[7, 1.2, 2.9]", "[0, 1.2, -8.5]"},
                {"floor", wet, "[0, 1.2, -1.5]", "[0, -1.2, 2.5]"}};
    for (const auto& set : sets) {
        CAPTURE(set.name);
        std::string text = set_text(kBareLens, set.position) + set.more;
        const std::string aim = "aim = [0, 1.2, 2.5]\nbeam";
        text.replace(text.find(aim), aim.size(), "aim = " + set.aim + "\nbeam");
        const GlareFrame before = Shot(text).glare();
        REQUIRE(lamp_named("back", before));
        const GlareLamp& lamp = *lamp_named("back", before);
        CHECK(lamp.way == SeenWay::kInMirror);
        CHECK(lamp.mirror == set.name);
        CHECK_FALSE(lamp.in_picture);
        CHECK(sum_of(before.layers[kBack]) > 0);
        REQUIRE(lamp.hood_mm);
        const std::string lens = "coating = \"none\"\n";
        text.replace(text.find(lens),
                     lens.size(),
                     lens + "hood_mm = " + std::to_string(*lamp.hood_mm) + "\n");
        const GlareFrame after = Shot(text).glare();
        CHECK(sum_of(after.layers[kBack]) == 0);
        REQUIRE(lamp_named("back", after));
        CHECK(lamp_named("back", after)->lit_share == 0);
        // So does making what reflects it matt.
        text = set_text(kBareLens, set.position);
        text.replace(text.find(aim), aim.size(), "aim = " + set.aim + "\nbeam");
        if (set.name == "floor") text += set.more.substr(set.more.find("[[flag]]"));
        CHECK_FALSE(lamp_named("back", Shot(text).glare()));
    }
}

TEST_CASE("bright surfaces have the veil of bare glass's ghosts, lamps have their ghosts instead") {
    // The lamp is behind the camera, so all light is that of surfaces.
    const std::string bare = "lens = \"normal\"\ncoating = \"none\"\n";
    const auto scattered = [](const GlareFrame& glare) {
        double sum = 0;
        for (const auto& layer : glare.layers) {
            for (const Xyz& v : layer) sum += std::abs(v.y);
        }
        return sum;
    };
    const Shot one(set_text(bare + "veiling_glare_percent = 1\n", "[0, 1.2, 2.9]"));
    const Shot ten(set_text(bare + "veiling_glare_percent = 10\n", "[0, 1.2, 2.9]"));
    const double ratio = scattered(one.glare()) / scattered(ten.glare());
    CHECK(ratio == doctest::Approx(one.glare().report.ghosts_index / 0.10).epsilon(0.03));
}

TEST_CASE("a small picture has the glare of a large one") {
    // Ghosts are drawn once for pictures of all sizes.
    Shot shot(set_text(kBareLens, kBeside));
    LensGlare lens_glare(shot.scene, shot.world);
    const GlareFrame large = lens_glare.of(shot.result.film);
    shot.scene.camera.width = 48;
    shot.scene.camera.height = 32;
    RenderOptions options;
    options.passes = 1;
    const GlareFrame small = lens_glare.of(render_frame(shot.scene, shot.world, options).film);
    CHECK(sum_of(small.layers[kBack]) ==
          doctest::Approx(sum_of(large.layers[kBack]) / 4).epsilon(0.02));
    const Ghost& in_small = small.report.lamps[0].ghosts[0];
    const Ghost& in_large = large.report.lamps[0].ghosts[0];
    CHECK(in_small.at.x == doctest::Approx(0.5 * in_large.at.x));
    CHECK(in_small.luminance == in_large.luminance);
}

TEST_CASE("the glare of all light groups together is the sum of their layers") {
    // All kinds at once: ghosts, stars, the veil, vignetting, a lamp in and beside the picture.
    // Only roundings, and what is guessed beyond the picture's edge, are different.
    const std::string camera =
        "lens = \"normal\"\ncoating = \"none\"\nvignetting = true\nveiling_glare_percent = 20\n";
    for (const std::string& position : {std::string("[0.5, 1.2, -1.5]"), kBeside}) {
        const Shot shot(set_text(camera, position));
        LensGlare lens_glare(shot.scene, shot.world);
        const GlareFrame apart = lens_glare.of(shot.result.film);
        const GlareFrame together = lens_glare.sum_of(shot.result.film);
        REQUIRE(together.layers.size() == 1);
        double difference = 0;
        double all = 0;
        for (size_t i = 0; i < together.layers[0].size(); ++i) {
            Xyz sum(0);
            for (const std::vector<Xyz>& layer : apart.layers) sum += layer[i];
            difference += std::abs(sum.y - together.layers[0][i].y);
            all += std::abs(sum.y);
        }
        CHECK(all > 0);
        CHECK(difference < 2e-3 * all);
    }
}

TEST_CASE("a lamp that is moved or turned as the report says makes no more ghosts") {
    const std::string hood = "hood_mm = 30\n";
    const GlareFrame before = Shot(set_text(kBareLens + hood, kBeside)).glare();
    REQUIRE_FALSE(before.report.lamps.empty());
    const GlareLamp& lamp = before.report.lamps[0];
    REQUIRE(lamp.lit_share > 0);
    REQUIRE(lamp.move_m);
    const std::string moved = "[" + std::to_string(2.8 + *lamp.move_m) + ", 1.2, -1.5]";
    const Shot shot(set_text(kBareLens + hood, moved));
    CHECK(sum_of(shot.glare().layers[kBack]) == 0);
    // Turned: the same lamp aimed that much further out.
    REQUIRE(lamp.turn_away_deg);
    const double angle = std::atan2(2.8, 4.0) - *lamp.turn_away_deg * kPi / 180;
    std::string text = set_text(kBareLens + hood, kBeside);
    const std::string aim = "aim = [0, 1.2, 2.5]\nbeam";
    const std::string away = "aim = [" + std::to_string(2.8 - std::sin(angle)) + ", 1.2, " +
                             std::to_string(-1.5 + std::cos(angle)) + "]\nbeam";
    text.replace(text.find(aim), aim.size(), away);
    CHECK(sum_of(Shot(text).glare().layers[kBack]) < 0.02 * sum_of(before.layers[kBack]));
}

TEST_CASE("a lamp's glare follows its dimmer") {
    const Shot shot(set_text(kBareLens + "vignetting = true\n", kBeside));
    const GlareFrame glare = shot.glare();
    FilmRecord record = make_film_record({.scene = shot.scene,
                                          .film = shot.result.film,
                                          .first_hits = shot.result.first_hits,
                                          .glare = &glare});
    const std::vector<Rgb> before = record.layers[kBack].glare;
    std::vector<LayerChange> changes(record.layers.size());
    for (size_t g = 0; g < changes.size(); ++g) changes[g].from = static_cast<int>(g);
    changes[kBack].relight.matrix = DMat3(0.25);
    const double lux = record.glare_report.lamps[0].lux;
    const std::vector<Fixture> fixtures = record.fixtures;
    record = rebalance(std::move(record), fixtures, changes);
    for (size_t i = 0; i < before.size(); i += 97) {
        for (int c = 0; c < 3; ++c) {
            CHECK(record.layers[kBack].glare[i][c] ==
                  doctest::Approx(0.25F * before[i][c]).epsilon(1e-4).scale(1e-6));
        }
    }
    CHECK(record.glare_report.lamps[0].lux == doctest::Approx(0.25 * lux).epsilon(1e-6));
}

TEST_CASE("the same film gives the same glare to the bit, on one thread and on two") {
    const Shot shot(set_text("lens = \"normal\"\n", "[0.3, 1.2, -1.5]"));
    const GlareFrame one = [&] {
        const ThreadLimit threads(1);
        return shot.glare();
    }();
    const GlareFrame two = [&] {
        const ThreadLimit threads(2);
        return shot.glare();
    }();
    CHECK(one.layers == two.layers);
}

TEST_CASE("the black-spot test gives back the veiling glare index that was put in") {
    // A black spot of a twentieth of the diagonal on a bright field (ISO 9358).
    Camera camera;
    camera.width = 360;
    camera.height = 240;
    const double pitch = 36.0 / camera.width;
    const Veil veil(std::hypot(36, 24));
    for (const double index : {0.005, 0.03}) {
        std::vector<XyzPlane> film(1, XyzPlane(360 * 240, Xyz(100)));
        for (int i = 0; i < 360 * 240; ++i) {
            const double r = pitch * std::hypot(i % 360 + 0.5 - 180, i / 360 + 0.5 - 120);
            if (r < veil.spot_radius()) film[0][static_cast<size_t>(i)] = Xyz(0);
        }
        std::vector<XyzPlane> layers(1, XyzPlane(360 * 240, Xyz(0)));
        add_veil(camera, {.scattered = veil.scattered_for(index)}, film, layers);
        const double in_spot = layers[0][120 * 360 + 180].y;
        const double field = 100 + layers[0][10 * 360 + 10].y;
        CHECK(in_spot / field == doctest::Approx(index).epsilon(0.02));
    }
}

TEST_CASE("an even picture that goes on beyond its edges stays as it is under a veil") {
    Camera camera;
    camera.width = 96;
    camera.height = 64;
    const std::vector<XyzPlane> film(1, XyzPlane(96 * 64, Xyz(7)));
    std::vector<XyzPlane> layers(1, XyzPlane(96 * 64, Xyz(0)));
    add_veil(camera, {.scattered = 0.05}, film, layers);
    for (const Xyz& v : layers[0]) CHECK(std::abs(v.y) < 1e-5);
}

TEST_CASE("vignetting takes light from the corners and none from the middle") {
    const std::string camera = kBareLens + "vignetting = true\n";
    std::string text = set_text(camera, "[0, 1.2, 2.9]");  // the lamp is behind the camera
    const Shot shot(text);
    const GlareFrame glare = shot.glare();
    const auto share = [&](int x, int y) {
        double light = 0;
        double change = 0;
        for (size_t g = 0; g < glare.layers.size(); ++g) {
            light += shot.result.film.resolve(y * 96 + x, static_cast<int>(g)).y;
            change += glare.layers[g][static_cast<size_t>(y * 96 + x)].y;
        }
        return change / light;
    };
    CHECK(std::abs(share(48, 32)) < 0.01);
    CHECK(share(0, 0) < -0.2);
}
