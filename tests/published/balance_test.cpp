// A hundred random closed sets: their walls, sheets and lamps absorb all light that their lamps
// send out. This holds only if every path is counted exactly once, whichever way it is found.
//
// The sets have spots, bare lamps and panels; balls, tumblers, jars and panes of silica, some
// filled; cloth of all spreads, clear sheets and white metal. Meters cover everything that absorbs:
// the walls, both sides of absorbing cloth, and the faces of the lamps, which are black to the
// light of other lamps.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "published/random_sets.h"

namespace balance_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("A hundred closed sets");

const std::string kBalance = "flux balance: Φ = Σ (1 - ρ) E A of all that absorbs light";

constexpr int kSets = 100;
constexpr double kMostStderr = 0.003;  // of the light

struct Found {
    RandomSet set;
    Estimate kept;
};

Found measure(int number, int passes, uint64_t seed, Transport transport = Transport::kFull) {
    Found found{make_random_set(static_cast<uint64_t>(number)), {}};
    MeterOptions options;
    options.transport = transport;
    options.seed = seed;
    options.passes = passes;
    options.meter_walks = 128;
    options.light_walks_per_meter_walk = 16;
    found.kept = Readings(found.set.scene, options).sum(found.set.kept);
    return found;
}

// Measures with few passes if a short run with other random numbers shows much less noise than is
// allowed, else with many.
Found measure(int number) {
    constexpr int kShort = 16;
    constexpr int kFew = 48;
    constexpr int kMany = 128;
    const uint64_t seed = static_cast<uint64_t>(number) + 1;
    const Found first = measure(number, kShort, seed + 2 * kSets);
    const double with_few = first.kept.stderr_of_mean * std::sqrt(1.0 * kShort / kFew);
    const bool is_quiet = with_few < 0.5 * kMostStderr * first.set.lumens;
    return measure(number, is_quiet ? kFew : kMany, seed);
}

std::string name_of(int number, const Scene& scene) {
    return "set " + std::to_string(number) + ": " + std::to_string(scene.fixtures.size()) +
           " lamps, " + std::to_string(scene.glasses.size()) + " glasses, " +
           std::to_string(scene.boards.size()) + " sheets";
}

void check(const std::string& how,
           int number,
           const Found& found,
           double most_stderr = kMostStderr) {
    // Of a hundred right checks at least one is beyond 3.3 standard errors in one run of ten, and
    // beyond 4 in one run of a hundred and fifty.
    const Allowance four{0.7 * found.kept.stderr_of_mean, "4 standard errors: a hundred checks"};
    kSubject.mean(how + name_of(number, found.set.scene),
                  kBalance,
                  "lm",
                  figure(found.set.lumens, 7),
                  found.kept,
                  {most_stderr, four});
}

}  // namespace

TEST_CASE("two random closed sets absorb what their lamps send out") {
    for (int i = 0; i < 2; ++i) check("quick, ", i, measure(i));
}

TEST_CASE("a hundred random closed sets absorb what their lamps send out" *
          doctest::test_suite("slow")) {
    double lumens = 0;
    double kept = 0;
    double variance = 0;
    for (int i = 0; i < kSets; ++i) {
        const Found found = measure(i);
        check("", i, found);
        lumens += found.set.lumens;
        kept += found.kept.value;
        variance += found.kept.stderr_of_mean * found.kept.stderr_of_mean;
    }
    kSubject.mean("all sets together",
                  kBalance,
                  "of their lumens",
                  "1.00000",
                  {kept / lumens, std::sqrt(variance) / lumens},
                  {0.001});
}

// Transport without weights is noisier. Of the first twelve sets, 0, 5, 9 and 11 are left out:
// their standard error is above 1 %, too large for a check.
TEST_CASE("random closed sets absorb what their lamps send out by the transport without weights" *
          doctest::test_suite("slow")) {
    for (const int i : {1, 2, 3, 4, 6, 7, 8, 10}) {
        const Found found = measure(i, 64, static_cast<uint64_t>(i) + 1, Transport::kPartition);
        check("without weights, ", i, found, 0.01);
    }
}

}  // namespace balance_test
