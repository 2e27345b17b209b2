// Pages as the bytes of files. Nothing is written here: output/safe_file does that.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sheets/page.h"

namespace dapple {

inline constexpr double kPrintDpi = 150;  // of PNGs of printed pages

// Each throws std::runtime_error if the file cannot be made, for example for lack of memory.

// One page of the document for each page.
std::string pdf_of(const std::vector<Page>& pages, const std::string& title);
// The same of pages that are made one after the other: `make_pages` calls what it is given for
// each.
using PageUse = std::function<void(const Page&)>;
std::string pdf_of(const std::function<void(const PageUse&)>& make_pages, const std::string& title);
// The pages below each other.
std::string svg_of(const std::vector<Page>& pages);
// The pages below each other on white, with `dpi` pixels per inch; fewer where the picture would
// have more than 32 000 rows.
std::string png_of(const std::vector<Page>& pages, double dpi = kPrintDpi);
// One page as a picture: sRGB encoded, 0 to 1, in steps of 1/255.
Picture picture_of(const Page& page, double dpi = kPrintDpi);

}  // namespace dapple
