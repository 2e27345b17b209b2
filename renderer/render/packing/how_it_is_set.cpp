#include "render/packing/how_it_is_set.h"

#include <array>
#include <cmath>

#include "base/units.h"
#include "scene/day_sheet.h"
#include "scene/fixtures/gel_in_words.h"

namespace dapple {

namespace {

// Adds a part to a list with commas.
void add(std::string& text, const std::string& part) {
    if (part.empty()) return;
    text += (text.empty() ? "" : ", ") + part;
}

double degrees(double radians) {
    return degrees_from_radians(radians);
}

std::string turn_words(const char* word, float radians) {
    if (radians == 0) return "";
    return printed("%s %.4g°", word, std::round(100 * degrees(radians)) / 100);
}

std::string surface_words(const GlassObject& glass) {
    switch (glass.surface) {
        case GlassSurface::kPlain:
            return "";
        case GlassSurface::kRibbed:
            return printed("%d ribs", glass.ribs);
        case GlassSurface::kReeded:
            return "reeded";
        case GlassSurface::kHammered:
            return "hammered";
        case GlassSurface::kWavy:
            break;
    }
    return "wavy";
}

std::string attachment_words(const Fixture& f) {
    std::string text;
    if (f.barn_doors) {
        const std::array<float, 4>& d = *f.barn_doors;
        add(text,
            printed("doors %.0f %.0f %.0f %.0f°",
                    degrees(d[0]),
                    degrees(d[1]),
                    degrees(d[2]),
                    degrees(d[3])));
    }
    if (f.snoot_diameter > 0) {
        add(text, printed("snoot %.0f x %.0f mm", 1e3 * f.snoot_diameter, 1e3 * f.snoot_length));
    }
    if (f.wide_beam_angle > 0) add(text, "wide-angle attachment");
    return text;
}

}  // namespace

std::string fixture_words(const Fixture& f) {
    constexpr std::array<const char*, 4> kSourceWords = {
        "LED", "tungsten", "daylight", "equal-energy"};
    constexpr std::array<const char*, 3> kFormWords = {"spot", "bare lamp", "panel"};
    return std::string(kSourceWords[static_cast<size_t>(f.source)]) + " " +
           kFormWords[static_cast<size_t>(f.form)];
}

std::string gel_words(const Gel& gel) {
    if (!gel.is_there()) return "";
    std::string text;
    if (gel.spectrum) add(text, "own sheet");
    if (gel.shift_mired != 0) add(text, printed("%+.0f mired", gel.shift_mired));
    if (gel.stops != 0) add(text, printed("%.3g stops", gel.stops));
    const std::string name = gel.spectrum ? "" : name_of_gel(gel.shift_mired);
    return name.empty() ? text : name + " (" + text + ")";
}

std::string how_fixture_is_set(const Fixture& f, const PackedFixture& packed) {
    std::string text = fixture_words(f);
    if (f.power_w > 0) text += printed(" %g W", static_cast<double>(f.power_w));
    if (packed.beam_angle) add(text, printed("beam %.0f°", degrees(*packed.beam_angle)));
    if (f.form == FixtureForm::kPanel) {
        add(text,
            printed("%.2f x %.2f m",
                    static_cast<double>(f.panel_size.x),
                    static_cast<double>(f.panel_size.y)));
    }
    const bool changes = has_other_colour(packed);
    add(text, printed("%.0f K", static_cast<double>(f.cct_k)) + (changes ? " at full" : ""));
    if (f.dimmer < 1) {
        const char* how = f.source != SourceKind::kTungsten ? "dimmer"
                          : f.dimmer_warms                  ? "dimmed"
                                                            : "scrims";
        add(text, printed("%s %.0f %%", how, 100.0 * f.dimmer));
    }
    if (f.gel.is_there()) add(text, "gel " + gel_words(f.gel));
    if (changes) add(text, printed("%.0f K as set", packed.cct_k));
    add(text, attachment_words(f));
    add(text, turn_words("turned", f.turn));
    return text;
}

std::string glass_words(const GlassObject& glass) {
    constexpr std::array<const char*, 9> kFormWords = {
        "glass", "jar", "bottle", "tumbler", "pane", "ball", "demijohn", "carafe", "rod"};
    const std::string form = kFormWords[static_cast<size_t>(glass.form)];
    if (glass.form == GlassForm::kMesh) return form;
    if (glass.form == GlassForm::kBall) return form + printed(" %.0f mm", 1e3 * glass.diameter);
    const double across = glass.form == GlassForm::kPane ? glass.width : glass.diameter;
    return form + printed(" %.0f x %.0f mm", 1e3 * glass.height, 1e3 * across);
}

std::string fill_words(const GlassObject& glass, const Scene& scene) {
    if (glass.liquid == kNoMaterial) return "";
    const Material& liquid = scene.materials[static_cast<size_t>(glass.liquid)];
    return std::string(liquid.glass == GlassType::kOil ? "oil" : "water") +
           printed(", %.0f %% full", 100.0 * glass.liquid_level);
}

std::string how_glass_is_set(const GlassObject& glass, const Scene& scene) {
    std::string text = glass_words(glass);
    add(text, surface_words(glass));
    add(text, fill_words(glass, scene));
    add(text, turn_words("turned", glass.turn));
    add(text, turn_words("tilted", glass.tilt));
    return text;
}

std::string board_size_words(const Board& board) {
    if (board.round) return printed("%.2f m round", static_cast<double>(board.size.x));
    return printed(
        "%.2f x %.2f m", static_cast<double>(board.size.x), static_cast<double>(board.size.y));
}

std::string how_board_is_set(const Board& board, const Scene& scene) {
    std::string text = board.cloth.empty() ? board.kit : board.cloth;
    add(text, board_size_words(board));
    if (board.kind == BoardKind::kDiffuser && board.cloth.empty() && board.kit.empty()) {
        const Material& cloth = scene.materials[static_cast<size_t>(board.material)];
        add(text,
            printed("passes %.0f %%, spreads %.0f°",
                    100.0 * cloth.transmission,
                    degrees(cloth.spread)));
    }
    for (const Fixture& f : scene.fixtures) {
        if (board.clipped_to.empty() || board.clipped_to != f.name) continue;
        const double mm = 1e3 * glm::length(board.centre - f.position);
        add(text, printed("clipped %.0f mm in front of ", mm) + f.name);
    }
    return text;
}

std::string how_figure_is_set(const StandIn& figure) {
    constexpr std::array<const char*, 3> kPoseWords = {"standing", "seated", "arm raised"};
    std::string text = printed("%.2f m tall", static_cast<double>(figure.height));
    add(text, kPoseWords[static_cast<size_t>(figure.pose)]);
    add(text, turn_words("turned", figure.turn));
    return text;
}

std::string how_meter_is_set(const Meter& meter) {
    if (meter.receptor == ReceptorKind::kDome) return "dome";
    if (meter.size.x > 0) {
        return printed("flat, mean over %.2f x %.2f m",
                       static_cast<double>(meter.size.x),
                       static_cast<double>(meter.size.y));
    }
    return "flat";
}

std::string how_camera_is_set(const Camera& camera) {
    std::string text = printed(
        "%.4g mm lens, f/%.3g, ", 1e3 * camera.focal_length, static_cast<double>(camera.f_number));
    text += shutter_words(camera) + printed(", ISO %.0f", static_cast<double>(camera.iso));
    add(text, printed("white %.0f K", static_cast<double>(camera.white_k)));
    if (camera.focus_distance > 0) {
        add(text, printed("focus %.2f m", static_cast<double>(camera.focus_distance)));
    }
    return text;
}

}  // namespace dapple
