#include "scene/camera_and_measures/build_lens.h"

#include <algorithm>

#include "base/units.h"
#include "scene/checks.h"
#include "set/read_lens_table.h"

namespace dapple {

namespace {

constexpr double kUsualVeil = 1;   // per cent with a lens; typical 0.5 to 3, ours
constexpr int kMostLensRows = 40;  // rows of a table: 700 pairs of surfaces
constexpr double kMostMm = 1e4;    // mm

// Adds a problem and returns false if the row cannot be part of a lens.
bool check_row(const LensRowDescription& row, Problems& problems) {
    const auto is_wrong =
        [&](bool wrong, const std::string& what, double value, const std::string& allowed) {
            if (wrong) {
                problems.add(
                    row.place, "", what + " is " + number_text(value) + "; must be " + allowed);
            }
            return wrong;
        };
    const double half = row.free_diameter_mm / 2;
    const double radius = std::abs(row.radius_mm);
    return !(
        is_wrong(
            !(half > 0 && half < kMostMm), "the free diameter", row.free_diameter_mm, "above 0") ||
        is_wrong(radius > 0 && half > radius,
                 "the free diameter",
                 row.free_diameter_mm,
                 "at most twice the radius of curvature") ||
        is_wrong(row.thickness_mm < 0 || row.thickness_mm > kMostMm,
                 "the thickness",
                 row.thickness_mm,
                 "0 or more") ||
        is_wrong(row.index < 1 || row.index > 3, "the index", row.index, "from 1 to 3") ||
        is_wrong(row.abbe != 0 && (row.abbe < 10 || row.abbe > 120),
                 "the Abbe number",
                 row.abbe,
                 "from 10 to 120"));
}

std::vector<LensRow> build_rows(const Field<std::string>& path, Problems& problems) {
    if (!check_exists(path, problems)) return {};
    const std::vector<LensRowDescription> written = read_lens_table(path_named_by(path), problems);
    if (written.empty()) return {};
    std::vector<LensRow> rows;
    for (const LensRowDescription& row : written) {
        if (!check_row(row, problems)) return {};
        rows.push_back({row.radius_mm,
                        row.thickness_mm,
                        row.index,
                        row.abbe,
                        row.free_diameter_mm,
                        row.is_stop});
    }
    const auto stops =
        std::count_if(rows.begin(), rows.end(), [](const LensRow& r) { return r.is_stop; });
    const Place& place = written.front().place;
    if (stops != 1) {
        problems.add(
            place, "", "the table has " + std::to_string(stops) + " rows with `stop`; must be one");
        return {};
    }
    if (rows.size() > kMostLensRows || rows.size() < 3 || rows.back().is_stop ||
        rows.back().index != 1) {
        problems.add(place,
                     "",
                     "the table must have 3 to " + std::to_string(kMostLensRows) +
                         " rows, the last a surface with air (index 1) behind it");
        return {};
    }
    return rows;
}

void note_no_lens(const CameraDescription& d, Problems& problems) {
    const std::string why = "there is no lens; add lens = \"normal\"";
    note_unused(d.coating, why, problems);
    note_unused(d.blades, why, problems);
    note_unused(d.blade_turn_deg, why, problems);
    note_unused(d.hood_mm, why, problems);
    note_unused(d.vignetting, why, problems);
    note_unused(d.dust, why, problems);
    note_unused(d.scratches, why, problems);
}

void name_lens(const CameraDescription& d, CameraLens& lens, Problems& problems) {
    if (d.lens.written && d.lens_table.written) {
        problems.add(
            d.lens_table.place, d.lens_table.key, "is given beside lens; give only one of them");
        return;
    }
    lens.name = checked_word<std::string>(
        d.lens, {{"normal", "normal"}, {"wide", "wide"}, {"portrait", "portrait"}}, "", problems);
    if (!d.lens_table.given) return;
    lens.rows = build_rows(d.lens_table, problems);
    if (!lens.rows.empty()) lens.name = d.lens_table.value;
}

}  // namespace

void build_drawing(const CameraDescription& d, CameraLens& lens, Problems& problems) {
    lens.draws = checked_word<bool>(d.draw, {{"thin", false}, {"lens", true}}, false, problems);
    if (!lens.draws) return;
    if (!d.lens.written && !d.lens_table.written) {
        problems.add(d.draw.place, d.draw.key, "needs a lens; add lens = \"normal\"");
    }
    if (!d.focus_m.written && !d.focus_thing.written) {
        problems.add(
            d.draw.place, d.draw.key, "needs focus_m: a lens of glass is sharp at one distance");
    }
    note_unused(d.vignetting, "the picture is drawn through the lens, corners and all", problems);
}

CameraLens build_lens(const CameraDescription& d, Problems& problems) {
    CameraLens lens;
    name_lens(d, lens, problems);
    if (!d.lens.written && !d.lens_table.written) note_no_lens(d, problems);
    lens.coating = checked_word<LensCoating>(d.coating,
                                             {{"none", LensCoating::kNone},
                                              {"single", LensCoating::kSingle},
                                              {"multi", LensCoating::kMulti}},
                                             lens.coating,
                                             problems);
    lens.blades = checked_whole(d.blades, lens.blades, 0, 24, problems);
    if (lens.blades == 1 || lens.blades == 2) {
        problems.add(d.blades.place,
                     d.blades.key,
                     "is " + std::to_string(lens.blades) + "; must be 0 (round) or 3 to 24");
    }
    lens.blade_turn = checked_radians(d.blade_turn_deg, 0, -360, 360, problems);
    lens.hood_length =
        static_cast<float>(metres_from_mm(checked_range(d.hood_mm, 0, 0, 1000, problems)));
    lens.veiling_glare =
        0.01 *
        checked_range(d.veiling_glare_percent, lens.is_glass() ? kUsualVeil : 0, 0, 50, problems);
    lens.vignetting = d.vignetting.given && d.vignetting.value;
    lens.dust = checked_whole(d.dust, 0, 0, 100000, problems);
    lens.scratches = checked_whole(d.scratches, 0, 0, 10000, problems);
    lens.dust_seed = static_cast<uint64_t>(checked_whole(d.dust_seed, 1, 0, 2000000000, problems));
    build_drawing(d, lens, problems);
    if (lens.draws) lens.vignetting = false;
    return lens;
}

}  // namespace dapple
