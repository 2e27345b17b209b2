// The same seed and the same passes make the same film to the bit.
#include <doctest/doctest.h>

#include <sstream>

#include "film/checkpoint.h"
#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

RenderOptions options_for(int passes, int threads) {
    RenderOptions options;
    options.passes = passes;
    options.threads = threads;
    return options;
}

// What the film keeps for the clean frame.
void check_same_noise(const Film& a, const Film& b) {
    CHECK(a.state().walk_differences == b.state().walk_differences);
    CHECK(a.state().other_light == b.state().other_light);
    CHECK(a.state().odd_other_light == b.state().odd_other_light);
    CHECK(a.state().brightest_pass == b.state().brightest_pass);
    CHECK(a.state().colour_sums == b.state().colour_sums);
}

}  // namespace

TEST_CASE("one, two and three threads make the same film") {
    const Scene scene = room_with_everything();
    const World world(scene);
    const RenderResult one = render_frame(scene, world, options_for(3, 1));
    for (const int threads : {2, 3}) {
        const RenderResult more = render_frame(scene, world, options_for(3, threads));
        CHECK(more.film.sums() == one.film.sums());
        CHECK(more.film.state().luminance_squares == one.film.state().luminance_squares);
        check_same_noise(more.film, one.film);
        CHECK(more.rays == one.rays);
    }
}

TEST_CASE("another seed makes another film") {
    const Scene scene = room_with_everything();
    const World world(scene);
    RenderOptions options = options_for(1, 0);
    const RenderResult a = render_frame(scene, world, options);
    options.seed = 2;
    const RenderResult b = render_frame(scene, world, options);
    CHECK(a.film.sums() != b.film.sums());
}

TEST_CASE("a film that is saved and resumed equals the film of one run") {
    const Scene scene = room_with_everything();
    const World world(scene);
    const RenderResult whole = render_frame(scene, world, options_for(4, 0));
    const RenderResult half = render_frame(scene, world, options_for(2, 0));

    std::stringstream saved;
    write_checkpoint(
        half.film.state(), half.meters.state(), 77, [&](const void* data, size_t size) {
            saved.write(static_cast<const char*>(data), static_cast<std::streamsize>(size));
        });
    const std::string bytes = saved.str();
    std::istringstream complete(bytes);
    RenderOptions options = options_for(4, 0);
    options.resume_from = std::get<Checkpoint>(read_checkpoint(complete, 77));
    const RenderResult resumed = render_frame(scene, world, options);
    CHECK(resumed.film.sums() == whole.film.sums());
    check_same_noise(resumed.film, whole.film);
    CHECK(resumed.film.frame_luminance().stderr_of_mean ==
          whole.film.frame_luminance().stderr_of_mean);

    const auto found = [](const std::string& text, uint64_t fingerprint) {
        std::istringstream in(text);
        return std::get<NoCheckpoint>(read_checkpoint(in, fingerprint));
    };
    CHECK(found(bytes, 78) == NoCheckpoint::kOther);
    CHECK(found(bytes.substr(0, bytes.size() - 5), 77) == NoCheckpoint::kDamaged);
    CHECK(found("", 77) == NoCheckpoint::kDamaged);
    // One bit anywhere.
    for (size_t at = 100; at < bytes.size(); at += bytes.size() / 7) {
        std::string damaged = bytes;
        damaged[at] = static_cast<char>(damaged[at] ^ 1);
        CHECK(found(damaged, 77) == NoCheckpoint::kDamaged);
    }
}
