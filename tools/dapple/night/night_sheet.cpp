#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "night/effects_json.h"
#include "night/morning.h"
#include "night/night_tables.h"
#include "render_files.h"
#include "sheet_files.h"
#include "sheets/reduce_picture.h"
#include "variants/knob_words.h"

namespace dapple {

namespace {

std::string measure_text(const std::string& name, const Measure& measure) {
    const MeasureWords words = words_for_measure(name);
    if (!measure) return words.name + " not known";
    std::optional<double> error = measure.shown_error();
    if (error) *error *= words.scale;
    return words.name + " " + figure_text(words.scale * *measure, error) +
           (words.unit.empty() ? "" : " " + words.unit);
}

std::string caption_of(const NightPlan& plan, const NightVariantState& state) {
    std::string text;
    for (size_t w = 0; w < plan.file.wishes.size(); ++w) {
        text += measure_text(plan.file.wishes[w].measure, state.measures[w]) + "; ";
    }
    text += std::to_string(state.state.passes) + " passes";
    if (!state.state.noise_percent) return text;
    char noise[32];
    std::snprintf(noise, sizeof noise, ", noise %.1f %%", *state.state.noise_percent);
    return text + noise;
}

// Below the heading: the exposure, what moved what, and how to read the places.
std::string note_of(const NightPlan& plan,
                    const std::vector<NightVariantState>& states,
                    size_t shown) {
    const std::string exposure = night_exposure(states);
    std::string note = std::to_string(shown) + (shown == 1 ? " variant" : " variants");
    if (shown < states.size()) note += " of " + std::to_string(states.size());
    note += exposure.empty() ? ", each at its own exposure" : ", all at " + exposure;
    for (const std::string& sentence : effect_sentences(plan, states)) note += "\n" + sentence;
    const bool has_ties = std::any_of(states.begin(), states.end(), [](const auto& s) {
        return s.standing.tied.value_or(false);
    });
    if (has_ties) note += "\n" + kTieRule;
    return note;
}

}  // namespace

void write_night_sheet(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states) {
    std::vector<size_t> order = order_of_variants(states);
    std::erase_if(order, [&](size_t i) { return states[i].state.passes == 0; });
    const int side = contact_frame_side(order.size());
    ContactSheet sheet{plan.stem, "", {}};
    for (const size_t i : order) {
        const nlohmann::json& stats = states[i].stats;
        const RenderFiles files(plan.folder_of(folder, i), plan.stem);
        if (!stats.is_object() || !std::filesystem::exists(files.png)) continue;
        const std::string title = stats.value("title", "");
        if (!title.empty()) sheet.heading = title;
        const std::string place = place_text(states[i]);
        const auto picture = [&folder, &plan, side, i] {
            return reduce_picture(night_picture(folder, plan, i).value_or(Picture()), side);
        };
        sheet.frames.push_back(
            {stats.value("width", 1),
             stats.value("height", 1),
             picture,
             (place.empty() ? "" : place + ". ") + plan.variants[i].variant.caption,
             caption_of(plan, states[i])});
    }
    if (sheet.frames.empty()) return;
    sheet.note = note_of(plan, states, sheet.frames.size());
    FinishedFiles files;
    add_contact_sheet((std::filesystem::path(folder) / "sheet").string(), sheet, files);
    for (const std::unique_ptr<SafeFile>& file : files) file->commit();
}

}  // namespace dapple
