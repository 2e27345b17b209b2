// Checks the numbers of a EULUMDAT file and converts them.
//
//   I = value × lumens of the lamps / 1000 × conversion factor                               (E11)
// The values already contain the light output ratio. C-planes run from the fixture's right
// anticlockwise as seen from behind, like those of IES files (build_ies.cpp). From memory: this
// sense, and which side of the opening is along which plane.
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/photometry/build_photometry.h"
#include "scene/photometry/photometry_checks.h"
#include "scene/photometry/photometry_flux.h"
#include "set/photometry/read_eulumdat.h"

namespace dapple {

namespace {

// The planes in the file, with their angles. With symmetry 3 they begin at C270.
std::vector<CandelaPlane> stored_planes(const EulumdatDescription& ldt) {
    if (ldt.symmetry.value == 1) return {{0, 0}};
    const size_t count = ldt.c_planes.size();
    const size_t stored = ldt.intensity.size() / ldt.gamma.size();
    const size_t first = ldt.symmetry.value == 3 ? 3 * count / 4 : 0;
    std::vector<CandelaPlane> planes;
    for (size_t i = 0; i < stored; ++i) {
        planes.push_back({ldt.c_planes[(first + i) % count].value, static_cast<int>(i)});
    }
    return planes;
}

std::vector<CandelaPlane> eulumdat_planes(const EulumdatDescription& ldt,
                                          const PhotometryChecks& check) {
    static constexpr PlaneSymmetry kSymmetries[] = {PlaneSymmetry::kNone,
                                                    PlaneSymmetry::kAxis,
                                                    PlaneSymmetry::kC0,
                                                    PlaneSymmetry::kC90,
                                                    PlaneSymmetry::kQuarter};
    if (!check.rising(ldt.c_planes, 0, 360, "C-plane")) return {};
    const std::vector<CandelaPlane> planes =
        unfold_planes(stored_planes(ldt), kSymmetries[static_cast<size_t>(ldt.symmetry.value)]);
    if (planes.empty()) check.fail(ldt.c_planes.front().line, "has no C-plane at 0 degrees");
    return planes;
}

// Checks that the first and last plane in the file are mirror planes.
bool check_mirrors(const EulumdatDescription& ldt, const PhotometryChecks& check) {
    const std::vector<CandelaPlane> planes = stored_planes(ldt);
    const auto closes = [&](const CandelaPlane& plane, double needed) {
        if (std::abs(plane.degrees - needed) < 1e-6) return true;
        return check.fail(ldt.symmetry.line,
                          "symmetry " + number_text(ldt.symmetry.value) + " needs a C-plane at " +
                              number_text(needed) + " degrees; the one in its place is at " +
                              number_text(plane.degrees));
    };
    switch (static_cast<int>(ldt.symmetry.value)) {
        case 2:
            return closes(planes.front(), 0) && closes(planes.back(), 180);
        case 3:
            return closes(planes.front(), 270) && closes(planes.back(), 90);
        case 4:
            return closes(planes.front(), 0) && closes(planes.back(), 90);
        default:
            return true;
    }
}

void set_eulumdat_opening(const EulumdatDescription& ldt,
                          const PhotometryChecks& check,
                          PhotometricFile& out) {
    const double length = metres_from_mm(std::max(0.0, ldt.opening_length.value));
    const double width = metres_from_mm(std::max(0.0, ldt.opening_width.value));
    if (!check.opening(ldt.opening_length.line, std::max(length, width))) return;
    out.round = width == 0;
    out.opening = Vec2(static_cast<float>(out.round ? length : width), static_cast<float>(length));
}

// A file without a ratio, or with one above 100 %, says nothing.
void check_lumens(const EulumdatDescription& ldt,
                  const Photometry& photometry,
                  const PhotometryChecks& check) {
    const double given = lumens_of(photometry) / (ldt.flux.value * ldt.conversion.value);
    const double declared = ldt.output_ratio.value / 100;
    const bool says_ratio = declared > 0 && declared <= 1;
    if (says_ratio || given > 1) {
        check.lumens(ldt.output_ratio.line, given, says_ratio ? declared : 1);
    }
}

}  // namespace

std::optional<PhotometricFile> build_eulumdat(const std::string& path, Problems& problems) {
    const std::optional<EulumdatDescription> ldt = read_eulumdat(path, problems);
    if (!ldt) return std::nullopt;
    const PhotometryChecks check(path, problems);
    if (!check.polar(ldt->gamma, "angle") || !check.positive(ldt->flux, "lumens of the lamps") ||
        !check.positive(ldt->conversion, "conversion factor")) {
        return std::nullopt;
    }
    const std::vector<CandelaPlane> planes = eulumdat_planes(*ldt, check);
    if (planes.empty() || !check_mirrors(*ldt, check)) return std::nullopt;
    const double scale = ldt->flux.value / 1000 * ldt->conversion.value;
    if (!check.candela(ldt->intensity, scale, "an intensity")) return std::nullopt;
    if (ldt->tilt.value != 0) {
        check.note(ldt->tilt.line,
                   "was measured at a tilt of " + number_text(ldt->tilt.value) +
                       " degrees; used without a correction");
    }
    PhotometricFile out;
    out.photometry = make_photometry(ldt->gamma, planes, ldt->intensity, scale);
    out.watts = std::max(0.0, ldt->watts.value);
    set_eulumdat_opening(*ldt, check, out);
    check_lumens(*ldt, out.photometry, check);
    return out;
}

}  // namespace dapple
