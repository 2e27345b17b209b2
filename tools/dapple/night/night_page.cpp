#include "page/night_page.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "night/morning.h"
#include "night/night_tables.h"
#include "output/jpeg_bytes.h"
#include "output/safe_file.h"
#include "sheets/reduce_picture.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr size_t kPictureBytes = 5'500'000;  // of all together; base64 makes 7.3 MB of them
constexpr int kLargestSide = 1600;           // px
constexpr int kSmallestSide = 160;
constexpr int kBestQuality = 90;
constexpr int kWorstQuality = 60;

// How large the pictures are, so that all together are about as many bytes as they may be.
struct PictureSize {
    int side = kLargestSide;
    size_t bytes = 0;  // that one should have

    explicit PictureSize(size_t pictures) : bytes(kPictureBytes / std::max<size_t>(1, pictures)) {}

    // The first picture decides on the side for all, so that all are alike.
    void fit(const Picture& picture) {
        side = std::min(side, std::max(picture.width, picture.height));
        for (int tries = 0; tries < 6 && side > kSmallestSide; ++tries) {
            const size_t own = jpeg_bytes(reduce_picture(picture, side), kBestQuality).size();
            if (own <= bytes) return;
            const double ratio = std::sqrt(static_cast<double>(bytes) / static_cast<double>(own));
            side = std::max(kSmallestSide, static_cast<int>(side * std::min(0.9, ratio)));
        }
    }
    std::string pack(const Picture& picture) const {
        const Picture small = reduce_picture(picture, side);
        for (int quality = kBestQuality;; quality -= 10) {
            std::string packed = jpeg_bytes(small, quality);
            if (2 * packed.size() <= 3 * bytes || quality <= kWorstQuality) return packed;
        }
    }
};

// Whether a variant has a page of its own that is not older than its film.
bool has_sliders(const std::string& folder, const NightPlan& plan, size_t variant) {
    const fs::path base = fs::path(plan.folder_of(folder, variant)) / plan.stem;
    std::error_code missing;
    const auto page = fs::last_write_time(base.string() + ".html", missing);
    if (missing) return false;
    const auto film = fs::last_write_time(base.string() + ".exr", missing);
    return !missing && page >= film;
}

}  // namespace

void write_night_page(const std::string& folder,
                      const NightPlan& plan,
                      const std::vector<NightVariantState>& states) {
    nlohmann::ordered_json all = night_json(plan, states);
    NightPage page{all["title"].get<std::string>(), "", {}};
    if (page.title.empty()) page.title = plan.stem;
    const auto with_film = std::count_if(
        states.begin(), states.end(), [](const auto& s) { return s.state.passes > 0; });
    PictureSize size(static_cast<size_t>(with_film));
    bool is_first = true;
    for (size_t i = 0; i < states.size(); ++i) {
        page.pictures.emplace_back();
        all["variants"][i]["has_sliders"] = has_sliders(folder, plan, i);
        all["variants"][i]["size_px"] = nullptr;
        if (states[i].state.passes == 0) continue;
        const std::optional<Picture> picture = night_picture(folder, plan, i);
        if (!picture) continue;
        if (std::exchange(is_first, false)) size.fit(*picture);
        page.pictures.back() = size.pack(*picture);
        all["variants"][i]["size_px"] = {picture->width, picture->height};
    }
    page.json = all.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    write_text((fs::path(folder) / "sheet.html").string(), make_night_page(page));
}

}  // namespace dapple
