// A variants file, as written: a set, what varies in it, and what the variants are ranked by.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/problems.h"

namespace dapple {

// The numbers from `from` to `to`, in `steps` equal steps with both ends; 0: any number between.
struct VariedRange {
    double from = 0;
    double to = 0;
    int steps = 0;
};

// Values of one address (set/change_set.h), as TOML writes them.
struct VariedValues {
    std::vector<std::string> texts;
};

// One address that varies.
struct Varied {
    std::string address;
    std::variant<VariedValues, VariedRange> values;
    Place place;
};

// Addresses that change together: variant k of the knob has value k of each. A key under [vary]
// is a knob of its own, the keys of a [[swap]] are one.
struct Knob {
    std::vector<Varied> varied;
};

enum class Choose { kGrid, kList, kSamples };

// What a variant is ranked by: the distance of a measure from the wish, in units of the measure,
// times the weight. A wish of "most" or "least" has no distance; more or less is better.
enum class WishKind { kNear, kMost, kLeast };
struct Wish {
    std::string measure;  // "back wall.texture_stops"
    WishKind kind = WishKind::kNear;
    double want = 0;
    double weight = 1;
    Place place;
};

// When a night ends and a variant is finished; the command line comes first. 0 and "": no such
// limit.
struct FileLimits {
    int passes = 0;
    double noise_percent = 0;
    double hours = 0;
    std::string until;  // "06:30"
    Place until_place;
    double memory_gb = 0;
};

struct VariantsFile {
    std::string path;
    std::string set_path;  // as found from the folder of `path`
    Place set_place;
    std::string name_template;  // empty: numbers
    Place name_place;
    std::string caption_template;  // empty: the name
    Place caption_place;
    Choose choose = Choose::kGrid;
    int samples = 0;
    std::vector<Knob> knobs;
    std::vector<Wish> wishes;
    FileLimits limits;
};

}  // namespace dapple
