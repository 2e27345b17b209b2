# Makes desk_parts.cpp from the desk's page:
#   cmake -D OUT=desk_parts.cpp -D PARTS=parts -P embed.cmake
set(scripts ask.js words.js views.js keys.js things.js frame.js add.js seek.js desk.js)
file(READ ${PARTS}/desk.html html)
file(READ ${PARTS}/desk.css style)
set(code "\"use strict\";\n")
foreach(script IN LISTS scripts)
    file(READ ${PARTS}/${script} text)
    string(APPEND code "${text}\n")
endforeach()
file(WRITE ${OUT} "#include \"desk/desk_parts.h\"

namespace dapple {

const char* const kDeskHtml = R\"PART(${html})PART\";
const char* const kDeskStyle = R\"PART(${style})PART\";
const char* const kDeskCode = R\"PART(${code})PART\";

}  // namespace dapple
")
