// Checks the numbers of an IES file and converts them.
//
//   I = value × multiplier × ballast factor × (up to 1991) ballast-lamp factor × tilt factor (E9)
// Types C and B are read; their axis points where the fixture aims. In type C the horizontal angle
// runs from the fixture's right anticlockwise as seen from behind: a lamp that hangs and shines
// down is seen from above. From memory: this sense, which side of the opening is along which plane,
// and that the edition of 1995 renamed the ballast-lamp factor "future use".
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/photometry/build_photometry.h"
#include "scene/photometry/photometry_checks.h"
#include "scene/photometry/photometry_flux.h"
#include "scene/photometry/type_b.h"
#include "set/photometry/read_ies.h"

namespace dapple {

namespace {

constexpr double kMetresPerFoot = 0.3048;

bool check_ies_head(const IesDescription& ies, const PhotometryChecks& check) {
    if (ies.type.value == 3) {
        return check.fail(ies.type.line,
                          "is photometric type 3 (A); must be 1 (C) or 2 (B); ask the laboratory "
                          "for a file of type C");
    }
    if (ies.type.value != 1 && ies.type.value != 2) {
        return check.fail(
            ies.type.line,
            "the photometric type is " + number_text(ies.type.value) + "; must be 1 (C) or 2 (B)");
    }
    if (ies.units.value != 1 && ies.units.value != 2) {
        return check.fail(ies.units.line,
                          "the units type is " + number_text(ies.units.value) +
                              "; must be 1 (feet) or 2 (metres)");
    }
    return check.positive(ies.multiplier, "candela multiplier") &&
           check.positive(ies.ballast_factor, "ballast factor");
}

bool has_lamp_factor(IesEdition edition) {
    return edition == IesEdition::k1986 || edition == IesEdition::k1991;
}

// Linear between the table's angles, constant beyond its ends; `tilt` in degrees.
double tilt_factor(const IesDescription& ies, double tilt) {
    if (ies.tilt_angles.empty()) return 1;
    size_t next = 0;
    while (next < ies.tilt_angles.size() && ies.tilt_angles[next].value < tilt) ++next;
    if (next == 0) return ies.tilt_factors.front().value;
    if (next == ies.tilt_angles.size()) return ies.tilt_factors.back().value;
    const double from = ies.tilt_angles[next - 1].value;
    const double to = ies.tilt_angles[next].value;
    return std::lerp(ies.tilt_factors[next - 1].value,
                     ies.tilt_factors[next].value,
                     (tilt - from) / (to - from));
}

bool check_tilt(const IesDescription& ies, const PhotometryChecks& check) {
    if (!check.rising(ies.tilt_angles, 0, 180, "tilt angle")) return false;
    return std::all_of(ies.tilt_factors.begin(), ies.tilt_factors.end(), [&](const FileNumber& n) {
        return check.positive(n, "tilt factor");
    });
}

// The first and last horizontal angles say which symmetry the lamp has.
std::vector<CandelaPlane> ies_planes(const IesDescription& ies, const PhotometryChecks& check) {
    const std::vector<FileNumber>& angles = ies.horizontal;
    if (!check.rising(angles, 0, 360, "horizontal angle")) return {};
    const double first = angles.front().value;
    const double last = angles.back().value;
    if (angles.size() == 1) {
        if (first != 0) {
            check.note(angles.front().line,
                       "has one horizontal angle, " + number_text(first) +
                           "; the lamp is taken to be the same all around");
        }
        return unfold_planes(planes_in_order(angles), PlaneSymmetry::kAxis);
    }
    std::vector<CandelaPlane> planes;
    if (first == 0 && last == 90) {
        planes = unfold_planes(planes_in_order(angles), PlaneSymmetry::kQuarter);
    } else if (first == 0 && last == 180) {
        planes = unfold_planes(planes_in_order(angles), PlaneSymmetry::kC0);
    } else if (first == 90 && last == 270) {
        planes = unfold_planes(planes_in_order(angles), PlaneSymmetry::kC90);
    } else if (first == 0 && last > 180) {
        planes = unfold_planes(planes_in_order(angles), PlaneSymmetry::kNone);
    }
    if (planes.empty()) {
        check.fail(angles.front().line,
                   "horizontal angles go from " + number_text(first) + " to " + number_text(last) +
                       "; must be 0 alone, or go from 0 to 90, 180 or 360, or from 90 to 270");
    }
    return planes;
}

// A negative size means a round opening. If its sides differ, it becomes a disc of the same area.
// The horizontal axis of type B is along the width.
void set_ies_opening(const IesDescription& ies,
                     const PhotometryChecks& check,
                     PhotometricFile& out) {
    const double unit = ies.units.value == 1 ? kMetresPerFoot : 1;
    const double width = unit * std::abs(ies.width.value);
    const double length = unit * std::abs(ies.length.value);
    out.round = ies.width.value < 0 || ies.length.value < 0;
    if (!check.opening(ies.width.line, std::max(width, length))) return;
    if (out.round) {
        const double both =
            width > 0 && length > 0 ? width * length : std::pow(std::max(width, length), 2.0);
        out.opening = Vec2(static_cast<float>(std::sqrt(both)));
    } else if (ies.type.value == 2) {
        out.opening = Vec2(static_cast<float>(width), static_cast<float>(length));
    } else {
        out.opening = Vec2(static_cast<float>(length), static_cast<float>(width));
    }
}

std::optional<Photometry> build_type_c(const IesDescription& ies,
                                       double scale,
                                       const PhotometryChecks& check) {
    if (!check.polar(ies.vertical, "vertical angle")) return std::nullopt;
    const std::vector<CandelaPlane> planes = ies_planes(ies, check);
    if (planes.empty()) return std::nullopt;
    return make_photometry(ies.vertical, planes, ies.candela, scale);
}

// All factors of the candela but the multiplier. Returns nothing, with a problem, if one is wrong.
std::optional<double> other_factors(const IesDescription& ies,
                                    const Direction& axis,
                                    const PhotometryChecks& check) {
    double factors = ies.ballast_factor.value;
    const FileNumber& second = ies.second_factor;
    if (has_lamp_factor(ies.edition)) {
        if (!check.positive(second, "ballast-lamp factor")) return std::nullopt;
        factors *= second.value;
    } else if (ies.edition == IesEdition::k1995 && second.value != 1) {
        check.note(second.line,
                   "the factor " + number_text(second.value) +
                       " after the ballast factor is not used: the edition of 1995 reserves it for "
                       "the future");
    }
    const double down = std::clamp(-static_cast<double>(axis.y), -1.0, 1.0);
    return factors * tilt_factor(ies, degrees_from_radians(std::acos(down)));
}

// With lumens of -1 the candela are absolute, and there is nothing to compare.
void check_lumens(const IesDescription& ies,
                  const Photometry& photometry,
                  double factors,
                  const PhotometryChecks& check) {
    const double lamps = ies.lamps.value * ies.lumens_per_lamp.value;
    if (!(lamps > 0)) return;
    const double given = lumens_of(photometry) / factors / lamps;
    if (given > 1) check.lumens(ies.lamps.line, given, 1);
}

}  // namespace

std::optional<PhotometricFile> build_ies(const std::string& path,
                                         const Direction& axis,
                                         Problems& problems) {
    const std::optional<IesDescription> ies = read_ies(path, problems);
    if (!ies) return std::nullopt;
    const PhotometryChecks check(path, problems);
    if (!check_ies_head(*ies, check) || !check_tilt(*ies, check)) return std::nullopt;
    const std::optional<double> factors = other_factors(*ies, axis, check);
    if (!factors) return std::nullopt;
    const double scale = ies->multiplier.value * *factors;
    if (!check.candela(ies->candela, scale, "a candela value")) return std::nullopt;
    std::optional<Photometry> photometry =
        ies->type.value == 2 ? build_type_b(*ies, scale, check) : build_type_c(*ies, scale, check);
    if (!photometry) return std::nullopt;
    check_lumens(*ies, *photometry, *factors, check);
    PhotometricFile out;
    out.photometry = std::move(*photometry);
    out.watts = std::max(0.0, ies->watts.value);
    set_ies_opening(*ies, check, out);
    return out;
}

}  // namespace dapple
