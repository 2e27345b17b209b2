#include "output/glare_text.h"

#include <algorithm>
#include <cmath>

#include "base/number_words.h"
#include "base/units.h"
#include "develop/exposure.h"
#include "output/measure_text.h"
#include "output/text_table.h"

namespace dapple {

namespace {

constexpr size_t kMostLamps = 4;
constexpr size_t kMostGhostsTold = 3;  // of one lamp
constexpr double kFaintGhost = -7;     // stops under white: no one sees it

std::string lens_text(const GlareReport& report) {
    std::string text = "  ";
    if (!report.lens.empty()) {
        text += report.lens + " lens" + formatted(" at f/%.3g, ", report.f_number);
    }
    if (report.hood_mm > 0) text += formatted("hood %.0f mm, ", report.hood_mm);
    const double index = 100 * std::max(report.index, report.ghosts_index);
    text += "veiling glare index " + round_number(index, 2) + " %";
    if (report.ghosts_index > report.index) {
        text += ", by its ghosts alone: there is no other veil";
    } else if (!report.lens.empty()) {
        text += ", of it ghosts " + round_number(100 * report.ghosts_index, 2) + " %";
    }
    return text + "\n";
}

std::vector<std::string> part_row(const GlarePart& part) {
    std::string of;
    for (size_t i = 0; i < std::min<size_t>(2, part.by_fixture.size()); ++i) {
        of += (of.empty() ? "" : ", ") + part.by_fixture[i].fixture +
              formatted(" %.0f %%", 100 * part.by_fixture[i].share);
    }
    return {"  " + part.name,
            measure_text(part.contrast_lost, 2),
            measure_text(part.shadows_raised, 2),
            of};
}

std::string way_text(const GlareLamp& lamp) {
    switch (lamp.way) {
        case SeenWay::kDirect:
            break;
        case SeenWay::kInMirror:
            return lamp.mirror.empty() ? ", in a mirror" : ", reflected by \"" + lamp.mirror + "\"";
        case SeenWay::kThroughGlass:
            return ", through glass";
    }
    return "";
}

std::string ghosts_text(const GlareLamp& lamp, double white) {
    std::string text;
    size_t count = 0;
    for (const Ghost& ghost : lamp.ghosts) {
        const double stops = std::log2(ghost.luminance / white);
        if (stops < kFaintGhost || count == kMostGhostsTold) continue;
        ++count;
        text += formatted("    ghost about px %.0f, %.0f, %.0f px wide, %+.1f stops about white\n",
                          ghost.at.x,
                          ghost.at.y,
                          ghost.diameter,
                          stops);
    }
    return text;
}

std::string other_advice(const GlareLamp& lamp) {
    if (lamp.way == SeenWay::kInMirror) {
        return "put a flag between it and what reflects it, or make that matt";
    }
    return lamp.in_picture ? "it is in the picture: dim it, or hide it behind something"
                           : "put a flag between it and the lens";
}

std::string advice_text(const GlareLamp& lamp) {
    std::string text;
    const auto add = [&](const std::string& advice) {
        text += (text.empty() ? "" : "; or ") + advice;
    };
    if (lamp.lit_share <= 0) return "    the hood shades the lens from it\n";
    if (lamp.hood_mm) add(formatted("a hood of %.0f mm shades the lens from it", *lamp.hood_mm));
    if (lamp.move_m) add(formatted("move it %.2f m further out", *lamp.move_m));
    if (lamp.turn_away_deg) add(formatted("turn it %.0f° away from the lens", *lamp.turn_away_deg));
    if (text.empty()) text = other_advice(lamp);
    return "    " + text + "\n";
}

std::string lamp_text(const GlareLamp& lamp, double white) {
    std::string text = "  " + lamp.fixture + way_text(lamp) +
                       formatted(": %.0f° off the axis, ", degrees_from_radians(lamp.angle)) +
                       (lamp.lux < 10 ? round_number(lamp.lux, 2) : formatted("%.0f", lamp.lux)) +
                       " lx on the lens";
    if (lamp.in_picture) text += ", in the picture";
    return text + "\n" + ghosts_text(lamp, white) + advice_text(lamp);
}

}  // namespace

std::string glare_text(const GlareJudgement& glare, const FilmRecord& record) {
    const double white = white_luminance(record.camera);
    std::string text = lens_text(record.glare_report);
    std::vector<std::vector<std::string>> rows = {
        {"", "contrast lost", "shadows raised", "stops; mostly of"}, part_row(glare.picture)};
    for (const GlarePart& part : glare.regions) rows.push_back(part_row(part));
    text += table_text(rows);
    const std::vector<GlareLamp>& lamps = record.glare_report.lamps;
    if (lamps.empty()) return text + "  no lamp shines into the lens\n";
    for (size_t i = 0; i < std::min(kMostLamps, lamps.size()); ++i)
        text += lamp_text(lamps[i], white);
    if (lamps.size() > kMostLamps) {
        text += formatted("  and %zu weaker ones\n", lamps.size() - kMostLamps);
    }
    return text;
}

}  // namespace dapple
