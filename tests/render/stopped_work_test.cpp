// Work on a frame looks often enough whether it should stop: within one step on each thread.
#include <doctest/doctest.h>

#include <atomic>

#include "base/parallel.h"
#include "clean/clean_film.h"
#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/scene_changes.h"
#include "render/walk_order.h"
#include "transport/photon_map.h"
#include "transport/stored_vertices.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kThreads = 2;

struct Counted {
    bool is_stopped = false;
    int looks = 0;
};

// Does the work until it has looked `most` times; 0: to its end.
template <class Work>
Counted run(int most, const Work& work) {
    const ThreadLimit threads(kThreads);
    std::atomic<int> looks = 0;
    const StopLoops stops([&] { return ++looks > most && most > 0; });
    Counted counted;
    try {
        work();
    } catch (const StoppedWork&) {
        counted.is_stopped = true;
    }
    counted.looks = looks;
    return counted;
}

// Stops the work at several places. After the look that says stop, each thread looks once more at
// most.
template <class Work>
void check_stops(const Work& work, int least_looks, int looks_after) {
    const Counted whole = run(0, work);
    CHECK_FALSE(whole.is_stopped);
    CHECK(whole.looks >= least_looks);
    for (int part = 1; part < 9; ++part) {
        const int most = whole.looks * part / 9;
        if (most == 0) continue;
        CAPTURE(whole.looks);
        CAPTURE(most);
        const Counted stopped = run(most, work);
        CHECK(stopped.is_stopped);
        CHECK(stopped.looks <= most + looks_after);
    }
}

}  // namespace

TEST_CASE("a frame stops within one block on each thread, in its pilots as in its walks") {
    const Scene scene = room_with_everything();
    const World world(scene);
    RenderOptions options;
    options.passes = 1;
    check_stops([&] { render_frame(scene, world, options); }, 400, kThreads);
}

TEST_CASE("the clean frame stops within one block on each thread") {
    const Scene scene = room_with_everything();
    const World world(scene);
    RenderOptions options;
    options.passes = 1;
    const RenderResult result = render_frame(scene, world, options);
    check_stops([&] { clean_film(result.film, result.seen, 1000.0, true); }, 400, kThreads);
}

TEST_CASE("what rays meet is left unfinished when work stops, and can be made again") {
    Scene scene = room_with_everything();
    World world(scene, WorldUse::kChanging);
    // After a change that was stopped, all is laid out anew, which takes as many looks as at first.
    const int whole = run(0, [&] { World(scene, WorldUse::kChanging); }).looks;
    CHECK(whole > 20);
    for (int looks = 1; looks < whole + 4; looks += 3) {
        scene.glasses[0].position.x += 0.001F;
        const Counted stopped = run(looks, [&] { world.change_to(scene); });
        CHECK(stopped.is_stopped == (looks < stopped.looks));
        if (looks % 7 == 0) world.change_to(scene);
    }
    world.change_to(scene);
    const World anew(scene, WorldUse::kChanging);
    RenderOptions options;
    options.passes = 1;
    CHECK(render_frame(scene, world, options).film.sums() ==
          render_frame(scene, anew, options).film.sums());
}

TEST_CASE("sorting the photons and the vertices of a pass stops at the next list of them") {
    constexpr int kLists = 40;
    const std::vector<PhotonList> photons(kLists, PhotonList(8));
    check_stops([&] { PhotonMap(photons, 0.1F); }, 2 * kLists, kThreads);
    StoredVertex vertex;
    vertex.light_cell = 1;
    const std::vector<StoredVertexList> vertices(kLists, StoredVertexList(8, vertex));
    check_stops([&] { StoredVertices(vertices, 2); }, kLists, kThreads);
}

TEST_CASE("putting light walks in order stops within one block") {
    const SobolOwen4d starts(1);
    check_stops([&] { order_by_direction(starts, 1 << 18); }, 2 * (1 << 18) / 4096, kThreads);
}

TEST_CASE("loops of another thread, and later ones, are not stopped") {
    {
        const StopLoops outer([] { return false; });
        {
            const StopLoops inner([] { return true; });
            CHECK_THROWS_AS(stop_if_asked(), StoppedWork);
            CHECK_THROWS_AS(parallel_blocks(4, 1, [](int64_t, int64_t) {}), StoppedWork);
        }
        CHECK_NOTHROW(stop_if_asked());
    }
    CHECK_NOTHROW(parallel_blocks(4, 1, [](int64_t, int64_t) {}));
}
