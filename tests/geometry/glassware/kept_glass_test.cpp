#include <doctest/doctest.h>

#include "base/kept_parts.h"
#include "geometry/glassware/glass_samples.h"
#include "geometry/glassware/make_glass.h"

using namespace dapple;

namespace {

// Alike but for one number each.
std::vector<GlassObject> nearly_alike() {
    const GlassObject jar = sample_glass(GlassForm::kJar, 0.2F, 0.1F, 0.003F);
    std::vector<GlassObject> all = {jar,
                                    sample_glass(GlassForm::kTumbler, 0.2F, 0.1F, 0.003F),
                                    sample_glass(GlassForm::kJar, 0.21F, 0.1F, 0.003F),
                                    sample_glass(GlassForm::kJar, 0.2F, 0.11F, 0.003F),
                                    sample_glass(GlassForm::kJar, 0.2F, 0.1F, 0.004F),
                                    with_ribs(jar, 12, 0.001F),
                                    with_ribs(jar, 13, 0.001F),
                                    with_ribs(jar, 12, 0.0015F),
                                    with_twist(with_ribs(jar, 12, 0.001F), 0.3F),
                                    with_pattern(jar, GlassSurface::kHammered, 0.02F, 0.001F),
                                    with_pattern(jar, GlassSurface::kHammered, 0.03F, 0.001F),
                                    with_pattern(jar, GlassSurface::kWavy, 0.02F, 0.001F),
                                    sample_pane(0.3F, 0.2F, 0.004F),
                                    sample_pane(0.31F, 0.2F, 0.004F)};
    all.push_back(all[9]);
    all.back().seed = 2;
    return all;
}

bool same(const std::vector<Mesh>& a, const std::vector<Mesh>& b) {
    if (a.size() != b.size()) return false;
    for (size_t i = 0; i < a.size(); ++i) {
        if (a[i].positions != b[i].positions || a[i].normals != b[i].normals ||
            a[i].triangles != b[i].triangles || a[i].materials != b[i].materials) {
            return false;
        }
    }
    return true;
}

}  // namespace

TEST_CASE("kept glassware has the bits of glassware made anew, wherever it stood before") {
    const Scene scene;
    std::vector<std::vector<Mesh>> fresh;
    for (const GlassObject& glass : nearly_alike()) fresh.push_back(make_glass(glass, scene));
    const KeepParts keep(size_t{1} << 30U);
    for (GlassObject glass : nearly_alike()) {
        glass.position = Point(1, 2, 3);
        glass.turn = 0.5F;
        glass.material = 2;
        make_glass(glass, scene);
    }
    const std::vector<GlassObject> all = nearly_alike();
    for (size_t i = 0; i < all.size(); ++i) {
        CAPTURE(i);
        CHECK(same(make_glass(all[i], scene), fresh[i]));
    }
}
