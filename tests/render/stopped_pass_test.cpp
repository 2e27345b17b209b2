// Passes that are stopped before they end: by a report, or by the time limit.
#include <doctest/doctest.h>

#include <limits>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"
#include "render/work_watch.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// on_part is called for every block.
RenderOptions options_for(int passes) {
    RenderOptions options;
    options.passes = passes;
    options.part_every_s = 0;
    return options;
}

// Stops in the camera walks of a pass, after this share of them.
std::function<bool(const WorkPart&)> stop_in_camera_walks(int pass, double share) {
    return [=](const WorkPart& part) {
        return part.pass != pass || part.step != WorkStep::kCameraWalks || part.share < share;
    };
}

}  // namespace

TEST_CASE("a pass that is stopped leaves the film of the passes before it") {
    const Scene scene = room_with_everything();
    const World world(scene);
    const RenderResult two = render_frame(scene, world, options_for(2));
    RenderOptions options = options_for(4);
    for (const WorkStep step : {WorkStep::kLightWalks, WorkStep::kCameraWalks}) {
        int calls_after_stop = -1;
        options.on_part = [&](const WorkPart& part) {
            const bool stops = part.pass == 3 && part.step == step && part.share >= 0.5;
            if (stops || calls_after_stop >= 0) ++calls_after_stop;
            return !stops;
        };
        const RenderResult stopped = render_frame(scene, world, options);
        CHECK(stopped.stopped_early);
        CHECK(stopped.first_pass_share == 1);
        CHECK(calls_after_stop == 0);
        CHECK(stopped.film.passes() == 2);
        CHECK(stopped.film.sums() == two.film.sums());
        CHECK(stopped.film.state().luminance_squares == two.film.state().luminance_squares);
        CHECK(stopped.film.state().frame_passes == two.film.state().frame_passes);
        CHECK(stopped.meters.passes() == 2);
        CHECK(stopped.meters.state().sums == two.meters.state().sums);
    }
}

TEST_CASE("a first pass from coarse to fine has the same bits") {
    const Scene scene = room_with_everything();
    const World world(scene);
    const RenderResult by_rows = render_frame(scene, world, options_for(2));
    RenderOptions options = options_for(2);
    options.finishes_first_pass = false;
    const RenderResult by_lattice = render_frame(scene, world, options);
    CHECK(by_lattice.film.sums() == by_rows.film.sums());
    CHECK(by_lattice.film.state().luminance_squares == by_rows.film.state().luminance_squares);
}

TEST_CASE("a first pass that is stopped in its camera walks shows the frame") {
    const Scene scene = room_without_glass();
    const World world(scene);
    const RenderResult whole = render_frame(scene, world, options_for(1));
    RenderOptions options = options_for(1);
    options.threads = 1;
    options.finishes_first_pass = false;
    options.on_part = stop_in_camera_walks(1, 0.5);
    const RenderResult part = render_frame(scene, world, options);
    CHECK(part.stopped_early);
    CHECK(part.progress.passes == 0);
    CHECK(part.first_pass_share > 0.3);
    CHECK(part.first_pass_share < 0.7);
    int same = 0;
    for (int i = 0; i < part.film.pixels(); ++i) {
        CHECK(part.film.resolve(i).y > 0);
        if (part.film.resolve(i) == whole.film.resolve(i)) ++same;
    }
    // Pixels that are traced have their own sums; a few others happen to have equal ones.
    CHECK(same >= part.first_pass_share * part.film.pixels());
    CHECK(same < 0.8 * part.film.pixels());
    // The means are those of half of the pixels, with the noise of one pass.
    CHECK(part.film.frame_luminance().mean ==
          doctest::Approx(whole.film.frame_luminance().mean).epsilon(0.1));
    CHECK(part.film.region_luminance(0).mean ==
          doctest::Approx(whole.film.region_luminance(0).mean).epsilon(0.2));
}

TEST_CASE("a first pass that is stopped before it can show the frame has no result") {
    const Scene scene = room_without_glass();
    const World world(scene);
    RenderOptions options = options_for(1);
    options.on_part = stop_in_camera_walks(1, 0.5);  // the pixels are taken row by row
    CHECK_THROWS_AS(render_frame(scene, world, options), StoppedWork);
    options.finishes_first_pass = false;
    options.on_part = [](const WorkPart& part) { return part.step != WorkStep::kLightWalks; };
    CHECK_THROWS_AS(render_frame(scene, world, options), StoppedWork);
    options.on_part = [](const WorkPart& part) { return part.step != WorkStep::kFirstHits; };
    CHECK_THROWS_AS(render_frame(scene, world, options), StoppedWork);
}

TEST_CASE("a time limit finishes the first pass unless it need not") {
    const Scene scene = room_without_glass();
    const World world(scene);
    RenderOptions options = options_for(0);
    options.seconds = 1e-6;
    CHECK(render_frame(scene, world, options).film.passes() == 1);
    options.finishes_first_pass = false;
    CHECK_THROWS_AS(render_frame(scene, world, options), StoppedWork);
}

TEST_CASE("blocks of work stop at the limit, unless the pass ends soon after") {
    WorkWatch watch;
    watch.start_pass(1, 1000);
    watch.start_step(WorkStep::kLightWalks, 10);
    CHECK(watch.next_block());
    watch.set_limit(0);
    CHECK_FALSE(watch.next_block());
    watch.set_limit(std::numeric_limits<double>::infinity());
    CHECK_FALSE(watch.next_block());  // stays stopped
    CHECK_FALSE(watch.stopped_by_report());

    WorkWatch short_pass;
    short_pass.set_limit(0);
    short_pass.start_pass(2, 0.5 * WorkWatch::kGrace);
    short_pass.start_step(WorkStep::kLightWalks, 10);
    CHECK(short_pass.next_block());
}
