// What is said about one model file. Problems of one kind share one line: the first of them in full
// and the number of all; so do notes. At most kMaxProblemsPerFile kinds are printed.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"

namespace dapple {

inline constexpr size_t kMaxProblemsPerFile = 20;

// What problems have in common whose messages differ, and what is counted: "lines", "faces".
struct ReportKind {
    std::string_view name;
    const char* counted = "lines";
};

class ModelReport {
  public:
    ModelReport(std::string file, Problems& problems);

    void problem(Place place, std::string key, std::string message, ReportKind kind = {});
    void note(Place place, std::string key, std::string message, ReportKind kind = {});
    // Adds all lines to the problems. Call once, at the end.
    void finish();

    bool has_problems() const { return !problems_here_.empty(); }
    // False if a note of this kind would only be counted, so that it need not be worded.
    bool is_new_note(const std::string& key, std::string_view kind) const;

    Place place(int line, int column) const { return {file_, line, column}; }
    template <class Scanner>
    Place place_of(const Scanner& scanner, std::string_view word) const {
        return place(scanner.line(), scanner.column(word));
    }

  private:
    struct Entry {
        Place place;
        std::string key, message, kind;
        const char* counted;
        int64_t count;
    };
    static const Entry* find(const std::vector<Entry>& entries,
                             const std::string& key,
                             std::string_view kind);
    static void add(std::vector<Entry>& entries, Entry entry);

    std::string file_;
    Problems& problems_;
    std::vector<Entry> problems_here_;
    std::vector<Entry> notes_here_;
};

}  // namespace dapple
