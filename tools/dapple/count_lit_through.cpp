#include "count_lit_through.h"

#include "plausible/light/lit_through.h"

namespace dapple {

namespace {

const std::string kGlassPrefix = "glass.";

}  // namespace

void count_lit_through(const LoadedSet& set,
                       const std::string& address,
                       const SeenPoints& seen,
                       FilmRecord& film) {
    if (!address.starts_with(kGlassPrefix)) return;
    std::vector<int32_t> pixels;
    for (const RegionRecord& region : film.regions) {
        pixels.insert(pixels.end(), region.pixels.begin(), region.pixels.end());
    }
    for (size_t g = 0; g < set.scene.glasses.size(); ++g) {
        if (kGlassPrefix + set.scene.glasses[g].name != address) continue;
        const Thing glass{ThingKind::kGlass, static_cast<int>(g)};
        film.lit_through = find_lit_through(
            {set.written, set.scene, set.world}, glass, film.first_hits, seen, pixels);
    }
}

}  // namespace dapple
