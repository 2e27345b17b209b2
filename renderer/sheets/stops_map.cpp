#include "sheets/stops_map.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "develop/develop.h"
#include "develop/exposure.h"
#include "develop/stops_ramp.h"
#include "sheets/isolines.h"
#include "sheets/text_box.h"

namespace dapple {

namespace {

constexpr double kMapWidth = 240;  // mm, of the picture
constexpr double kMargin = 6;
constexpr double kTitleTop = 3;
constexpr double kLegendHeight = 23;
constexpr double kBlurOfWidth = 1.0 / 250;
constexpr double kLeastLine = 0.04;          // of the frame's width; shorter lines are left out
constexpr double kLeastLabel = 0.12;         // the same; shorter lines have no label
constexpr double kDeepShadowStops = -3.526;  // about mid-grey: white/64 over 0.18
constexpr double kWhiteStops = 2.474;        // 1 over 0.18
const Ink kDark{0.08, 0.08, 0.1};
const Ink kLight{1, 1, 1};

Ink ink_of(const Rgb& c) {
    return {static_cast<double>(c.r), static_cast<double>(c.g), static_cast<double>(c.b)};
}

// Dark on light colours, light on dark ones.
Ink ink_on(double stops) {
    return lab_of_srgb(colour_of_stops(stops)).l > 55 ? kDark : kLight;
}

std::string stops_label(double stops) {
    char text[16];
    std::snprintf(text, sizeof text, "%+.0f", stops);
    return stops == 0 ? "0" : stops < 0 ? "−" + std::string(text + 1) : text;
}

// Luminance over that of mid-grey.
ScalarField light_of(const FilmRecord& record) {
    const std::vector<Rgb> light = shown_light(record);
    const glm::dvec3 row = glm::transpose(glm::inverse(develop_matrix(record.camera)))[1];
    const double grey = kMidGrey * white_luminance(record.camera);
    ScalarField field{record.width(), record.height(), {}};
    for (const Rgb& c : light) {
        field.values.push_back(static_cast<float>(glm::dot(row, glm::dvec3(c)) / grey));
    }
    return field;
}

ScalarField in_stops(ScalarField field) {
    const float darkest = std::exp2(static_cast<float>(kRampFirstStop) - 1);
    for (float& v : field.values) v = std::log2(std::max(v, darkest));
    return field;
}

Picture colours_of(const ScalarField& stops) {
    Picture picture{stops.width, stops.height, {}};
    for (const float v : stops.values) {
        picture.pixels.push_back(colour_of_stops(static_cast<double>(v)));
    }
    return picture;
}

// Where the picture is on the page, and pixels to millimetres.
struct Placement {
    PageBox box;
    double mm_per_px = 1;

    std::vector<DVec2> on_page(const std::vector<DVec2>& points) const {
        std::vector<DVec2> result;
        for (const DVec2& p : points) result.push_back(box.low + p * mm_per_px);
        return result;
    }
};

void draw_line(Page& page, const std::vector<DVec2>& points, double stops, bool dashed) {
    const Ink ink = ink_on(stops);
    Ink halo = ink.red > 0.5 ? kDark : kLight;
    halo.opacity = 0.35;
    const std::vector<double> dashes =
        dashed ? std::vector<double>{1.6, 1.0} : std::vector<double>{};
    page.line(points, {0.7, halo, {}});
    page.line(points, {stops == 0 ? 0.45 : 0.25, ink, dashes});
}

// The label of a line where it fits: in the middle, else at other places along it.
void draw_label(Page& page,
                const std::vector<DVec2>& points,
                double stops,
                const PageBox& inside,
                std::vector<PageBox>& taken) {
    const std::string text = stops == kWhiteStops ? "white" : stops_label(stops);
    const TextBox label(text, {.points = 7, .bold = true, .ink = ink_on(stops)});
    for (const double part : {0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6}) {
        const DVec2 centre =
            points[static_cast<size_t>(part * static_cast<double>(points.size() - 1))];
        const DVec2 corner = centre - 0.5 * label.size();
        const PageBox box = label.at(corner).grown(0.6);
        const bool free = std::none_of(
            taken.begin(), taken.end(), [&](const PageBox& b) { return b.overlaps(box); });
        if (!free || !inside.contains(box)) continue;
        Ink back = ink_of(colour_of_stops(stops));
        back.opacity = 0.85;
        page.fill(box, back);
        label.draw(page, corner);
        taken.push_back(box);
        return;
    }
}

void draw_isolines(Page& page, const ScalarField& light, const Placement& placement) {
    const ScalarField smooth = in_stops(blur(light, std::max(0.7, kBlurOfWidth * light.width)));
    std::vector<double> levels = {kWhiteStops};
    for (double stop = kRampFirstStop; stop <= kRampLastStop; ++stop) levels.push_back(stop);
    struct Labelled {
        std::vector<DVec2> points;
        double stops = 0, length = 0;
    };
    std::vector<Labelled> lines;
    for (const double stops : levels) {
        for (const Isoline& line : find_isolines(smooth, stops)) {
            const double length = line.length() / light.width;
            if (length < kLeastLine) continue;
            lines.push_back({placement.on_page(line.points), stops, length});
            draw_line(page, lines.back().points, stops, stops == kWhiteStops);
        }
    }
    std::sort(lines.begin(), lines.end(), [](const Labelled& a, const Labelled& b) {
        return a.length > b.length;
    });
    std::vector<PageBox> taken;
    for (const Labelled& line : lines) {
        if (line.length < kLeastLabel) break;
        draw_label(page, line.points, line.stops, placement.box, taken);
    }
}

void draw_tick(Page& page, double x, double y, double length) {
    page.line({{x, y}, {x, y + length}}, {0.25, kDark, {}});
}

void draw_legend(Page& page, const PageBox& box) {
    const double stops = kRampLastStop - kRampFirstStop;
    const auto x_of = [&](double stop) {
        return box.low.x + (stop - kRampFirstStop) / stops * box.width();
    };
    constexpr double kBar = 5;
    constexpr int kStrips = 256;
    Picture bar{kStrips, 1, {}};
    for (int i = 0; i < kStrips; ++i) bar.pixels.push_back(ramp_colour((i + 0.5) / kStrips));
    const PageBox strip{box.low, {box.high.x, box.low.y + kBar}};
    page.picture(strip, bar);
    page.rectangle(strip, {0.25, kDark, {}});
    for (double stop = kRampFirstStop; stop <= kRampLastStop; ++stop) {
        draw_tick(page, x_of(stop), box.low.y + kBar, 1.2);
        const TextBox label(stops_label(stop), {.points = 8, .ink = kDark});
        const double x =
            std::clamp(x_of(stop) - 0.5 * label.width(), box.low.x, box.high.x - label.width());
        label.draw(page, {x, box.low.y + kBar + 1.4});
    }
    const double words = box.low.y + kBar + 6;
    const auto word = [&](double stop, const char* text) {
        const TextBox label(text, {.points = 7, .ink = kDark});
        draw_tick(page, x_of(stop), words - 0.8, 1.6);
        label.draw(page, {x_of(stop) - 0.5 * label.width(), words + 1});
    };
    word(kDeepShadowStops, "deep shadow below");
    word(0, "mid-grey, an 18 % card in the metered light");
    word(kWhiteStops, "white, clips above");
}

std::string map_title_of(const FilmRecord& record) {
    return record.title.empty() ? "Stops about mid-grey" : record.title + ": stops about mid-grey";
}

}  // namespace

Page make_stops_map(const FilmRecord& record) {
    const double height = kMapWidth * record.height() / record.width();
    const TextBox note(exposure_text(record.camera), {.points = 8, .ink = kDark});
    const TextBox title(
        map_title_of(record),
        {.points = 11, .bold = true, .ink = kDark, .wrap = kMapWidth - note.width() - 4});
    const double top = kTitleTop + title.height() + 2;
    Page page({kMapWidth + 2 * kMargin, top + height + kLegendHeight});
    const Placement placement{{{kMargin, top}, {kMargin + kMapWidth, top + height}},
                              kMapWidth / record.width()};
    page.fill(PageBox{DVec2(0), page.size()}, kLight);
    title.draw(page, {kMargin, kTitleTop});
    note.draw(page, {kMargin + kMapWidth - note.width(), kTitleTop + 1});
    const ScalarField light = light_of(record);
    page.picture(placement.box, colours_of(in_stops(light)));
    page.begin_clip(placement.box);
    draw_isolines(page, light, placement);
    page.end_clip();
    draw_legend(page,
                {{kMargin, placement.box.high.y + 3},
                 {kMargin + kMapWidth, placement.box.high.y + kLegendHeight}});
    return page;
}

double stops_map_dpi(const FilmRecord& record) {
    return std::max(120.0, record.width() / kMapWidth * kMmPerInch);
}

}  // namespace dapple
