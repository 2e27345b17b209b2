// The text of the page's parts, from parts/. page_parts.cpp is made by the build. Private to this
// folder.
#pragma once

namespace dapple {

extern const char* const kPageHtml;
extern const char* const kPageStyle;
extern const char* const kPageCode;  // all scripts, in order

}  // namespace dapple
