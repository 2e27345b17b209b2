// The text of the pages' parts, from parts/ and night/. page_parts.cpp is made by the build.
// Private to this folder.
#pragma once

namespace dapple {

extern const char* const kPageHtml;
extern const char* const kPageStyle;
extern const char* const kPageCode;  // all scripts, in order

extern const char* const kNightHtml;
extern const char* const kNightStyle;
extern const char* const kNightCode;

}  // namespace dapple
