#include "night/morning.h"

#include <filesystem>

#include "base/problems.h"
#include "night/night_tables.h"
#include "output/read_exr.h"
#include "output/read_texture.h"
#include "output/safe_file.h"
#include "page/make_page.h"
#include "render_files.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr size_t kMostSliders = 12;         // variants with a page of their own
constexpr size_t kSliderBytes = 3'000'000;  // of each

std::string sliders_path(const std::string& folder, const NightPlan& plan, size_t variant) {
    return (fs::path(plan.folder_of(folder, variant)) / (plan.stem + ".html")).string();
}

// A page of an older film would show other light than its picture.
void write_sliders(const std::string& folder,
                   const NightPlan& plan,
                   const std::vector<NightVariantState>& states) {
    size_t made = 0;
    for (const size_t i : order_of_variants(states)) {
        std::error_code error;
        fs::remove(sliders_path(folder, plan, i), error);
        if (states[i].state.passes == 0 || made == kMostSliders) continue;
        try {
            const FilmRecord film = read_exr(RenderFiles(plan.folder_of(folder, i), plan.stem).exr);
            write_text(sliders_path(folder, plan, i),
                       make_page(film, {plan.stem, kSliderBytes, false}).html);
            ++made;
        } catch (const FileError&) {
            // The variant has no film any more; the page of the night has no link then.
        }
    }
}

}  // namespace

std::optional<Picture> night_picture(const std::string& folder,
                                     const NightPlan& plan,
                                     size_t variant) {
    try {
        const Texture texture = read_texture(
            {RenderFiles(plan.folder_of(folder, variant), plan.stem).png, nullptr, false});
        if (texture.channels != 3) return std::nullopt;
        Picture picture{texture.width, texture.height, {}};
        for (size_t i = 0; i + 2 < texture.texels.size(); i += 3) {
            const auto part = [&](size_t c) {
                return static_cast<float>(texture.texels[i + c]) / 255.0F;
            };
            picture.pixels.emplace_back(part(0), part(1), part(2));
        }
        return picture;
    } catch (const FileError&) {
        return std::nullopt;
    }
}

void write_morning(const std::string& folder,
                   const NightPlan& plan,
                   std::vector<NightVariantState>& states,
                   bool with_sliders) {
    rank_variants(plan, states);
    write_night_files(folder, plan, states);
    if (with_sliders) write_sliders(folder, plan, states);
    write_night_sheet(folder, plan, states);
    write_night_page(folder, plan, states);
}

}  // namespace dapple
