#include "scene/photometry/photometry_checks.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kLargestOpening = 10;  // m; a larger one has a wrong unit
constexpr double kMostCandela = 1e9;

}  // namespace

bool PhotometryChecks::fail(int line, const std::string& message) const {
    problems_.add({path_, line}, "", message);
    return false;
}

void PhotometryChecks::note(int line, const std::string& message) const {
    problems_.note({path_, line}, "", message);
}

bool PhotometryChecks::positive(const FileNumber& number, const char* what) const {
    if (number.value > 0) return true;
    return fail(
        number.line,
        std::string("the ") + what + " is " + number_text(number.value) + "; must be above 0");
}

bool PhotometryChecks::rising(const std::vector<FileNumber>& angles,
                              double low,
                              double high,
                              const char* what) const {
    for (size_t i = 0; i < angles.size(); ++i) {
        const double a = angles[i].value;
        if (a < low || a > high) {
            return fail(angles[i].line,
                        std::string("a ") + what + " is " + number_text(a) + "; must be from " +
                            number_text(low) + " to " + number_text(high));
        }
        if (i > 0 && !(a > angles[i - 1].value)) {
            return fail(angles[i].line,
                        std::string(what) + " " + number_text(a) + " is after " +
                            number_text(angles[i - 1].value) + "; they must rise");
        }
    }
    return true;
}

bool PhotometryChecks::polar(const std::vector<FileNumber>& angles, const char* what) const {
    if (angles.size() < 2) {
        return fail(angles.front().line,
                    std::string("has one ") + what + "; must have two or more");
    }
    if (!rising(angles, 0, 180, what)) return false;
    const FileNumber& first = angles.front();
    const FileNumber& last = angles.back();
    if (first.value != 0 && first.value != 90) {
        note(first.line,
             std::string(what) + "s begin at " + number_text(first.value) +
                 " degrees; no light is assumed below that");
    }
    if (last.value != 90 && last.value != 180) {
        note(last.line,
             std::string(what) + "s end at " + number_text(last.value) +
                 " degrees; no light is assumed above that");
    }
    return true;
}

bool PhotometryChecks::candela(const std::vector<FileNumber>& values,
                               double scale,
                               const char* what) const {
    double most = 0;
    for (const FileNumber& number : values) {
        if (number.value < 0) {
            return fail(
                number.line,
                std::string(what) + " is " + number_text(number.value) + "; must not be below 0");
        }
        most = std::max(most, number.value * scale);
    }
    if (!(most > 0)) return fail(values.front().line, "all candela are 0; some must be above 0");
    if (most <= kMostCandela) return true;
    return fail(
        values.front().line,
        "gives up to " + number_text(most) + " cd; must be up to " + number_text(kMostCandela));
}

void PhotometryChecks::lumens(int line, double given, double declared) const {
    constexpr double kContradiction = 0.1;  // of the declared lumens
    if (std::abs(given - declared) <= kContradiction) return;
    note(line,
         "the candela add up to " + number_text(std::round(100 * given)) +
             " % of the lamps' lumens; " +
             (declared < 1 ? "the file says " + number_text(std::round(100 * declared)) + " %"
                           : "no lamp gives more than it has") +
             "; the candela are used");
}

bool PhotometryChecks::opening(int line, double longest) const {
    if (longest <= kLargestOpening) return true;
    note(line, "the luminous opening is " + number_text(longest) + " m; not used, give source_mm");
    return false;
}

std::vector<CandelaPlane> planes_in_order(const std::vector<FileNumber>& angles) {
    std::vector<CandelaPlane> planes;
    for (const FileNumber& angle : angles) {
        planes.push_back({angle.value, static_cast<int>(planes.size())});
    }
    return planes;
}

Photometry make_photometry(const std::vector<FileNumber>& polar,
                           const std::vector<CandelaPlane>& planes,
                           const std::vector<FileNumber>& values,
                           double scale) {
    Photometry photometry;
    for (const FileNumber& angle : polar) {
        photometry.polar.push_back(radians_from_degrees(angle.value));
    }
    for (const CandelaPlane& plane : planes) {
        photometry.azimuth.push_back(radians_from_degrees(plane.degrees));
        const size_t first = static_cast<size_t>(plane.row) * polar.size();
        for (size_t i = 0; i < polar.size(); ++i) {
            photometry.candela.push_back(scale * values[first + i].value);
        }
    }
    return photometry;
}

}  // namespace dapple
