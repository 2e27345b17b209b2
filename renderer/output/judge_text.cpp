#include "output/judge_text.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include "base/number_words.h"
#include "develop/exposure.h"
#include "judge/words.h"
#include "output/glare_text.h"
#include "output/in_frame_text.h"
#include "output/measure_text.h"
#include "output/text_table.h"

namespace dapple {

namespace {

constexpr size_t kMostThings = 6;      // in the frame
constexpr double kTellLeftOut = 0.01;  // of the frame's light

using Row = std::vector<std::string>;

constexpr size_t kScreenWidth = 98;

std::string heading(const std::string& title, const std::string& direction) {
    return "\n" + (direction.empty() ? title : padded(title, 16) + direction) + "\n";
}

std::string setting_text(const Camera& camera) {
    const auto shutter = static_cast<double>(camera.shutter);
    return formatted("f/%g", static_cast<double>(camera.f_number)) +
           (shutter < 0.4 ? formatted(", 1/%.0f s", 1 / shutter) : formatted(", %.3g s", shutter)) +
           formatted(", ISO %g", static_cast<double>(camera.iso));
}

std::string title_text(const FilmStatistics& statistics, const FilmRecord& record) {
    const int passes = record.run.passes;
    const std::string frame = formatted("%d x %d, ", record.width(), record.height()) +
                              setting_text(record.camera) +
                              formatted(passes == 1 ? ", %d pass\n" : ", %d passes\n", passes);
    const bool fits = columns(record.title) + columns(frame) + 2 <= kScreenWidth;
    std::string text = record.title;
    if (!text.empty()) text += fits ? ": " : "\n";
    text += frame;
    if (!statistics.noise_known) {
        return text +
               "One pass does not show its own noise. Not known yet: errors, ratios, regions, deep "
               "shadow,\nclipping and hot spots. More passes tell them (--seconds, --passes).\n";
    }
    text +=
        "± holds in 68 of 100 cases; without ±, less than half of the last digit. - is not "
        "known.\n";
    if (passes == 0 || passes >= kPassesToKnowSpread) return text;
    return text + formatted("The ± of meters is not known yet: it needs %d passes.\n",
                            kPassesToKnowSpread);
}

// Words wrapped to the screen, with an indent.
std::string wrapped(const std::vector<std::string>& parts, const std::string& first) {
    std::string text;
    std::string line = first;
    for (size_t i = 0; i < parts.size(); ++i) {
        const std::string part = parts[i] + (i + 1 < parts.size() ? "," : "");
        if (columns(line) + 1 + columns(part) > kScreenWidth && line != first) {
            text += line + "\n";
            line = std::string(columns(first), ' ');
        }
        line += " " + part;
    }
    return text + line + "\n";
}

// The two fixtures that give a meter most, "key 78 %, fill 20 %".
std::string strongest_text(const MeterJudgement& meter) {
    std::vector<std::pair<double, std::string>> parts;
    for (size_t f = 0; f < meter.by_fixture.size(); ++f) {
        parts.emplace_back(meter.by_fixture[f].lux / meter.lux, meter.fixtures[f]);
    }
    std::sort(parts.rbegin(), parts.rend());
    std::string text;
    for (size_t i = 0; i < std::min<size_t>(2, parts.size()); ++i) {
        if (!(parts[i].first > 0.005)) continue;
        text += (text.empty() ? "" : ", ") + parts[i].second +
                formatted(" %.0f %%", 100 * parts[i].first);
    }
    return text;
}

std::string meters_text(const FilmStatistics& statistics) {
    if (statistics.meters.empty()) {
        return heading("LIGHT", "not known: the set has no [[meter]]");
    }
    std::vector<Row> rows = {{"", "", "meter", "stops", "lux", "mostly of"}};
    for (const MeterJudgement& m : statistics.meters) {
        if (!(m.lux > 0)) {
            rows.push_back({"  " + m.name, "no light"});
            continue;
        }
        const Measure stops = statistics.stops_of(m);
        rows.push_back({"  " + m.name,
                        light_word(stops),
                        "f/" + f_stop_text(m.f_number),
                        signed_text(stops, 2),
                        formatted(m.lux < 10 ? "%.2f" : "%.0f", m.lux),
                        strongest_text(m)});
    }
    return heading("LIGHT", kDirections[0].direction) + table_text(rows);
}

constexpr double kRatiosDiffer = 0.5;  // stops

// Where a ratio is taken: by hand meters, or on the figure as the lens sees it.
std::string ratio_source(const Ratio& ratio) {
    return ratio.from == "meters" ? "by the meters" : "on the figure";
}

// Why key to fill by the meters and on the figure are far apart; "" if they are not.
std::string two_ratios_text(const FilmStatistics& statistics) {
    std::vector<double> stops;
    for (const Ratio& r : statistics.ratios) {
        if (r.name == "key : fill" && r.value && *r.value > 0) stops.push_back(std::log2(*r.value));
    }
    if (stops.size() < 2 || std::abs(stops[0] - stops[1]) <= kRatiosDiffer) return "";
    return formatted("  They are %.1f stops apart: ", std::abs(stops[0] - stops[1])) +
           "meters stand elsewhere and face their own way, the figure is the skin\n"
           "  that the lens sees. Go by the figure for the picture, by the meters to set lamps.\n";
}

std::string ratios_text(const FilmStatistics& statistics) {
    std::vector<Row> rows;
    for (const Ratio& r : statistics.ratios) {
        if (!r.value) {
            rows.push_back({"  " + ratio_source(r), r.name, "not known", r.value.why});
            continue;
        }
        rows.push_back({"  " + ratio_source(r),
                        r.name,
                        ratio_word(r.value),
                        measure_text(r.value, 2) + " : 1",
                        signed_number(std::log2(std::max(*r.value, 1e-6)), 1) + " stops"});
    }
    std::string text = heading("RATIOS", kDirections[1].direction) + table_text(rows);
    for (const Ratio& r : statistics.ratios) {
        if (r.name != "key : fill" || !r.value) continue;
        text += "  " + ratio_source(r) + ": " + r.definition + "\n";
    }
    return text + two_ratios_text(statistics);
}

// The reasons for what is not known, each with the parts of the frame that it holds for.
using Reasons = std::map<std::string, std::vector<std::string>>;

Row region_row(const RegionJudgement& r, Reasons& reasons) {
    const auto note = [&](const Measure& m, const std::string& what) {
        if (m) return;
        std::vector<std::string>& of = reasons[m.why];
        const std::string name = r.name + (what.empty() ? "" : " " + what);
        if (std::find(of.begin(), of.end(), r.name) == of.end()) of.push_back(name);
    };
    if (r.pixels == 0) {
        note(r.mean_luminance, "");
        return {"  " + r.name, "-", "-", "-", "-", "-", "-"};
    }
    const Pattern& p = r.pattern;
    note(p.texture_stops, "");
    if (p.texture_stops) note(p.patch_cm, "patches");
    note(r.tones.deep_shadow, "");
    return {"  " + r.name,
            p.texture_stops ? texture_word(*p.texture_stops) : "-",
            measure_text(p.texture_stops, 2),
            measure_text(p.patch_cm, 1),
            share_text(p.cover),
            r.tones.deep_shadow
                ? shadow_word(*r.tones.deep_shadow) + ", " + share_text(r.tones.deep_shadow)
                : "-",
            share_text(r.tones.clipped)};
}

std::string regions_text(const FilmStatistics& statistics) {
    std::vector<RegionJudgement> parts = statistics.regions;
    parts.insert(parts.end(), statistics.sides.begin(), statistics.sides.end());
    std::vector<Row> rows = {
        {"", "texture", "stops", "patches cm", "cover", "deep shadow", "clipped"}};
    Reasons reasons;
    for (const RegionJudgement& part : parts) rows.push_back(region_row(part, reasons));
    std::string text =
        heading("REGIONS", "texture: more stops are more broken up; patches: smaller is finer;");
    text += std::string(16, ' ') +
            "cover: more leaves less dark between; deep shadow, clipped: less keeps more detail\n";
    if (parts.empty()) return text + "  none: the set has no [[region]], the frame no figure\n";
    text += table_text(rows);
    for (const auto& [why, of] : reasons) text += wrapped(of, "  - " + why + ":");
    return text;
}

std::string picture_text(const FilmStatistics& statistics) {
    const Tones& tones = statistics.tones;
    std::string text = heading(
        "PICTURE", statistics.noise_known ? "deep shadow, clipped: less keeps more detail" : "");
    if (tones.deep_shadow) {
        text += "  shadows " + shadow_word(*tones.deep_shadow) + ", " +
                share_text(tones.deep_shadow) + " in deep shadow; highlights " +
                clipping_word(*tones.clipped) + ", " + share_text(tones.clipped) + " clipped\n";
    } else if (statistics.noise_known) {
        text += "  deep shadow and clipping " + tones.deep_shadow.why + "\n";
    }
    std::vector<FixtureShare> fixtures = statistics.fixtures;
    std::stable_sort(fixtures.begin(), fixtures.end(), [](const auto& a, const auto& b) {
        return a.share > b.share;
    });
    std::vector<std::string> parts;
    for (const FixtureShare& f : fixtures) {
        parts.push_back(f.name + formatted(" %.0f %%", 100 * f.share));
    }
    text += wrapped(parts, "  its light:");
    const LampFacesJudgement& faces = statistics.lamp_faces;
    if (faces.pixels > 0) {
        text += formatted("  left out: %d px of lamps' own faces, %.0f %% of the frame's light\n",
                          faces.pixels,
                          100 * faces.share);
    }
    const double unshown = statistics.left_out_of_clean.value_or(0);
    if (unshown >= kTellLeftOut) {
        text += formatted(
            "  not in the clean picture: %.0f %% of the frame's light, bright points "
            "that few passes have found\n",
            100 * unshown);
    }
    return text;
}

std::string hot_spots_text(const HotSpots& spots) {
    std::string text = heading("HOT SPOTS", kDirections[6].direction);
    if (!spots.why.empty()) return text + "  " + spots.why + "\n";
    std::vector<Row> rows;
    for (const HotSpot& s : spots.list) {
        rows.push_back({"  " + s.where,
                        formatted("px %d, %d", s.x, s.y),
                        s.surface.empty() ? "" : "on " + s.surface,
                        signed_text(s.stops, 1) + " stops",
                        s.over_lit_side ? signed_number(*s.over_lit_side, 1) : "",
                        s.fixture + formatted(" %.0f %%", 100 * s.share)});
    }
    rows.insert(rows.begin(), {"", "", "", "about mid-grey", "over lit side", "of"});
    return text + table_text(rows);
}

std::string in_frame_text(const InFrame& frame) {
    std::string text = heading(
        "IN THE FRAME", "of the set, unless you put it there on purpose; less is less to retouch");
    if (frame.width == 0) return text + "  not known: the film has no list of it\n";
    if (frame.things.empty()) return text + "  nothing that should not be seen\n";
    std::istringstream lines(in_frame_lines(frame));
    size_t count = 0;
    for (std::string line; std::getline(lines, line);) {
        if (++count > kMostThings) continue;
        line = "  " + line.substr(line.find(": ") + 2);
        const size_t advice = line.find("; ");
        const bool breaks = columns(line) > kScreenWidth && advice != std::string::npos;
        text += (breaks ? line.replace(advice, 2, "\n      ") : line) + "\n";
    }
    if (count > kMostThings) {
        text += formatted("  and %zu smaller ones; dapple check lists them\n", count - kMostThings);
    }
    return text;
}

std::string lens_light_text(const FilmStatistics& statistics, const FilmRecord& record) {
    if (!statistics.glare) return "";
    return heading("GLARE", "what the lens adds on its own; less keeps more contrast") +
           glare_text(*statistics.glare, record);
}

}  // namespace

std::string judge_text(const FilmStatistics& statistics, const FilmRecord& record) {
    const bool is_known = statistics.noise_known;
    return title_text(statistics, record) + meters_text(statistics) +
           (is_known ? ratios_text(statistics) + regions_text(statistics) : "") +
           picture_text(statistics) + (is_known ? hot_spots_text(statistics.hot_spots) : "") +
           lens_light_text(statistics, record) + in_frame_text(record.in_frame);
}

}  // namespace dapple
