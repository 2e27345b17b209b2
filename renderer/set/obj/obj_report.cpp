#include "set/obj/obj_report.h"

#include <utility>

namespace dapple {

ObjReport::ObjReport(std::string file, Problems& problems)
    : file_(std::move(file)), problems_(problems) {}

void ObjReport::problem(Place place, std::string key, std::string message) {
    if (problem_count_++ >= kMaxProblemsPerFile) return;
    problems_.add(std::move(place), std::move(key), std::move(message));
}

void ObjReport::note(Place place, std::string key, std::string message) {
    if (note_count_++ >= kMaxProblemsPerFile) return;
    problems_.note(std::move(place), std::move(key), std::move(message));
}

void ObjReport::note(const Tally& tally, std::string key, const std::string& message) {
    if (tally.count == 0) return;
    const std::string all =
        tally.count > 1 ? " (" + std::to_string(tally.count) + " lines in all)" : "";
    note(place(tally.line, tally.column), std::move(key), message + all);
}

void ObjReport::finish() {
    const int64_t more_problems = problem_count_ - kMaxProblemsPerFile;
    const int64_t more_notes = note_count_ - kMaxProblemsPerFile;
    if (more_problems > 0) {
        problems_.add(place(0, 0), "", "and " + std::to_string(more_problems) + " more problems");
    }
    if (more_notes > 0) {
        problems_.note(place(0, 0), "", "and " + std::to_string(more_notes) + " more notes");
    }
}

std::string in_quotes(std::string_view word) {
    constexpr size_t kLongest = 200;
    const bool is_long = word.size() > kLongest;
    if (is_long) {
        size_t size = kLongest;
        while (size > 0 && (static_cast<unsigned char>(word[size]) & 0xc0U) == 0x80U) --size;
        word = word.substr(0, size);  // between UTF-8 characters
    }
    std::string text = "\"";
    for (const char c : word) {
        const auto byte = static_cast<unsigned char>(c);
        text += byte < 0x20 || byte == 0x7f ? '?' : c;
    }
    return text + (is_long ? "…\"" : "\"");
}

}  // namespace dapple
