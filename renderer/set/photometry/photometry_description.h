// Photometric files as written: IES LM-63 and EULUMDAT, each number with its line.
//
// The only check is that the file has as many numbers as its own counts say. What the numbers mean
// is decided in scene/photometry/.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct FileNumber {
    double value = 0;
    int line = 0;
};

enum class IesEdition { k1986, k1991, k1995, k2002, k2019, kUnknown };

struct IesDescription {
    std::string path;
    IesEdition edition = IesEdition::k1986;
    std::vector<FileNumber> tilt_angles;  // degrees; TILT=INCLUDE
    std::vector<FileNumber> tilt_factors;
    FileNumber lamps, lumens_per_lamp;  // lumens -1: absolute photometry
    FileNumber multiplier;
    FileNumber type;                   // 1 C, 2 B, 3 A
    FileNumber units;                  // 1 feet, 2 metres
    FileNumber width, length, height;  // of the luminous opening; negative: round
    FileNumber ballast_factor;
    FileNumber second_factor;  // ballast-lamp factor up to 1995, later something else
    FileNumber watts;
    std::vector<FileNumber> vertical, horizontal;  // degrees
    std::vector<FileNumber> candela;               // [horizontal][vertical]
};

struct EulumdatDescription {
    std::string path;
    FileNumber symmetry;  // 0 none, 1 axis, 2 plane C0–C180, 3 plane C90–C270, 4 both
    FileNumber opening_length, opening_width;  // mm; width 0: round
    FileNumber output_ratio;  // percent of the lamps' lumens that leave; 0: not in the file
    FileNumber conversion;
    FileNumber tilt;                          // degrees, during the measurement
    FileNumber flux;                          // lm, of the first set of lamps
    FileNumber watts;                         // 0: not in the file
    std::vector<FileNumber> c_planes, gamma;  // degrees
    std::vector<FileNumber> intensity;        // cd per 1000 lm, [stored plane][gamma]
};

}  // namespace dapple
