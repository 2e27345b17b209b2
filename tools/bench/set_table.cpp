#include "set_table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "base/problems.h"
#include "develop/exposure.h"
#include "errors.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

constexpr double kVisible = 1.0 / 16;  // of the display's range
constexpr double kSpeck = 3;           // times the median around it
constexpr int kReach = 2;              // px, of 5 × 5 pixels

// A frame's luminances, row by row.
struct Frame {
    int width = 0, height = 0;
    std::vector<double> luminance;  // cd/m²
    double white = 1;               // cd/m²

    // What the display shows, 0 to 1.
    double shown(size_t i) const {
        const double exposure = std::clamp(luminance[i] / white, 0.0, 1.0);
        return static_cast<double>(srgb_encode(static_cast<float>(exposure)));
    }
};

double wrong_share(const Frame& tested, const Frame& truth) {
    size_t wrong = 0;
    for (size_t i = 0; i < truth.luminance.size(); ++i) {
        wrong += std::abs(tested.shown(i) - truth.shown(i)) > kVisible ? 1 : 0;
    }
    return static_cast<double>(wrong) / static_cast<double>(truth.luminance.size());
}

bool is_speck(const Frame& frame, int x, int y) {
    std::array<double, (2 * kReach + 1) * (2 * kReach + 1)> around{};
    size_t count = 0;
    for (int v = std::max(0, y - kReach); v <= std::min(frame.height - 1, y + kReach); ++v) {
        for (int u = std::max(0, x - kReach); u <= std::min(frame.width - 1, x + kReach); ++u) {
            around[count++] = frame.luminance[static_cast<size_t>(v * frame.width + u)];
        }
    }
    const auto middle = around.begin() + static_cast<std::ptrdiff_t>(count / 2);
    std::nth_element(around.begin(), middle, around.begin() + static_cast<std::ptrdiff_t>(count));
    return frame.luminance[static_cast<size_t>(y * frame.width + x)] > kSpeck * *middle;
}

double specks_per_million(const Frame& tested, const Frame& truth) {
    size_t specks = 0;
    for (int y = 0; y < tested.height; ++y) {
        for (int x = 0; x < tested.width; ++x) {
            specks += is_speck(tested, x, y) && !is_speck(truth, x, y) ? 1 : 0;
        }
    }
    return 1e6 * static_cast<double>(specks) / static_cast<double>(tested.luminance.size());
}

// The whole frame as the only region.
void set_frame_region(Scene& scene) {
    Region frame;
    frame.name = "frame";
    frame.has_rect = true;
    frame.rect = {0, 0, scene.camera.width, scene.camera.height};
    scene.regions = {frame};
}

SetRow measure_set(const LoadedSet& set, const SetTableOptions& options) {
    const Camera& camera = set.scene.camera;
    const Mode& full = all_modes().front();
    const Run run = run_mode(set, full, options.seconds, 1);
    const References references = make_references(set, options.reference_seconds).front();
    const auto frame_of = [&](const std::vector<double>& luminance) {
        return Frame{camera.width, camera.height, luminance, white_luminance(camera)};
    };
    Frame truth = frame_of(references.a);
    for (size_t i = 0; i < truth.luminance.size(); ++i) {
        truth.luminance[i] = 0.5 * (references.a[i] + references.b[i]);
    }
    const auto judge = [&](const std::vector<double>& luminance) {
        const Frame tested = frame_of(luminance);
        return PictureError{compare(luminance, references).rel_mse,
                            wrong_share(tested, truth),
                            specks_per_million(tested, truth)};
    };
    SetRow row;
    row.fixtures = static_cast<int>(set.scene.fixtures.size());
    row.passes = run.passes;
    row.seconds = run.seconds;
    row.rays_per_second = run.rays_per_second;
    row.film = judge(run.luminance.front());
    row.clean = judge(run.clean.front());
    row.reference_wrong_share = wrong_share(frame_of(references.a), frame_of(references.b));
    return row;
}

void print_row(std::FILE* to, const SetRow& row) {
    std::fprintf(to,
                 "%-18s %8d %6d %7.1f %7.2f %8.4f %8.1f %9.0f %9.4f %8.2f %9.0f %10.1f\n",
                 row.set.c_str(),
                 row.fixtures,
                 row.passes,
                 row.seconds,
                 1e-6 * row.rays_per_second,
                 row.film.rel_mse,
                 100 * row.film.wrong_share,
                 row.film.specks_per_million,
                 row.clean.rel_mse,
                 100 * row.clean.wrong_share,
                 row.clean.specks_per_million,
                 100 * row.reference_wrong_share);
    std::fflush(to);
}

void print_worst(std::FILE* to, const std::vector<SetRow>& rows) {
    if (rows.empty()) return;
    const auto noisiest =
        std::max_element(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
            return a.film.rel_mse < b.film.rel_mse;
        });
    const auto wrongest =
        std::max_element(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
            return a.clean.wrong_share < b.clean.wrong_share;
        });
    std::fprintf(to, "worst relMSE: %s\n", noisiest->set.c_str());
    std::fprintf(to, "worst clean frame: %s\n", wrongest->set.c_str());
}

}  // namespace

std::vector<std::string> set_files_in(const std::string& folder) {
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".toml") files.push_back(entry.path().string());
    }
    std::sort(files.begin(), files.end());
    return files;
}

bool make_set_table(const SetTableOptions& options, std::FILE* to, std::vector<SetRow>& rows) {
    std::fprintf(to,
                 "%-18s %8s %6s %7s %7s %8s %8s %9s %9s %8s %9s %10s\n",
                 "set",
                 "fixtures",
                 "passes",
                 "s",
                 "Mrays/s",
                 "relMSE",
                 "wrong %",
                 "specks/M",
                 "cl.relMSE",
                 "cl.wrong",
                 "cl.specks",
                 "ref. wrong");
    bool all_read = true;
    for (const std::string& file : options.sets) {
        Problems problems;
        std::optional<LoadedSet> set = load_set(file, options.width, problems);
        print_problems(problems);
        all_read = all_read && set;
        if (!set) continue;
        set_frame_region(set->scene);
        SetRow row = measure_set(*set, options);
        row.set = std::filesystem::path(file).stem().string();
        print_row(to, row);
        rows.push_back(row);
    }
    print_worst(to, rows);
    return all_read;
}

}  // namespace dapple
