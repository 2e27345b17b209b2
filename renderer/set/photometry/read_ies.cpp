#include "set/photometry/read_ies.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "set/text_lines.h"

namespace dapple {

namespace {

constexpr double kMostAngles = 10000;  // vertical or horizontal
constexpr double kMostCandela = 4e6;   // values; 0.1° steps in both directions
constexpr std::string_view kParts = ", \t\v\f";

std::string upper(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), [](unsigned char c) {
        return static_cast<char>(std::toupper(c));
    });
    return out;
}

IesEdition edition_of(std::string_view first_line, const std::string& path, Problems& problems) {
    const std::string version = upper(trimmed(first_line));
    if (!version.starts_with("IES")) return IesEdition::k1986;
    if (version.starts_with("IESNA91")) return IesEdition::k1991;
    const size_t year = version.find("LM-63-");
    if (year != std::string::npos) {
        const std::string digits = version.substr(year + 6, 4);
        if (digits == "1986") return IesEdition::k1986;
        if (digits == "1991") return IesEdition::k1991;
        if (digits == "1995") return IesEdition::k1995;
        if (digits == "2002") return IesEdition::k2002;
        if (digits == "2019") return IesEdition::k2019;
    }
    problems.note({path, 1},
                  "",
                  "is " + in_quotes(version) + ", an unknown edition; read as the edition of 2019");
    return IesEdition::kUnknown;
}

// Returns the line of TILT=…, 0 if there is none, and what is after the sign.
int find_tilt(const TextLines& text, std::string& tilt) {
    for (int i = 1; i <= text.count(); ++i) {
        const std::string_view line = trimmed(text.line(i));
        if (!upper(line.substr(0, 4)).starts_with("TILT")) continue;
        const std::string_view rest = trimmed(line.substr(4));
        if (!rest.starts_with('=')) continue;
        tilt = trimmed(rest.substr(1));
        return i;
    }
    return 0;
}

// Reads the numbers below a line, one after the other.
class NumberReader {
  public:
    NumberReader(const TextLines& text, int after, const std::string& path, Problems& problems)
        : text_(text), line_(after), path_(path), problems_(problems) {}

    // Returns false, with a problem, if the next word is not a number or there is no next word.
    bool next(FileNumber& number, const char* what) {
        if (!find_word()) {
            problems_.add({path_, text_.count()},
                          "",
                          std::string("the file ends here; the ") + what + " is missing");
            return false;
        }
        number.line = line_;
        if (parse_number(words_[word_], number.value)) {
            ++word_;
            return true;
        }
        problems_.add({path_, line_},
                      "",
                      "has " + in_quotes(words_[word_]) + "; must be a number: the " + what);
        return false;
    }

    // Reads a count, which is whole but may be written with a decimal point.
    bool next_count(FileNumber& number, const char* what) {
        if (!next(number, what)) return false;
        if (number.value >= 1 && number.value <= kMostAngles &&
            number.value == std::floor(number.value)) {
            return true;
        }
        problems_.add({path_, number.line},
                      "",
                      std::string("the ") + what + " is " + short_text(number.value) +
                          "; must be a whole number from 1 to 10000");
        return false;
    }

    bool next_list(std::vector<FileNumber>& list, size_t count, const char* what) {
        list.resize(count);
        return std::all_of(
            list.begin(), list.end(), [&](FileNumber& number) { return next(number, what); });
    }

    // How many numbers there are up to the next other word or the end of the file.
    size_t numbers_left() const {
        NumberReader ahead = *this;
        size_t count = 0;
        double value = 0;
        while (ahead.find_word() && parse_number(ahead.words_[ahead.word_], value)) {
            ++ahead.word_;
            ++count;
        }
        return count;
    }
    // Whether there are only numbers up to the end of the file.
    bool only_numbers_left() const {
        NumberReader ahead = *this;
        double value = 0;
        while (ahead.find_word()) {
            if (!parse_number(ahead.words_[ahead.word_++], value)) return false;
        }
        return true;
    }

    static std::string short_text(double value) {
        char text[32];
        std::snprintf(text, sizeof text, "%.6g", value);
        return text;
    }

  private:
    bool find_word() {
        while (word_ >= words_.size()) {
            if (line_ >= text_.count()) return false;
            words_ = split_words(text_.line(++line_), kParts);
            word_ = 0;
        }
        return true;
    }

    const TextLines& text_;
    int line_;
    std::vector<std::string_view> words_;
    size_t word_ = 0;
    const std::string& path_;
    Problems& problems_;
};

bool read_tilt(const std::string& tilt,
               int line,
               NumberReader& reader,
               IesDescription& ies,
               Problems& problems) {
    const std::string word = upper(tilt);
    if (word == "NONE") return true;
    if (word != "INCLUDE") {
        problems.note(
            {ies.path, line},
            "",
            "names a file of tilt factors, which is not read; the factors are taken as 1");
        return true;
    }
    FileNumber geometry;
    FileNumber pairs;
    if (!reader.next(geometry, "lamp-to-luminaire geometry")) return false;
    if (!reader.next_count(pairs, "count of tilt angles")) return false;
    const auto count = static_cast<size_t>(pairs.value);
    return reader.next_list(ies.tilt_angles, count, "tilt angle") &&
           reader.next_list(ies.tilt_factors, count, "tilt factor");
}

bool read_header(NumberReader& reader,
                 IesDescription& ies,
                 size_t& verticals,
                 size_t& horizontals) {
    FileNumber vertical_count;
    FileNumber horizontal_count;
    const bool all =
        reader.next(ies.lamps, "number of lamps") &&
        reader.next(ies.lumens_per_lamp, "lumens per lamp") &&
        reader.next(ies.multiplier, "candela multiplier") &&
        reader.next_count(vertical_count, "count of vertical angles") &&
        reader.next_count(horizontal_count, "count of horizontal angles") &&
        reader.next(ies.type, "photometric type") && reader.next(ies.units, "units type") &&
        reader.next(ies.width, "width") && reader.next(ies.length, "length") &&
        reader.next(ies.height, "height") && reader.next(ies.ballast_factor, "ballast factor") &&
        reader.next(ies.second_factor, "second factor") && reader.next(ies.watts, "input watts");
    verticals = static_cast<size_t>(vertical_count.value);
    horizontals = static_cast<size_t>(horizontal_count.value);
    return all;
}

// Checks that the file has as many numbers as its counts say, before any number is mistaken for
// another.
bool check_counts(const NumberReader& reader,
                  const IesDescription& ies,
                  size_t verticals,
                  size_t horizontals,
                  Problems& problems) {
    const Place place{ies.path, ies.multiplier.line};
    const std::string v = std::to_string(verticals);
    const std::string h = std::to_string(horizontals);
    if (static_cast<double>(verticals) * static_cast<double>(horizontals) > kMostCandela) {
        problems.add(
            place, "", v + " x " + h + " candela values are too many; at most 4000000 can be read");
        return false;
    }
    const size_t needed = verticals + horizontals + verticals * horizontals;
    const size_t there = reader.numbers_left();
    if (there == needed || (there < needed && !reader.only_numbers_left())) return true;
    problems.add(place,
                 "",
                 "the counts " + v + " vertical, " + h + " horizontal need " + v + " + " + h +
                     " angles and " + v + " x " + h + " candela values, " + std::to_string(needed) +
                     " numbers; the file has " + std::to_string(there));
    return false;
}

}  // namespace

std::optional<IesDescription> read_ies(const std::string& path, Problems& problems) {
    TextLines text;
    if (!read_text_lines(path, problems, text)) return std::nullopt;
    IesDescription ies;
    ies.path = path;
    if (text.count() > 0) ies.edition = edition_of(text.line(1), path, problems);
    std::string tilt;
    const int tilt_line = find_tilt(text, tilt);
    if (tilt_line == 0) {
        problems.add(
            {path}, "", "has no line TILT=NONE or TILT=INCLUDE; must be an IES LM-63 file");
        return std::nullopt;
    }
    NumberReader reader(text, tilt_line, path, problems);
    size_t verticals = 0;
    size_t horizontals = 0;
    const bool all = read_tilt(tilt, tilt_line, reader, ies, problems) &&
                     read_header(reader, ies, verticals, horizontals) &&
                     check_counts(reader, ies, verticals, horizontals, problems) &&
                     reader.next_list(ies.vertical, verticals, "vertical angle") &&
                     reader.next_list(ies.horizontal, horizontals, "horizontal angle") &&
                     reader.next_list(ies.candela, verticals * horizontals, "candela value");
    if (!all) return std::nullopt;
    return ies;
}

}  // namespace dapple
