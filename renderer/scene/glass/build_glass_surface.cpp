#include "scene/glass/build_glass_surface.h"

#include <algorithm>
#include <limits>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/glass/glass_limits.h"

namespace dapple {

namespace {

constexpr double kMaxPatternMm = 20000;
constexpr double kFewestPeriods = 8;  // across the glass, if the size is not given

// Seeded glass has bubbles and is plain outside.
const std::vector<std::pair<std::string, GlassSurface>> kSurfaces{
    {"plain", GlassSurface::kPlain},
    {"ribbed", GlassSurface::kRibbed},
    {"reeded", GlassSurface::kReeded},
    {"hammered", GlassSurface::kHammered},
    {"seeded", GlassSurface::kPlain},
    {"wavy", GlassSurface::kWavy}};

template <typename T>
void refuse(const Field<T>& field, const std::string& why, Problems& problems) {
    if (field.written) problems.add(field.place, field.key, why);
}

void refuse_ribs(const GlassDescription& d, const std::string& why, Problems& problems) {
    if (d.ribs.value != 0) refuse(d.ribs, why, problems);
    refuse(d.rib_depth_mm, why, problems);
}

void refuse_pattern(const GlassDescription& d, const std::string& why, Problems& problems) {
    refuse(d.pattern_mm, why, problems);
    refuse(d.pattern_depth_mm, why, problems);
}

void build_twist(const GlassDescription& d, GlassObject& glass, Problems& problems) {
    const bool ruled =
        glass.surface == GlassSurface::kRibbed || glass.surface == GlassSurface::kReeded;
    if (!ruled || glass.form == GlassForm::kPane) {
        refuse(d.rib_twist_deg, "belongs to ribs and reeds round a vessel or a rod", problems);
        return;
    }
    glass.rib_twist = checked_radians(d.rib_twist_deg, 0, -720, 720, problems);
}

}  // namespace

void build_glass_surface(const GlassDescription& d, GlassObject& glass, Problems& problems) {
    glass.seed = static_cast<uint64_t>(
        checked_whole(d.seed, 1, 0, std::numeric_limits<int>::max(), problems));
    const bool ribs_alone = !d.surface.written && d.ribs.given && d.ribs.value != 0;
    const GlassSurface surface = ribs_alone
                                     ? GlassSurface::kRibbed
                                     : checked_word(d.surface, kSurfaces, glass.surface, problems);
    if (surface != GlassSurface::kPlain && !takes_surface(glass.form)) {
        const std::string why = "belongs to vessels, rod and pane";
        refuse_ribs(d, why, problems);
        if (d.surface.written) problems.add(d.surface.place, d.surface.key, why);
        return;
    }
    glass.surface = surface;
    const PatternSize size = default_pattern_size(surface);
    if (surface == GlassSurface::kRibbed) {
        glass.ribs = checked_whole(d.ribs, kRibs, 0, 256, problems);
        glass.relief_depth = checked_metres(d.rib_depth_mm, size.depth, kMaxPatternMm, problems);
        if (glass.ribs == 0) glass.surface = GlassSurface::kPlain;
        refuse_pattern(d, "belongs to reeded, hammered and wavy; ribs have rib_depth_mm", problems);
    } else if (surface != GlassSurface::kPlain) {
        const double across = glass.form == GlassForm::kPane
                                  ? std::min<double>(glass.width, glass.height)
                                  : kPi * glass.diameter;
        const double pitch = std::min(size.pitch, across / kFewestPeriods);
        glass.relief_pitch = checked_metres(d.pattern_mm, pitch, kMaxPatternMm, problems);
        const double shrunk = std::min(1.0, glass.relief_pitch / size.pitch);
        glass.relief_depth =
            checked_metres(d.pattern_depth_mm, size.depth * shrunk, kMaxPatternMm, problems);
        refuse_ribs(d, "belongs to surface = \"ribbed\"", problems);
    } else {
        refuse_pattern(d, "belongs to reeded, hammered and wavy", problems);
        if (d.surface.written) refuse_ribs(d, "belongs to surface = \"ribbed\"", problems);
    }
    if (glass.surface == GlassSurface::kPlain) glass.relief_depth = 0;
    build_twist(d, glass, problems);
}

void refuse_surface(const GlassDescription& d, const std::string& why, Problems& problems) {
    refuse(d.surface, why, problems);
    refuse_ribs(d, why, problems);
    refuse_pattern(d, why, problems);
    refuse(d.rib_twist_deg, why, problems);
    refuse(d.bubbles, why, problems);
    refuse(d.bubble_mm, why, problems);
    refuse(d.seed, why, problems);
}

}  // namespace dapple
