// What a night is doing now, for `--status` from another terminal: progress.json in its folder.
#pragma once

#include <ctime>
#include <optional>
#include <string>

namespace dapple {

struct NightProgress {
    std::string running;                                  // the variant; empty: none
    int passes = 0;                                       // on its film
    int passes_to = 0;                                    // of its turn
    std::optional<std::time_t> turn_ends;                 // what the clock on the wall then shows
    size_t done = 0, begun = 0, waiting = 0, failed = 0;  // variants
    double worked_s = 0;  // since this run of the program began, without sleep
    // What the clock on the wall shows; nothing: not known.
    std::optional<std::time_t> stops;   // by --until or --hours
    std::optional<std::time_t> finish;  // when all is done, by the passes so far
    std::optional<std::time_t> sheet;   // when the contact sheet was last written
    size_t on_sheet = 0;                // variants
};

void write_night_progress(const std::string& folder, const NightProgress& progress);

// A few lines about the night; "" if none was begun in this folder.
std::string night_progress_text(const std::string& folder);

// "Sat 06:30"
std::string wall_time_text(std::time_t time);

}  // namespace dapple
