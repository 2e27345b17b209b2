#include "night/night_notice.h"

#include <cmath>
#include <filesystem>
#include <sstream>

#include "night/night_progress.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr int kLeastWidth = 16;          // px, of a frame that is proposed
constexpr double kManyMegabytes = 1000;  // from here on a smaller frame is proposed

// MB of the night's files that are there already.
double megabytes_there(const NightPlan& plan, const std::string& folder) {
    double bytes = 0;
    for (size_t i = 0; i < plan.variants.size(); ++i) {
        std::error_code error;
        for (const auto& entry : fs::directory_iterator(plan.folder_of(folder, i), error)) {
            const uintmax_t size = entry.file_size(error);
            if (!error) bytes += static_cast<double>(size);
        }
    }
    return bytes / 1e6;
}

std::string passes_words(int passes) {
    return std::to_string(passes) + (passes == 1 ? " pass" : " passes");
}

// "40 s", "12 min", "3.5 h", "2 days"
std::string duration_text(double seconds) {
    std::ostringstream text;
    text.precision(2);
    if (seconds < 90) {
        text << std::ceil(seconds) << " s";
    } else if (seconds < 90 * 60) {
        text << std::ceil(seconds / 60) << " min";
    } else if (seconds < 48 * 3600) {
        text << seconds / 3600 << " h";
    } else {
        text << std::ceil(seconds / 86400) << " days";
    }
    return text.str();
}

}  // namespace

std::string night_notice(const NightPlan& plan, const NightOptions& options, const NightEnd& end) {
    std::ostringstream text;
    text << plan.variants.size() << " variants";
    if (plan.films() < plan.variants.size()) {
        text << " from " << plan.films() << " films; the others differ only in light and are "
             << "made by rebalancing";
    }
    text << "; about " << std::ceil(plan.megabytes) << " MB in " << options.folder << "; about "
         << std::ceil(10 * plan.memory.gigabytes()) / 10 << " GB of memory";
    if (const auto time = end.on_the_wall()) text << "; until " << wall_time_text(*time);
    if (options.limits.passes > 0) text << "; " << passes_words(options.limits.passes) << " each";
    if (options.limits.noise_percent > 0) {
        text << "; to " << options.limits.noise_percent << " % noise each";
    }
    text << '\n';
    if (plan.megabytes >= kManyMegabytes && plan.memory.width >= 2 * kLeastWidth) {
        text << "The frames are " << plan.memory.width << " px wide; --width "
             << plan.memory.width / 2 << " needs a quarter of the room and of the time.\n";
    }
    text << "How long it takes is known after the first pass.\n";
    return text.str();
}

std::string first_pass_notice(const NightPlan& plan,
                              const NightLimits& limits,
                              double seconds,
                              std::optional<double> seconds_left) {
    const double round = seconds * static_cast<double>(plan.films());
    std::ostringstream text;
    text << "The first pass took " << duration_text(seconds)
         << " with its preparation. If the others are like it, a pass of every film takes "
         << duration_text(round) << " or less";
    if (limits.passes > 1) {
        text << ", and " << passes_words(limits.passes) << " of each "
             << duration_text(round * limits.passes) << " or less";
    }
    text << ".";
    if (seconds_left && *seconds_left > 0) {
        const auto rounds = static_cast<int>(*seconds_left / round);
        if (rounds < 1) {
            text << " Not every film gets a pass before the end.";
        } else {
            text << " Until the end there is time for " << passes_words(rounds)
                 << " of each or more.";
        }
    }
    text << '\n';
    return text.str();
}

void check_memory(const NightPlan& plan, double memory_gb) {
    const NightMemory& memory = plan.memory;
    if (!(memory_gb > 0) || memory.gigabytes() <= memory_gb) return;
    const int width = memory.width_that_fits(memory_gb);
    std::ostringstream text;
    text.precision(2);
    text << "needs about " << memory.gigabytes() << " GB of memory for " << memory.width << " x "
         << memory.height << " pixels, and --memory-gb allows " << memory_gb << "; ";
    if (width >= kLeastWidth) {
        text << "--width " << width << " would fit";
    } else {
        text << "no smaller frame would fit";
    }
    throw FileError(plan.file.set_path, text.str());
}

void check_room(const NightPlan& plan, const std::string& folder) {
    std::error_code error;
    const fs::space_info space = fs::space(folder, error);
    const double needed = plan.megabytes - megabytes_there(plan, folder);
    if (error || static_cast<double>(space.available) / 1e6 > needed) return;
    std::ostringstream text;
    text << "has " << space.available / 1000000 << " MB free, and this night needs about "
         << std::llround(needed) << " MB";
    if (plan.memory.width >= 2 * kLeastWidth) {
        text << "; --width " << plan.memory.width / 2 << " would need a quarter of it";
    }
    throw FileError(folder, text.str());
}

}  // namespace dapple
