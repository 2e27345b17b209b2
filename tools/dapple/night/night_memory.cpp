#include "night/night_memory.h"

#include <cmath>

#include "render/fixture_groups.h"

namespace dapple {

namespace {

// Fitted to the peaks of eight unlike sets at 96 to 960 px, two threads; overnight_memory_test.sh
// compares three of them. The kept passes that a turn begins with are in memory twice.
constexpr double kProgram = 150e6;     // bytes: the libraries, their tables, kept parts
constexpr double kTriangle = 270;      // its mesh, the kernels' trees, its facet
constexpr double kPixel = 560;         // what it sees, walks, photons, the clean frame
constexpr double kPixelOfGroup = 100;  // sums, those of the pass, layers of the results

}  // namespace

int NightMemory::width_that_fits(double gb) const {
    const double pixels = (gb * 1e9 - fixed_bytes) / bytes_per_pixel;
    if (!(pixels > 1) || height <= 0) return 0;
    return static_cast<int>(std::sqrt(pixels * width / height));
}

NightMemory night_memory(const Scene& scene, int64_t triangles) {
    NightMemory memory;
    memory.fixed_bytes = kProgram + kTriangle * static_cast<double>(triangles);
    for (const Texture& t : scene.textures) {
        memory.fixed_bytes += static_cast<double>(t.texels.size());
    }
    const auto groups = static_cast<double>(make_fixture_groups(scene).groups.size());
    memory.bytes_per_pixel = kPixel + kPixelOfGroup * groups;
    memory.width = scene.camera.width;
    memory.height = scene.camera.height;
    return memory;
}

NightMemory more_of(const NightMemory& a, const NightMemory& b) {
    return b.gigabytes() > a.gigabytes() ? b : a;
}

}  // namespace dapple
