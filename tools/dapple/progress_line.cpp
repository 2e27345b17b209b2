#include "progress_line.h"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

namespace dapple {

namespace {

constexpr double kLineEvery = 10;  // s between lines where there is no terminal

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

const char* step_name(WorkStep step) {
    switch (step) {
        case WorkStep::kAiming:
            return "preparing: aiming lamps at glass";
        case WorkStep::kFirstHits:
            return "preparing: what each pixel sees";
        case WorkStep::kSeenPoints:
            return "preparing: surfaces behind glass and at rims";
        case WorkStep::kPilotWalks:
            return "preparing: pilot walks";
        case WorkStep::kFilm:
            return "preparing: the film";
        case WorkStep::kLightWalks:
            return "light walks";
        case WorkStep::kMeterWalks:
            return "meter walks";
        case WorkStep::kSorting:
            return "sorting photons";
        case WorkStep::kCameraWalks:
            return "camera walks";
    }
    return "";
}

// "pass 3: camera walks 40 %"
std::string part_text(const WorkPart& part) {
    std::string text = part.pass > 0 ? "pass " + std::to_string(part.pass) + ": " : "";
    text += step_name(part.step);
    const auto percent = static_cast<int>(100 * part.share);
    return percent > 0 ? text + " " + std::to_string(percent) + " %" : text;
}

}  // namespace

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

ProgressLine::ProgressLine() : terminal_(isatty(STDERR_FILENO) != 0) {}

void ProgressLine::put(const std::string& text, double due) {
    if (terminal_) {
        std::fprintf(stderr, "\r%s\033[K", text.c_str());
        shown_ = true;
    } else if (clock_.seconds() >= due) {
        std::fprintf(stderr, "%s\n", text.c_str());
        next_ = clock_.seconds() + kLineEvery;
    }
    std::fflush(stderr);
}

void ProgressLine::show(const Progress& progress) {
    last_ = progress;
    last_at_ = clock_.seconds();
    put(work_ + progress_text(progress), next_);
}

void ProgressLine::show(const WorkPart& part) {
    std::string text = work_ + part_text(part);
    if (last_) {
        Progress now = *last_;
        if (now.seconds_left >= 0) {
            now.seconds_left = std::max(0.0, now.seconds_left - (clock_.seconds() - last_at_));
        }
        text += "; " + progress_text(now);
    }
    put(text, std::max(next_, kLineEvery));
}

void ProgressLine::show_step(const std::string& step) {
    put(step, std::max(next_, kLineEvery));
}

void ProgressLine::end() {
    if (terminal_ && shown_) std::fprintf(stderr, "\n");
    shown_ = false;
}

}  // namespace dapple
