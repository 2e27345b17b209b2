// The problems of one model file: the first kMaxProblemsPerFile in full, then one line with the
// number of the others; the same for notes.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/obj/obj_text.h"

namespace dapple {

inline constexpr int64_t kMaxProblemsPerFile = 20;

// Statements of one kind that share a single note: their number and the place of the first.
struct Tally {
    int64_t count = 0;
    int line = 0;
    int column = 0;
    std::string word;

    void add(int at_line, int at_column, std::string_view what = {}) {
        if (count++ > 0) return;
        line = at_line;
        column = at_column;
        word = what;
    }
};

class ModelReport {
  public:
    ModelReport(std::string file, Problems& problems);

    void problem(Place place, std::string key, std::string message);
    void note(Place place, std::string key, std::string message);
    // Adds one note for all that `tally` counted, or none if it counted nothing.
    void note(const Tally& tally, std::string key, const std::string& message);
    // Adds the lines with the number of the others. Call once, at the end.
    void finish();

    // False if a further note would only be counted, so that it need not be worded.
    bool shows_notes() const { return note_count_ < kMaxProblemsPerFile; }
    bool has_problems() const { return problem_count_ > 0; }

    Place place(int line, int column) const { return {file_, line, column}; }
    Place place_of(const ObjScanner& scanner, std::string_view word) const {
        return place(scanner.line(), scanner.column(word));
    }

  private:
    std::string file_;
    Problems& problems_;
    int64_t problem_count_ = 0;
    int64_t note_count_ = 0;
};

}  // namespace dapple
