#include "night/night_progress.h"

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "output/folder_lock.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

using nlohmann::json;

std::string progress_file(const std::string& folder) {
    return (std::filesystem::path(folder) / "progress.json").string();
}

json time_or_null(const std::optional<std::time_t>& time) {
    return time ? json(static_cast<int64_t>(*time)) : json(nullptr);
}

std::optional<std::time_t> time_in(const json& progress, const char* key) {
    const auto found = progress.find(key);
    if (found == progress.end() || !found->is_number_integer()) return std::nullopt;
    return static_cast<std::time_t>(found->get<int64_t>());
}

std::string worked_text(double seconds) {
    const long minutes = std::lround(seconds / 60);
    return std::to_string(minutes / 60) + " h " + std::to_string(minutes % 60) + " min";
}

}  // namespace

std::string wall_time_text(std::time_t time) {
    std::tm local{};
    ::localtime_r(&time, &local);
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%a %H:%M", &local);
    return text.data();
}

void write_night_progress(const std::string& folder, const NightProgress& progress) {
    const json all = {{"running", progress.running},
                      {"passes", progress.passes},
                      {"passes_to", progress.passes_to},
                      {"turn_ends", time_or_null(progress.turn_ends)},
                      {"done", progress.done},
                      {"begun", progress.begun},
                      {"waiting", progress.waiting},
                      {"failed", progress.failed},
                      {"worked_s", progress.worked_s},
                      {"stops", time_or_null(progress.stops)},
                      {"finish", time_or_null(progress.finish)},
                      {"sheet", time_or_null(progress.sheet)},
                      {"on_sheet", progress.on_sheet}};
    write_text(progress_file(folder), all.dump(2) + "\n");
}

std::string night_progress_text(const std::string& folder) {
    std::ifstream in(progress_file(folder), std::ios::binary);
    const json progress = json::parse(in, nullptr, false);
    if (!progress.is_object()) return "";
    std::ostringstream text;
    const std::string holder = holder_of_folder(folder);
    const std::string running = progress.value("running", "");
    if (holder.empty()) {
        text << "not running now; worked " << worked_text(progress.value("worked_s", 0.0))
             << " the last time\n";
    } else {
        text << holder << "; worked " << worked_text(progress.value("worked_s", 0.0)) << '\n';
        if (!running.empty()) {
            text << "now: " << running << ", pass " << progress.value("passes", 0) + 1 << " of "
                 << progress.value("passes_to", 0);
            const auto ends = time_in(progress, "turn_ends");
            text << (ends ? ", there about " + wall_time_text(*ends)
                          : ", and how long that takes is known after a pass")
                 << '\n';
        }
        const auto stops = time_in(progress, "stops");
        const auto finish = time_in(progress, "finish");
        if (finish && (!stops || *finish < *stops)) {
            text << "finished about " << wall_time_text(*finish) << '\n';
        } else if (stops) {
            text << "stops at " << wall_time_text(*stops) << '\n';
        }
    }
    text << "variants: " << progress.value("done", 0) << " done, " << progress.value("begun", 0)
         << " begun, " << progress.value("waiting", 0) << " not begun";
    if (const int failed = progress.value("failed", 0)) text << ", " << failed << " failed";
    text << '\n';
    if (const auto sheet = time_in(progress, "sheet")) {
        text << "sheet of " << wall_time_text(*sheet) << ", with " << progress.value("on_sheet", 0)
             << " variants\n";
    }
    return text.str();
}

}  // namespace dapple
