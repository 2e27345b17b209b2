#include "page/html_text.h"

namespace dapple {

void replace_mark(std::string& text, const std::string& mark, const std::string& with) {
    for (size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at)) {
        text.replace(at, mark.size(), with);
        at += with.size();
    }
}

std::string in_html(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '<') {
            safe += "&lt;";
        } else if (c == '&') {
            safe += "&amp;";
        } else {
            safe += c;
        }
    }
    return safe;
}

std::string in_script(std::string json) {
    replace_mark(json, "<", "\\u003c");
    return json;
}

}  // namespace dapple
