#include "set/photometry/read_eulumdat.h"

#include <cmath>

#include "set/text_lines.h"

namespace dapple {

namespace {

// Line numbers in the head.
constexpr int kSymmetry = 3;
constexpr int kPlanes = 4;
constexpr int kGammas = 6;
constexpr int kOpeningLength = 16;
constexpr int kOpeningWidth = 17;
constexpr int kOutputRatio = 23;
constexpr int kConversion = 24;
constexpr int kTilt = 25;
constexpr int kLampSets = 26;
constexpr int kLinesPerSet = 6;
constexpr int kDirectRatios = 10;

constexpr double kMostPlanes = 721;
constexpr double kMostGammas = 1801;
constexpr double kMostSets = 20;

class LineReader {
  public:
    LineReader(const TextLines& text, const std::string& path, Problems& problems)
        : text_(text), path_(path), problems_(problems) {
        count_ = text.count();
        while (count_ > 0 && trimmed(text.line(count_)).empty()) --count_;
    }

    int count() const { return count_; }  // without blank lines at the end

    bool has_number(int line, double& value) const {
        return line <= count_ && parse_number(trimmed(text_.line(line)), value, true);
    }

    bool read(int line, FileNumber& number, const char* what) const {
        number.line = line;
        if (has_number(line, number.value)) return true;
        if (line > count_) {
            problems_.add({path_, count_},
                          "",
                          std::string("the file ends here; the ") + what + " is missing");
        } else {
            problems_.add(
                {path_, line},
                "",
                "is " + in_quotes(trimmed(text_.line(line))) + "; must be a number: the " + what);
        }
        return false;
    }

    bool read_count(int line, double low, double high, int& count, const char* what) const {
        FileNumber number;
        if (!read(line, number, what)) return false;
        if (number.value >= low && number.value <= high &&
            number.value == std::floor(number.value)) {
            count = static_cast<int>(number.value);
            return true;
        }
        problems_.add({path_, line},
                      "",
                      std::string("the ") + what + " is " + std::string(trimmed(text_.line(line))) +
                          "; must be a whole number from " + std::to_string(static_cast<int>(low)) +
                          " to " + std::to_string(static_cast<int>(high)));
        return false;
    }

    bool read_list(int first, int count, std::vector<FileNumber>& list, const char* what) const {
        list.resize(static_cast<size_t>(count));
        for (int i = 0; i < count; ++i) {
            if (!read(first + i, list[static_cast<size_t>(i)], what)) return false;
        }
        return true;
    }

  private:
    const TextLines& text_;
    const std::string& path_;
    Problems& problems_;
    int count_ = 0;
};

// The number of planes must be a multiple of this, so that the planes in the file begin and end on
// the mirror planes.
int plane_step(int symmetry) {
    return symmetry == 4 ? 4 : symmetry == 2 || symmetry == 3 ? 2 : 1;
}

int stored_planes(int symmetry, int planes) {
    switch (symmetry) {
        case 0:
            return planes;
        case 1:
            return 1;
        case 4:
            return planes / 4 + 1;
        default:
            return planes / 2 + 1;
    }
}

// The order of the six fields of the lamp sets: lamps, type, lumens, colour, rendering, watts. Most
// files list them set by set; some list the lamps of all sets first, then all types, and so on.
struct SetLayout {
    int between_sets = kLinesPerSet;  // lines
    int between_fields = 1;           // lines
};

// Whether the file can be read with this layout: lamps and lumens are numbers, types mostly words.
bool fits(const LineReader& lines, int sets, const SetLayout& layout, bool types_are_words) {
    double value = 0;
    for (int i = 0; i < sets; ++i) {
        const int first = kLampSets + 1 + i * layout.between_sets;
        const bool type_is_word = !lines.has_number(first + layout.between_fields, value);
        if (!lines.has_number(first, value) ||
            !lines.has_number(first + 2 * layout.between_fields, value) ||
            (types_are_words && !type_is_word)) {
            return false;
        }
    }
    return true;
}

std::optional<SetLayout> find_layout(const LineReader& lines, int sets) {
    const SetLayout by_set;
    const SetLayout by_field{1, sets};
    if (sets == 1) return by_set;
    for (const bool types_are_words : {true, false}) {
        const bool one = fits(lines, sets, by_set, types_are_words);
        const bool other = fits(lines, sets, by_field, types_are_words);
        if (one != other) return one ? by_set : by_field;
    }
    return std::nullopt;
}

bool read_first_lamp_set(const LineReader& lines,
                         int sets,
                         bool has_watts,
                         EulumdatDescription& ldt,
                         Problems& problems) {
    const int first = kLampSets + 1;
    const std::optional<SetLayout> layout = find_layout(lines, sets);
    if (!layout) {
        problems.add(
            {ldt.path, first},
            "",
            "the order of the lamp sets that begin here is not clear; the types of lamps must be "
            "words");
        return false;
    }
    const int step = layout->between_fields;
    double value = 0;
    ldt.watts.line = first + 5 * step;
    if (has_watts && lines.has_number(ldt.watts.line, value)) ldt.watts.value = value;
    return lines.read(first + 2 * step, ldt.flux, "lumens of the lamps");
}

struct Counts {
    int symmetry = 0, planes = 0, gammas = 0, sets = 0;

    int tables() const { return planes + gammas + stored_planes(symmetry, planes) * gammas; }
    int lines() const { return kLampSets + kLinesPerSet * sets + kDirectRatios + tables(); }
};

// The number of lines that the head lacks, from the total; -1 if the total is not possible.
int missing_lines(const Counts& counts, int lines) {
    const int missing = counts.lines() - lines;
    if (missing == 0 || missing == kDirectRatios) return missing;
    const int set_too = kDirectRatios + 3;
    return missing == set_too && counts.sets == 1 ? missing : -1;
}

bool has_watts(const Counts& counts, int lines) {
    return missing_lines(counts, lines) <= kDirectRatios;
}

bool check_planes(const Counts& counts, const std::string& path, Problems& problems) {
    const int step = plane_step(counts.symmetry);
    if (counts.planes % step == 0) return true;
    problems.add({path, kPlanes},
                 "",
                 "the number of C-planes is " + std::to_string(counts.planes) + "; with symmetry " +
                     std::to_string(counts.symmetry) + " it must be a multiple of " +
                     std::to_string(step));
    return false;
}

bool check_total(const Counts& counts, int lines, const std::string& path, Problems& problems) {
    if (missing_lines(counts, lines) >= 0) return true;
    problems.add({path, lines},
                 "",
                 "the file ends here, with " + std::to_string(lines) + " lines; " +
                     std::to_string(counts.sets) + " lamp set" + (counts.sets == 1 ? "" : "s") +
                     ", " + std::to_string(counts.planes) + " C-planes with symmetry " +
                     std::to_string(counts.symmetry) + " and " + std::to_string(counts.gammas) +
                     " angles must have " + std::to_string(counts.lines()));
    return false;
}

bool read_counts(const LineReader& lines, Counts& counts) {
    return lines.read_count(kSymmetry, 0, 4, counts.symmetry, "symmetry") &&
           lines.read_count(kPlanes,
                            counts.symmetry == 1 ? 0 : 2,
                            kMostPlanes,
                            counts.planes,
                            "number of C-planes") &&
           lines.read_count(kGammas, 2, kMostGammas, counts.gammas, "number of angles per plane") &&
           lines.read_count(kLampSets, 1, kMostSets, counts.sets, "number of lamp sets");
}

bool read_tables(const LineReader& lines, const Counts& counts, EulumdatDescription& ldt) {
    const int planes_at = lines.count() - counts.tables() + 1;
    const int gammas_at = planes_at + counts.planes;
    const int stored = stored_planes(counts.symmetry, counts.planes);
    return lines.read_list(planes_at, counts.planes, ldt.c_planes, "angle of a C-plane") &&
           lines.read_list(gammas_at, counts.gammas, ldt.gamma, "angle in a plane") &&
           lines.read_list(
               gammas_at + counts.gammas, stored * counts.gammas, ldt.intensity, "intensity");
}

}  // namespace

std::optional<EulumdatDescription> read_eulumdat(const std::string& path, Problems& problems) {
    TextLines text;
    if (!read_text_lines(path, problems, text)) return std::nullopt;
    const LineReader lines(text, path, problems);
    EulumdatDescription ldt;
    ldt.path = path;
    Counts counts;
    const bool all =
        read_counts(lines, counts) && check_planes(counts, path, problems) &&
        lines.read(kOpeningLength, ldt.opening_length, "luminous length") &&
        lines.read(kOpeningWidth, ldt.opening_width, "luminous width") &&
        lines.read(kConversion, ldt.conversion, "conversion factor") &&
        lines.read(kTilt, ldt.tilt, "tilt during the measurement") &&
        check_total(counts, lines.count(), path, problems) &&
        read_first_lamp_set(lines, counts.sets, has_watts(counts, lines.count()), ldt, problems) &&
        read_tables(lines, counts, ldt);
    if (!all) return std::nullopt;
    ldt.output_ratio.line = kOutputRatio;
    double ratio = 0;
    if (lines.has_number(kOutputRatio, ratio)) ldt.output_ratio.value = ratio;
    ldt.symmetry = {static_cast<double>(counts.symmetry), kSymmetry};
    if (counts.sets > 1) {
        problems.note({path, kLampSets},
                      "",
                      "has " + std::to_string(counts.sets) + " sets of lamps; the first is used");
    }
    return ldt;
}

}  // namespace dapple
