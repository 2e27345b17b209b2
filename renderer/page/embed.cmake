# Makes page_parts.cpp from the page's parts:
#   cmake -D OUT=page_parts.cpp -D PARTS=parts -P embed.cmake
set(scripts codec.js picture.js light.js draw.js controls.js readings.js page.js)
file(READ ${PARTS}/page.html html)
file(READ ${PARTS}/page.css style)
set(code "")
foreach(script IN LISTS scripts)
    file(READ ${PARTS}/${script} text)
    string(APPEND code "${text}\n")
endforeach()
file(WRITE ${OUT} "#include \"page/page_parts.h\"

namespace dapple {

const char* const kPageHtml = R\"PART(${html})PART\";
const char* const kPageStyle = R\"PART(${style})PART\";
const char* const kPageCode = R\"PART(${code})PART\";

}  // namespace dapple
")
