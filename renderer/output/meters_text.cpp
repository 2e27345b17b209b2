#include "output/meters_text.h"

#include <algorithm>

#include "base/number_words.h"
#include "develop/exposure.h"
#include "film/printed_error.h"
#include "output/json_parts.h"
#include "output/text_table.h"

namespace dapple {

namespace {

// Four digits, more than any reading is known to.
std::string lux_text(double lux) {
    if (lux >= 1000) return formatted("%.0f", lux);
    if (lux >= 100) return formatted("%.1f", lux);
    return formatted(lux >= 10 ? "%.2f" : "%.3g", lux);
}

std::string error_text(double lux, double error, int passes) {
    if (!(lux > 0)) return "";
    const auto shown = printed_error(error, passes);
    return shown && error > 0 ? formatted("± %.2f %%", 100 * *shown / lux) : "not known";
}

// What the errors are, or what they need.
std::string error_note(int passes) {
    return passes < kPassesToKnowSpread
               ? formatted("; errors need %d passes.\n", kPassesToKnowSpread)
               : std::string(".\n± holds in 68 of 100 cases.\n");
}

std::string shutter_text(double seconds) {
    return seconds < 0.4 ? formatted("1/%.0f s", 1 / seconds) : formatted("%.3g s", seconds);
}

std::string right(const std::string& text, size_t width) {
    const size_t used = columns(text);
    return std::string(used < width ? width - used : 0, ' ') + text;
}

std::string verdict(const MeterJudgement& m) {
    if (!(m.lux > 0)) return "no light reaches it";
    const std::string kind = m.receptor == ReceptorKind::kDome ? ", dome" : "";
    return "f/" + padded(f_stop_text(m.f_number), 11) + signed_number(m.stops_from_camera, 1) +
           " stops" + kind;
}

}  // namespace

std::string meters_json_text(const std::vector<MeterJudgement>& meters,
                             const Scene& scene,
                             const RunReport& report) {
    nlohmann::ordered_json file = {{"title", scene.title}};
    add_run(file, report);
    file["f_number"] = json_number(scene.camera.f_number);
    file["shutter_s"] = json_number(scene.camera.shutter);
    file["iso"] = json_number(scene.camera.iso);
    file["meters"] = meters_json(meters);
    return json_text(file);
}

std::string meters_table_text(const std::vector<MeterJudgement>& meters,
                              const Scene& scene,
                              int passes) {
    const Camera& camera = scene.camera;
    size_t width = 5;
    for (const MeterJudgement& m : meters) {
        width = std::max(width, columns(m.name));
        for (const std::string& name : m.fixtures) width = std::max(width, columns(name) + 2);
    }
    std::string text = "At " + shutter_text(camera.shutter) +
                       formatted(", ISO %g", static_cast<double>(camera.iso)) +
                       "; stops from the camera's " +
                       formatted("f/%g", static_cast<double>(camera.f_number)) + error_note(passes);
    text += padded("meter", width) + right("lux", 10) + right("error", 12) + "  f-stop\n";
    for (const MeterJudgement& m : meters) {
        text += padded(m.name, width) + right(lux_text(m.lux), 10) +
                right(error_text(m.lux, m.lux_stderr, passes), 12) + "  " + verdict(m) + "\n";
        for (size_t f = 0; f < m.by_fixture.size(); ++f) {
            const FixtureReading& part = m.by_fixture[f];
            if (!(part.lux > 0)) continue;
            text += padded("  " + m.fixtures[f], width) + right(lux_text(part.lux), 10) +
                    right(error_text(part.lux, part.lux_stderr, passes), 12) + "\n";
        }
    }
    return text;
}

}  // namespace dapple
