// Problems of one model file, kept to a length that somebody reads: the first ones in full, then
// one line with the number of the rest.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/obj/obj_text.h"

namespace dapple {

inline constexpr int64_t kMaxProblemsPerFile = 20;

// Things of one kind that get a single note: where the first stands and how many there are.
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

class ObjReport {
  public:
    ObjReport(std::string file, Problems& problems);

    void problem(Place place, std::string key, std::string message);
    void note(Place place, std::string key, std::string message);
    // One note for all that was counted, none where nothing was.
    void note(const Tally& tally, std::string key, const std::string& message);
    // Says how many were held back. Call once, at the end.
    void finish();

    // True while a further note would be shown: spares the making of costly ones.
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

// A word of the file, fit to be printed: in quotes, no control characters, not too long.
std::string in_quotes(std::string_view word);

}  // namespace dapple
