#include "set/models/model_report.h"

#include <utility>

namespace dapple {

ModelReport::ModelReport(std::string file, Problems& problems)
    : file_(std::move(file)), problems_(problems) {}

void ModelReport::problem(Place place, std::string key, std::string message) {
    if (problem_count_++ >= kMaxProblemsPerFile) return;
    problems_.add(std::move(place), std::move(key), std::move(message));
}

void ModelReport::note(Place place, std::string key, std::string message) {
    if (note_count_++ >= kMaxProblemsPerFile) return;
    problems_.note(std::move(place), std::move(key), std::move(message));
}

void ModelReport::note(const Tally& tally, std::string key, const std::string& message) {
    if (tally.count == 0) return;
    const std::string all =
        tally.count > 1 ? " (" + std::to_string(tally.count) + " lines in all)" : "";
    note(place(tally.line, tally.column), std::move(key), message + all);
}

void ModelReport::finish() {
    const int64_t more_problems = problem_count_ - kMaxProblemsPerFile;
    const int64_t more_notes = note_count_ - kMaxProblemsPerFile;
    if (more_problems > 0) {
        problems_.add(place(0, 0), "", "and " + std::to_string(more_problems) + " more problems");
    }
    if (more_notes > 0) {
        problems_.note(place(0, 0), "", "and " + std::to_string(more_notes) + " more notes");
    }
}

}  // namespace dapple
