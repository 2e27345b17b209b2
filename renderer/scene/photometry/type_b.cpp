#include "scene/photometry/type_b.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kFinestAzimuth = 1;    // degrees
constexpr double kCoarsestAzimuth = 5;  // degrees
constexpr double kCoarsestPolar = 1;    // degrees

// The place of x in rising angles: the interval's first index, and the share of the way to its end.
struct Between {
    size_t first = 0;
    double share = 0;
};

std::optional<Between> find_between(const std::vector<FileNumber>& angles, double x) {
    constexpr double kRounding = 1e-9;  // degrees
    if (angles.front().value == 0) x = std::abs(x);
    if (x < angles.front().value - kRounding || x > angles.back().value + kRounding) {
        return std::nullopt;
    }
    size_t next = 1;
    while (next + 1 < angles.size() && angles[next].value < x) ++next;
    const double from = angles[next - 1].value;
    const double share = (x - from) / (angles[next].value - from);
    return Between{next - 1, std::clamp(share, 0.0, 1.0)};
}

bool check_side(const std::vector<FileNumber>& angles,
                const char* what,
                const char* other_side,
                const PhotometryChecks& check) {
    const FileNumber& first = angles.front();
    if (angles.size() < 2) {
        return check.fail(first.line,
                          std::string("has one ") + what + "; type B needs two or more");
    }
    if (!check.rising(angles, -90, 90, what)) return false;
    if (first.value > 0 || angles.back().value <= 0) {
        return check.fail(first.line,
                          std::string(what) + "s go from " + number_text(first.value) + " to " +
                              number_text(angles.back().value) +
                              "; those of type B must begin at 0 or below and end above 0");
    }
    if (first.value == 0) {
        check.note(first.line,
                   std::string(what) + "s begin at 0; the light " + other_side +
                       " is taken to be the same");
    }
    return true;
}

double finest_step(const std::vector<FileNumber>& angles) {
    double finest = kCoarsestAzimuth;
    for (size_t i = 1; i < angles.size(); ++i) {
        finest = std::min(finest, angles[i].value - angles[i - 1].value);
    }
    return std::max(finest, kFinestAzimuth);
}

// Degrees from the axis: all angles of the file, and others between them.
std::vector<double> polar_angles(const IesDescription& ies) {
    std::vector<double> angles;
    for (double a = 0; a <= 90; a += kCoarsestPolar) angles.push_back(a);
    for (const auto* list : {&ies.vertical, &ies.horizontal}) {
        for (const FileNumber& angle : *list) angles.push_back(std::abs(angle.value));
    }
    std::sort(angles.begin(), angles.end());
    constexpr double kSame = 1e-3;
    const auto end =
        std::unique(angles.begin(), angles.end(), [](double a, double b) { return b - a < kSame; });
    angles.erase(end, angles.end());
    return angles;
}

double candela_towards(const IesDescription& ies, double polar, double azimuth) {
    const double right = std::sin(polar) * std::cos(azimuth);
    const double up = std::sin(polar) * std::sin(azimuth);
    const double ahead = std::cos(polar);
    const double h = std::asin(std::clamp(right, -1.0, 1.0));
    const double v = std::abs(up) < 1e-12 ? 0 : std::atan2(up, std::max(ahead, 0.0));
    return type_b_candela(ies, degrees_from_radians(v), degrees_from_radians(h));
}

}  // namespace

double type_b_candela(const IesDescription& ies, double v, double h) {
    const std::optional<Between> in_v = find_between(ies.vertical, v);
    const std::optional<Between> in_h = find_between(ies.horizontal, h);
    if (!in_v || !in_h) return 0;
    const auto at = [&](size_t i, size_t k) {
        return ies.candela[i * ies.vertical.size() + k].value;
    };
    const auto along_v = [&](size_t i) {
        return std::lerp(at(i, in_v->first), at(i, in_v->first + 1), in_v->share);
    };
    return std::lerp(along_v(in_h->first), along_v(in_h->first + 1), in_h->share);
}

std::optional<Photometry> build_type_b(const IesDescription& ies,
                                       double scale,
                                       const PhotometryChecks& check) {
    if (!check_side(ies.vertical, "vertical angle", "below the axis", check) ||
        !check_side(ies.horizontal, "horizontal angle", "to the left", check)) {
        return std::nullopt;
    }
    Photometry photometry;
    for (const double degrees : polar_angles(ies)) {
        photometry.polar.push_back(radians_from_degrees(degrees));
    }
    const double step = std::min(finest_step(ies.vertical), finest_step(ies.horizontal));
    // A multiple of four, so that the planes of the two axes are in the table.
    const int planes = 4 * static_cast<int>(std::ceil(90 / step));
    for (int i = 0; i <= planes; ++i) {
        const double azimuth = 2 * kPi * i / planes;
        photometry.azimuth.push_back(azimuth);
        for (const double polar : photometry.polar) {
            photometry.candela.push_back(scale *
                                         candela_towards(ies, polar, i == planes ? 0 : azimuth));
        }
    }
    return photometry;
}

}  // namespace dapple
