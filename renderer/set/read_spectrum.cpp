#include "set/read_spectrum.h"

#include "set/text_lines.h"

namespace dapple {

namespace {

bool parse_point(std::string_view line, SpectrumPoint& point) {
    const bool semicolons = line.find(';') != std::string_view::npos;
    const auto words = split_words(line, semicolons ? "; \t" : ",; \t");
    return words.size() >= 2 && parse_number(words[0], point.nm, semicolons) &&
           parse_number(words[1], point.value, semicolons);
}

}  // namespace

std::vector<SpectrumPoint> read_spectrum(const std::string& path, Problems& problems) {
    TextLines text;
    if (!read_text_lines(path, problems, text)) return {};
    std::vector<SpectrumPoint> points;
    for (int i = 1; i <= text.count(); ++i) {
        const std::string_view line = trimmed(text.line(i));
        if (line.empty() || line.starts_with('#')) continue;
        SpectrumPoint point;
        point.place = {path, i};
        if (parse_point(line, point)) {
            points.push_back(point);
        } else if (!points.empty()) {
            problems.add(point.place,
                         "",
                         "is " + in_quotes(line) + "; must be a wavelength in nm and a value");
            return {};
        }
    }
    if (points.empty()) {
        problems.add(
            {path}, "", "has no spectrum; each line must be a wavelength in nm and a value");
    }
    return points;
}

}  // namespace dapple
