// The effect of a camera's white balance on colours, and the primaries of the picture.
#include <doctest/doctest.h>

#include <string>

#include "published/published.h"
#include "spectrum/white_balance.h"

namespace adaptation_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("White balance");

// Printed matrices are in rows; GLM stores columns.
void check_matrix(const std::string& name,
                  const std::string& source,
                  const char* const (&printed)[3][3],
                  const DMat3& found,
                  const Allowance& allowance = {}) {
    for (int row = 0; row < 3; ++row) {
        for (int column = 0; column < 3; ++column) {
            kSubject.exact(name + ", row " + std::to_string(row + 1) + ", column " +
                               std::to_string(column + 1),
                           source,
                           "",
                           printed[row][column],
                           found[column][row],
                           allowance);
        }
    }
}

}  // namespace

TEST_CASE("adaptation from tungsten to daylight is the published matrix") {
    const Xyz a(1.098503, 1, 0.355849);
    const Xyz d65(0.950470, 1, 1.088828);
    const char* const printed[3][3] = {{"0.844696", "-0.117924", "0.394811"},
                                       {"-0.136632", "1.104125", "0.129172"},
                                       {"0.079849", "-0.134900", "3.192403"}};
    check_matrix("Bradford, A to D65",
                 "CIE 159:2004, linear form, recomputed",
                 printed,
                 bradford_adaptation(a, d65));
    const Xyz seen = bradford_adaptation(a, d65) * a;
    kSubject.exact("white under A becomes D65, X", "CIE 15:2018", "", "0.95047", seen.x);
    kSubject.exact("white under A becomes D65, Z", "CIE 15:2018", "", "1.08883", seen.z);
}

// Our white is the XYZ of our own 380–780 nm curve of D65, (0.31274, 0.32905). So white in the room
// is white in the picture to all digits (spectrum/white_balance.h). The standards round this white
// to (0.3127, 0.3290), which changes their matrices by up to 5e-4 (Z of blue).
TEST_CASE("the picture's primaries are those of the published matrices") {
    const Allowance white{5e-4, "white is our own D65 curve's, not the rounded 0.3127, 0.3290"};
    const char* const to_xyz[3][3] = {{"0.4124", "0.3576", "0.1805"},
                                      {"0.2126", "0.7152", "0.0722"},
                                      {"0.0193", "0.1192", "0.9505"}};
    check_matrix("linear sRGB to XYZ",
                 "IEC 61966-2-1:1999 (from memory)",
                 to_xyz,
                 xyz_from_linear_rec709(),
                 white);
    const char* const by_primaries[3][3] = {{"0.4123907993", "0.3575843394", "0.1804807884"},
                                            {"0.2126390059", "0.7151686788", "0.0721923154"},
                                            {"0.0193308187", "0.1191947798", "0.9505321522"}};
    check_matrix("linear Rec.709 to XYZ",
                 "ITU-R BT.709-6, primaries and white, recomputed",
                 by_primaries,
                 xyz_from_linear_rec709(),
                 white);
    // The element from Z to blue is 1.06 in the inverse, so that its change is about as large as
    // the 4.5e-4 above.
    const Allowance inverse{6e-4, white.reason};
    const char* const from_xyz[3][3] = {{"3.2409699419", "-1.5373831776", "-0.4986107603"},
                                        {"-0.9692436363", "1.8759675015", "0.0415550574"},
                                        {"0.0556300797", "-0.2039769589", "1.0569715142"}};
    check_matrix("XYZ to linear Rec.709",
                 "ITU-R BT.709-6, primaries and white, recomputed",
                 from_xyz,
                 linear_rec709_from_xyz(),
                 inverse);
}

}  // namespace adaptation_test
