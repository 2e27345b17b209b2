#include "set/read_lens_table.h"

#include "set/text_lines.h"

namespace dapple {

namespace {

bool parse_abbe(std::string_view word, double& abbe) {
    return word == "-" || word == "–" || parse_number(word, abbe);
}

bool parse_lens_row(std::string_view line, LensRowDescription& row) {
    const auto words = split_words(line, ",; \t");
    if (words.size() < 4 || words.size() > 5) return false;
    row.is_stop = words[2] == "stop";
    if (!parse_number(words[0], row.radius_mm) || !parse_number(words[1], row.thickness_mm)) {
        return false;
    }
    if (!row.is_stop && !parse_number(words[2], row.index)) return false;
    if (words.size() == 5 && !parse_abbe(words[3], row.abbe)) return false;
    return parse_number(words.back(), row.free_diameter_mm);
}

}  // namespace

std::vector<LensRowDescription> read_lens_table(const std::string& path, Problems& problems) {
    TextLines text;
    if (!read_text_lines(path, problems, text)) return {};
    const std::string allowed =
        "must be a radius, a thickness, an index or `stop`, an Abbe number and a free diameter";
    std::vector<LensRowDescription> rows;
    for (int i = 1; i <= text.count(); ++i) {
        const std::string_view line = trimmed(text.line(i));
        if (line.empty() || line.starts_with('#')) continue;
        LensRowDescription row;
        row.place = {path, i};
        if (parse_lens_row(line, row)) {
            rows.push_back(row);
        } else if (!rows.empty()) {
            problems.add(row.place, "", "is " + in_quotes(line) + "; " + allowed);
            return {};
        }
    }
    if (rows.empty()) problems.add({path}, "", "has no lens; each line " + allowed);
    return rows;
}

}  // namespace dapple
