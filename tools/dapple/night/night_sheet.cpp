#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <numeric>

#include "night/night_files.h"
#include "output/read_exr.h"
#include "render_files.h"
#include "sheet_files.h"
#include "sheets/reduce_picture.h"

namespace dapple {

namespace {

// Variants that have a film: by rank, then those without one in the order of the plan.
std::vector<size_t> order_of(const std::vector<NightVariantState>& states) {
    std::vector<size_t> order(states.size());
    std::iota(order.begin(), order.end(), size_t{0});
    std::erase_if(order, [&](size_t i) { return states[i].state.passes == 0; });
    const auto place = [&](size_t i) {
        return states[i].rank > 0 ? static_cast<size_t>(states[i].rank) : states.size() + 1 + i;
    };
    std::sort(order.begin(), order.end(), [&](size_t a, size_t b) { return place(a) < place(b); });
    return order;
}

std::string number(const char* format, double value) {
    char text[32];
    std::snprintf(text, sizeof text, format, value);
    return text;
}

std::string measures_text(const NightPlan& plan, const NightVariantState& state) {
    std::string text;
    for (size_t w = 0; w < state.measures.size(); ++w) {
        const std::string value =
            state.measures[w] ? number("%.3g", *state.measures[w]) : "not known";
        text += plan.file.wishes[w].measure + " " + value + "; ";
    }
    text += std::to_string(state.state.passes) + " passes";
    if (state.state.noise_percent) {
        text += number(", noise %.1f %%", *state.state.noise_percent);
    }
    return text;
}

}  // namespace

void write_night_sheet(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states) {
    const std::vector<size_t> order = order_of(states);
    if (order.empty()) return;
    ContactSheet sheet{plan.stem, std::to_string(order.size()) + " variants", {}};
    for (const size_t i : order) {
        const RenderFiles files(plan.folder_of(folder, i), plan.stem);
        const FilmRecord record = read_exr(files.exr);
        if (!record.title.empty()) sheet.heading = record.title;
        const std::string rank =
            states[i].rank > 0 ? std::to_string(states[i].rank) + ". " : std::string();
        sheet.frames.push_back({reduce_picture(developed(record), contact_frame_side(order.size())),
                                rank + plan.variants[i].variant.caption,
                                measures_text(plan, states[i])});
    }
    FinishedFiles files;
    add_contact_sheet((std::filesystem::path(folder) / "sheet").string(), sheet, files);
    for (const std::unique_ptr<SafeFile>& file : files) file->commit();
}

}  // namespace dapple
