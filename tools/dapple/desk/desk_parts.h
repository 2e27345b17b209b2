// The text of the desk's page, from parts/. desk_parts.cpp is made by the build.
#pragma once

namespace dapple {

extern const char* const kDeskHtml;
extern const char* const kDeskStyle;
extern const char* const kDeskCode;  // all scripts, in order

}  // namespace dapple
