#include "progress_line.h"

#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <string>

namespace dapple {

namespace {

constexpr double kLineEvery = 10;  // s between lines where there is no terminal

std::string duration_text(double seconds) {
    const auto s = static_cast<long>(std::ceil(seconds));
    char text[32];
    if (s >= 3600) {
        std::snprintf(text, sizeof text, "%ld h %02ld min", s / 3600, s / 60 % 60);
    } else if (s >= 60) {
        std::snprintf(text, sizeof text, "%ld min %02ld s", s / 60, s % 60);
    } else {
        std::snprintf(text, sizeof text, "%ld s", s);
    }
    return text;
}

std::string progress_text(const Progress& p) {
    char text[160];
    std::snprintf(text,
                  sizeof text,
                  "%d pass%s, %.1f million rays/s",
                  p.passes,
                  p.passes == 1 ? "" : "es",
                  p.rays_per_second * 1e-6);
    std::string line = text;
    if (p.noise_percent) {
        std::snprintf(text, sizeof text, ", noise %.1f %%", *p.noise_percent);
        line += text;
    }
    if (p.clean_noise_percent) {
        std::snprintf(text, sizeof text, ", clean %.1f %%", *p.clean_noise_percent);
        line += text;
    }
    if (p.seconds_left >= 0) line += ", " + duration_text(p.seconds_left) + " left";
    return line;
}

}  // namespace

ProgressLine::ProgressLine() : terminal_(isatty(STDERR_FILENO) != 0) {}

void ProgressLine::show(const Progress& progress) {
    if (terminal_) {
        std::fprintf(stderr, "\r%s\033[K", progress_text(progress).c_str());
        shown_ = true;
    } else if (progress.seconds >= next_) {
        std::fprintf(stderr, "%s\n", progress_text(progress).c_str());
        next_ = progress.seconds + kLineEvery;
    }
    std::fflush(stderr);
}

void ProgressLine::end() {
    if (terminal_ && shown_) std::fprintf(stderr, "\n");
}

}  // namespace dapple
