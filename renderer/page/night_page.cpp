#include "page/night_page.h"

#include <cstdint>

#include "page/html_text.h"
#include "page/page_parts.h"

namespace dapple {

namespace {

// As browsers read it in data: addresses (RFC 4648).
std::string base64(const std::string& bytes) {
    constexpr char kDigits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (size_t i = 0; i < bytes.size(); i += 3) {
        uint32_t word = 0;
        for (size_t k = 0; k < 3; ++k) {
            const auto byte = i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U;
            word = word << 8U | byte;
        }
        for (size_t k = 0; k < 4; ++k) {
            const bool is_filler = i + k > bytes.size();
            text += is_filler ? '=' : kDigits[word >> (18U - 6U * k) & 63U];
        }
    }
    return text;
}

}  // namespace

std::string make_night_page(const NightPage& page) {
    std::string data =
        "<script type=\"application/json\" id=\"night\">" + in_script(page.json) + "</script>\n";
    for (const std::string& picture : page.pictures) {
        data += "<script type=\"text/plain\" class=\"picture\">" + base64(picture) + "</script>\n";
    }
    std::string html = kNightHtml;
    replace_mark(html, "@STYLE@", kNightStyle);
    replace_mark(html, "@CODE@", kNightCode);
    replace_mark(html, "@TITLE@", in_html(page.title));
    replace_mark(html, "@DATA@", data);
    return html;
}

}  // namespace dapple
