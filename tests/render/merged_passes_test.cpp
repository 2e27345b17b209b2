// Passes that are made apart and added up are those of one run.
#include <doctest/doctest.h>

#include <cmath>
#include <sstream>

#include "clean/clean_film.h"
#include "film/merge_films.h"
#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kShards = 8;

struct Set {
    Scene scene = room_with_everything();
    World world{scene};

    RenderResult render(int first, int passes) const {
        RenderOptions options;
        options.first_pass = first;
        options.passes = passes;
        return render_frame(scene, world, options);
    }
};

Checkpoint checkpoint_of(const RenderResult& result) {
    return {result.film.state(), result.meters.state()};
}

std::string bytes_of(const Checkpoint& film) {
    std::ostringstream bytes;
    write_checkpoint(film.frame, film.meters, 7, [&](const void* data, size_t size) {
        bytes.write(static_cast<const char*>(data), static_cast<std::streamsize>(size));
    });
    return bytes.str();
}

std::vector<Checkpoint> shards_of(const Set& set, const std::vector<int>& ends) {
    std::vector<Checkpoint> shards;
    int first = 0;
    for (const int end : ends) {
        shards.push_back(checkpoint_of(set.render(first, end - first)));
        first = end;
    }
    return shards;
}

}  // namespace

TEST_CASE("eight shards added in three orders are one run, to the bit" *
          doctest::test_suite("slow")) {
    const Set set;
    const std::vector<int> ends = {1, 2, 4, 5, 8, 9, 11, 12};
    REQUIRE(ends.size() == kShards);
    const RenderResult whole = set.render(0, ends.back());
    const std::string expected = bytes_of(checkpoint_of(whole));
    const std::vector<Checkpoint> shards = shards_of(set, ends);
    for (const std::vector<size_t>& order : {std::vector<size_t>{0, 1, 2, 3, 4, 5, 6, 7},
                                             {7, 6, 5, 4, 3, 2, 1, 0},
                                             {3, 0, 6, 1, 7, 4, 2, 5}}) {
        Checkpoint sum = shards[order[0]];
        for (size_t i = 1; i < kShards; ++i) CHECK(add_checkpoint(sum, shards[order[i]]));
        CHECK(bytes_of(sum) == expected);
    }
    // In pairs, as a tree.
    std::vector<Checkpoint> sums = shards;
    while (sums.size() > 1) {
        for (size_t i = 0; i < sums.size() / 2; ++i)
            add_checkpoint(sums[i], sums[sums.size() - 1 - i]);
        sums.resize(sums.size() / 2);
    }
    CHECK(bytes_of(sums[0]) == expected);
}

TEST_CASE("a film that already has a pass does not take it twice, nor that of another size") {
    const Set set;
    Checkpoint sum = checkpoint_of(set.render(0, 2));
    const std::string before = bytes_of(sum);
    CHECK_FALSE(add_checkpoint(sum, checkpoint_of(set.render(1, 2))));
    Set wide;
    wide.scene.camera.width *= 2;
    CHECK_FALSE(add_checkpoint(sum, checkpoint_of(wide.render(2, 1))));
    CHECK(bytes_of(sum) == before);
}

TEST_CASE("a film with a gap is continued with the passes that it lacks") {
    const Set set;
    Checkpoint sum = checkpoint_of(set.render(0, 1));
    REQUIRE(add_checkpoint(sum, checkpoint_of(set.render(3, 1))));
    RenderOptions options;
    options.passes = 5;
    options.resume_from = sum;
    const RenderResult filled = render_frame(set.scene, set.world, options);
    CHECK(bytes_of(checkpoint_of(filled)) == bytes_of(checkpoint_of(set.render(0, 5))));
}

TEST_CASE("the clean frame of a film of passes of one parity is finite") {
    const Set set;
    Checkpoint sum = checkpoint_of(set.render(1, 1));
    REQUIRE(add_checkpoint(sum, checkpoint_of(set.render(5, 1))));
    RenderOptions options;
    options.first_pass = 1;
    options.passes = 2;
    options.resume_from = sum;
    const RenderResult odd = render_frame(set.scene, set.world, options);
    CHECK(odd.film.state().passes.odd_count() == 2);
    const CleanFrame clean = clean_film(odd.film, odd.seen, 100.0);
    CHECK(std::isfinite(typical_error_percent(clean)));
}
