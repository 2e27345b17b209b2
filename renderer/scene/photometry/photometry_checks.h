// Checks of photometric files of both kinds; messages name the line of the file.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"
#include "scene/photometry/photometry.h"
#include "scene/photometry/unfold_planes.h"
#include "set/photometry/photometry_description.h"

namespace dapple {

// Each check returns false, with a problem, if it fails.
class PhotometryChecks {
  public:
    PhotometryChecks(const std::string& path, Problems& problems)
        : path_(path), problems_(problems) {}

    bool fail(int line, const std::string& message) const;
    void note(int line, const std::string& message) const;

    bool positive(const FileNumber& number, const char* what) const;
    bool rising(const std::vector<FileNumber>& angles,
                double low,
                double high,
                const char* what) const;
    // Angles from the axis, degrees.
    bool polar(const std::vector<FileNumber>& angles, const char* what) const;
    // No value may be below 0 or above the candela of all lamps, and some must be above 0.
    bool candela(const std::vector<FileNumber>& values, double scale, const char* what) const;
    // Notes that candela and lumens of the file contradict each other: `given` is the share of the
    // declared lumens that the candela give, `declared` the share that the file says.
    void lumens(int line, double given, double declared) const;
    // Returns false, with a note, if a luminous opening is so large that its unit must be wrong.
    bool opening(int line, double longest) const;

  private:
    const std::string& path_;
    Problems& problems_;
};

// Planes at these angles, whose rows of candela are in the same order.
std::vector<CandelaPlane> planes_in_order(const std::vector<FileNumber>& angles);

// `values` [row][polar], degrees to radians.
Photometry make_photometry(const std::vector<FileNumber>& polar,
                           const std::vector<CandelaPlane>& planes,
                           const std::vector<FileNumber>& values,
                           double scale);

}  // namespace dapple
