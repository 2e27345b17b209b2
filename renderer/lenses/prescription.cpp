#include "lenses/prescription.h"

#include <algorithm>

#include "lenses/paraxial.h"

namespace dapple {

namespace {

constexpr double kBlueLine = 486.1;    // nm, F
constexpr double kYellowLine = 587.6;  // d
constexpr double kRedLine = 656.3;     // C

double inverse_square(double nm) {
    return 1 / (nm * nm);
}

}  // namespace

CauchyIndex cauchy_from(double index_d, double abbe) {
    if (!(abbe > 0)) return {index_d, 0};
    const double b =
        (index_d - 1) / (abbe * (inverse_square(kBlueLine) - inverse_square(kRedLine)));
    return {index_d - b * inverse_square(kYellowLine), b};
}

bool Prescription::is_dispersive() const {
    return std::any_of(
        surfaces.begin(), surfaces.end(), [](const LensSurface& s) { return s.behind.b != 0; });
}

Prescription prescription_of(const std::vector<LensRow>& rows) {
    Prescription lens;
    double z = 0;
    CauchyIndex before{1, 0};
    for (const LensRow& row : rows) {
        LensSurface surface;
        surface.vertex = z;
        surface.radius = row.radius;
        surface.free_radius = row.free_diameter / 2;
        surface.is_stop = row.is_stop;
        surface.before = before;
        surface.behind = row.is_stop ? before : cauchy_from(row.index, row.abbe);
        if (row.is_stop) lens.stop = lens.surfaces.size();
        before = surface.behind;
        lens.surfaces.push_back(surface);
        z += row.thickness;
    }
    return lens;
}

Prescription make_prescription(const CameraLens& lens, double focal_length) {
    std::vector<LensRow> rows = lens.rows.empty() ? published_rows(lens.name) : lens.rows;
    const double scale = focal_length / Paraxial(prescription_of(rows), kYellowLine).focal_length();
    for (LensRow& row : rows) {
        row.radius *= scale;
        row.thickness *= scale;
        row.free_diameter *= scale;
    }
    return prescription_of(rows);
}

}  // namespace dapple
