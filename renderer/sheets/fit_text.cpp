#include "sheets/fit_text.h"

#include <vector>

namespace dapple {

namespace {

// Where characters of UTF-8 begin, and the end.
std::vector<size_t> character_starts(const std::string& text) {
    std::vector<size_t> starts;
    for (size_t i = 0; i < text.size(); ++i) {
        if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U) starts.push_back(i);
    }
    starts.push_back(text.size());
    return starts;
}

// The text with `keep` of its characters, the first half and the last.
std::string without_middle(const std::string& text,
                           const std::vector<size_t>& starts,
                           size_t keep) {
    const size_t last = keep / 2;
    return text.substr(0, starts[keep - last]) + "…" +
           text.substr(starts[starts.size() - 1 - last]);
}

}  // namespace

TextBox fit_text(const std::string& text, const TextStyle& style, int most_lines) {
    const double limit = (most_lines + 0.5) * TextBox("Ag", style).height();
    TextBox whole(text, style);
    if (whole.height() <= limit) return whole;
    const std::vector<size_t> starts = character_starts(whole.text());
    size_t low = 0;  // so many characters fit
    size_t high = starts.size() - 1;
    while (high - low > 1) {
        const size_t keep = (low + high) / 2;
        const TextBox shorter(without_middle(whole.text(), starts, keep), style);
        (shorter.height() <= limit ? low : high) = keep;
    }
    return TextBox(without_middle(whole.text(), starts, low), style);
}

}  // namespace dapple
